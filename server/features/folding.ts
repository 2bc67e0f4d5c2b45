import type { Analysis } from '../analysis.ts';
import type { Node } from '../plan/tree.ts';
import { Lines } from '../text/lines.ts';
import type { Span } from '../text/span.ts';

/** A stretch of text that can be folded up to its first line. */
export interface Fold {
  readonly span: Span;
  readonly kind: 'section' | 'comment';
}

/** Sections, list items and longer values of more than one line, and blocks of comments; at most one fold for a line. */
export function folding(analysis: Analysis): readonly Fold[] {
  const document = analysis.kind === 'plan' ? analysis.plan : analysis.kit;
  if (document === undefined) return [];
  const { text } = analysis;
  const lines = new Lines(text);
  const byLine = new Map<number, Fold>();
  const add = (start: number, end: number, kind: Fold['kind']) => {
    const trimmed = start + text.slice(start, end).trimEnd().length;
    const first = lines.position(start).line;
    if (lines.position(trimmed).line === first || byLine.has(first)) return;
    byLine.set(first, { span: { start, end: trimmed }, kind });
  };
  walk(document.root, (start, end) => add(start, end, 'section'));
  for (const { start, end } of comments(text, lines)) add(start, end, 'comment');
  return [...byLine.values()].sort((a, b) => a.span.start - b.span.start);
}

/** Outer ones first, so that they win the line. The tree's depth is bounded by the reader. */
function walk(node: Node, add: (start: number, end: number) => void): void {
  if (node.kind === 'map') {
    for (const { key, value, span } of node.entries) {
      add(span.start, span.end);
      if (value.span.start >= key.span.end) walk(value, add);
    }
  } else if (node.kind === 'sequence') {
    for (const item of node.items) {
      add(item.span.start, item.span.end);
      walk(item, add);
    }
  }
}

/** Runs of two or more lines that hold nothing but a comment. */
function comments(text: string, lines: Lines): readonly Span[] {
  const runs: Span[] = [];
  let start: number | undefined;
  let end = 0;
  for (let line = 0; line <= lines.count; line += 1) {
    const span = lines.lineSpan(line);
    const isComment = line < lines.count && /^\ufeff?[ \t]*#/.test(text.slice(span.start, span.end));
    if (isComment) {
      start ??= span.start;
      end = span.end;
    } else if (start !== undefined) {
      runs.push({ start, end });
      start = undefined;
    }
  }
  return runs;
}
