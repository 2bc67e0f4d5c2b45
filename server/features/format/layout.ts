import { indexOfRow, type Row, rowsOf, withoutBareReturns } from '../../plan/rows.ts';
import type { Node, ScalarNode } from '../../plan/tree.ts';
import type { Span } from '../../text/span.ts';

/** What a formatter must know of a text besides its lines. */
export interface Layout {
  /** The text with every bare CR read as a line end; offsets are those of the text as received. */
  readonly text: string;
  readonly rows: readonly Row[];
  /** Lines that belong to a scalar of several lines: nothing in them is touched. */
  readonly kept: ReadonlySet<number>;
  /** The outermost collections in brackets. */
  readonly brackets: readonly Span[];
}

export function layoutOf(received: string, root: Node): Layout {
  const text = withoutBareReturns(received);
  const rows = rowsOf(text);
  const scalars: ScalarNode[] = [];
  const brackets: Span[] = [];
  visit(root, scalars, brackets, false);
  const kept = new Set<number>();
  for (const { span, style, content } of scalars) {
    const from = style === 'block' ? content.start : span.start;
    if (style !== 'block' && !text.slice(span.start, span.end).includes('\n')) continue;
    const first = indexOfRow(rows, from);
    let last = indexOfRow(rows, Math.max(from, span.end - 1));
    // Empty lines below a text may be part of it.
    if (style === 'block') while (rows[last + 1]?.first === 0) last += 1;
    for (let index = first; index <= last; index += 1) kept.add(index);
  }
  return { text, rows, kept, brackets: brackets.sort((a, b) => a.start - b.start) };
}

function visit(node: Node, scalars: ScalarNode[], brackets: Span[], inFlow: boolean): void {
  if (node.kind === 'scalar') scalars.push(node);
  if (node.kind !== 'map' && node.kind !== 'sequence') return;
  if (node.flow && !inFlow) brackets.push(node.span);
  const isFlow = inFlow || node.flow;
  if (node.kind === 'sequence') {
    for (const item of node.items) visit(item, scalars, brackets, isFlow);
    return;
  }
  for (const { key, value } of node.entries) {
    visit(key, scalars, brackets, isFlow);
    visit(value, scalars, brackets, isFlow);
  }
}

/** What a tree says, without where it stands: to compare two texts. */
export function meaning(node: Node): unknown {
  switch (node.kind) {
    case 'scalar':
      return [node.text, node.anchor];
    case 'alias':
      return { alias: node.name };
    case 'empty':
      return null;
    case 'sequence':
      return { list: node.items.map(meaning), anchor: node.anchor };
    case 'map':
      return {
        map: node.entries.map(({ key, value }) => [meaning(key), meaning(value)]),
        anchor: node.anchor,
      };
  }
}
