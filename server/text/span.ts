/** A half-open range of UTF-16 code units in one text: `start` is in, `end` is out. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A span in a named document. `uri` is the string under which the client knows it. */
export interface Place {
  readonly uri: string;
  readonly span: Span;
}

/** The span moved by `by` code units. */
export function shifted(span: Span, by: number): Span {
  return { start: span.start + by, end: span.end + by };
}

/** Whether `offset` lies in the span or at its end, where a caret still belongs to the word before it. */
export function touches(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}
