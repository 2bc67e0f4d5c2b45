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
  let result = text;
  for (const edit of [...edits].sort((a, b) => b.span.start - a.span.start)) {
    result = result.slice(0, edit.span.start) + edit.text + result.slice(edit.span.end);
  }
  return result;
}
