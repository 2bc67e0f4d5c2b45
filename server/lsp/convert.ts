import type { Position, Range } from 'vscode-languageserver';
import type { Lines } from '../text/lines.ts';
import type { Span } from '../text/span.ts';

/**
 * The one place where offsets become positions of the protocol and back. Both count UTF-16 code units, so a position is
 * a line and a column of the very text that the offsets count in: nothing is normalised on the way.
 */

export function toPosition(lines: Lines, offset: number): Position {
  return lines.position(offset);
}

export function toRange(lines: Lines, { start, end }: Span): Range {
  return { start: lines.position(start), end: lines.position(end) };
}

export function toOffset(lines: Lines, { line, character }: Position): number {
  return lines.offset(line, character);
}

/** A range that ends before it starts is read backwards. */
export function toSpan(lines: Lines, { start, end }: Range): Span {
  const from = toOffset(lines, start);
  const to = toOffset(lines, end);
  return from <= to ? { start: from, end: to } : { start: to, end: from };
}
