import type { Place, Span } from './span.ts';

/** A replacement of one span of a text. */
export interface Edit {
  readonly span: Span;
  readonly text: string;
}

/** A replacement in a named document. */
export interface PlacedEdit extends Place {
  readonly text: string;
}

/** The text after all edits. They must not overlap; their order does not matter. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const parts: string[] = [];
  let from = 0;
  for (const { span, text: inserted } of [...edits].sort((a, b) => a.span.start - b.span.start)) {
    parts.push(text.slice(from, span.start), inserted);
    from = span.end;
  }
  return parts.join('') + text.slice(from);
}
