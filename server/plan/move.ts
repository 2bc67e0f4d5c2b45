import type { Edit } from '../text/edit.ts';
import type { Facts } from '../text/finding.ts';
import type { Span } from '../text/span.ts';
import type { TextFinding } from './syntax.ts';
import type { Entry, Node, ScalarNode } from './tree.ts';

/** Where an offset of one text stands in another; never decreasing. */
export type OffsetMap = (offset: number) => number;

/** How an edited text lies in the one it was made from. */
export interface TextMap {
  readonly at: OffsetMap;
  /** Whether the text between two offsets was left as it was. */
  keeps(start: number, end: number): boolean;
}

/** The way back through two series of edits, the later one first. */
export function through(later: TextMap, earlier: TextMap | undefined): TextMap {
  if (earlier === undefined) return later;
  return {
    at: (offset) => earlier.at(later.at(offset)),
    keeps: (start, end) => later.keeps(start, end) && earlier.keeps(later.at(start), later.at(end)),
  };
}

/** The way back through edits of one text, which do not overlap. */
export function backThrough(edits: readonly Edit[]): TextMap {
  const ordered = [...edits].sort((a, b) => a.span.start - b.span.start);
  /** Where each edit starts in the edited text. */
  const starts: number[] = [];
  let growth = 0;
  for (const edit of ordered) {
    starts.push(edit.span.start + growth);
    growth += edit.text.length - (edit.span.end - edit.span.start);
  }
  const lastBefore = (offset: number): number => {
    let low = -1;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] as number) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  return {
    at: (offset) => {
      const index = lastBefore(offset);
      const edit = ordered[index];
      if (edit === undefined) return offset;
      const within = offset - (starts[index] as number);
      if (within < edit.text.length) return Math.min(edit.span.start + within, edit.span.end);
      return edit.span.end + within - edit.text.length;
    },
    keeps: (start, end) => {
      const index = lastBefore(end);
      const edit = ordered[index];
      return edit === undefined || (starts[index] as number) + edit.text.length <= start;
    },
  };
}

export function movedSpan(span: Span, to: OffsetMap): Span {
  return { start: to(span.start), end: to(span.end) };
}

/** The same node, with every offset mapped. */
export function movedNode(node: Node, to: OffsetMap): Node {
  switch (node.kind) {
    case 'scalar':
      return movedScalar(node, to);
    case 'map': {
      const entries: Entry[] = node.entries.map((entry) => ({
        key: movedScalar(entry.key, to),
        value: movedNode(entry.value, to),
        span: movedSpan(entry.span, to),
      }));
      return { ...node, span: movedSpan(node.span, to), entries };
    }
    case 'sequence':
      return {
        ...node,
        span: movedSpan(node.span, to),
        items: node.items.map((item) => movedNode(item, to)),
      };
    default:
      return { ...node, span: movedSpan(node.span, to) };
  }
}

/** A scalar into which something was written to read it is no longer exact. */
function movedScalar(node: ScalarNode, to: OffsetMap): ScalarNode {
  const content = movedSpan(node.content, to);
  const exact = node.exact && content.end - content.start === node.text.length;
  return { ...node, span: movedSpan(node.span, to), content, exact };
}

/** The same finding, with every offset mapped. */
export function movedFinding(finding: TextFinding, to: OffsetMap): TextFinding {
  return {
    ...finding,
    span: movedSpan(finding.span, to),
    related: finding.related.map((related) => ({ ...related, span: movedSpan(related.span, to) })),
    facts: movedFacts(finding.facts, to),
  };
}

function movedFacts(facts: Facts, to: OffsetMap): Facts {
  const { edits } = facts;
  if (!Array.isArray(edits)) return facts;
  const moved = (edits as { start: number; end: number; text: string }[]).map(({ start, end, text }) => ({
    start: to(start),
    end: to(end),
    text,
  }));
  return { ...facts, edits: moved };
}
