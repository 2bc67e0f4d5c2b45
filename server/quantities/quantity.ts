import type { Problem } from '../text/finding.ts';

/** What reading one scalar gives: a value, or none; and what is to be said about it. A value may come with problems (warnings). */
export interface Reading<T> {
  readonly value?: T;
  readonly problems: readonly Problem[];
}

/** One thing that the editor can offer while a scalar is written. */
export interface Suggestion {
  /** The whole text of the scalar. */
  readonly text: string;
  /** A few words beside it. */
  readonly detail?: string;
}

/**
 * One kind of scalar of the language. Stateless; no method throws or takes more than linear time.
 * `parse` is given the scalar's text as written (quotes removed), and keeps nothing: the caller keeps the spelling.
 */
export interface Quantity<T> {
  /** One or two words in the trade's terms: "shutter time". */
  readonly name: string;
  /** How it may be written, in Markdown: one line of meaning and unit, then the spellings. */
  readonly documentation: string;
  /** Valid spellings, the most usual first. The published schema and completion show them. */
  readonly examples: readonly string[];
  /** Whether the text looks like this kind, valid or not: the colouring and the error messages ask. Cheap. */
  recognise(text: string): boolean;
  parse(text: string): Reading<T>;
  /** The usual spelling. `parse(format(v)).value` equals `v` for every value that `parse` can return. */
  format(value: T): string;
  /** Whole scalars that begin with or fit what has been typed so far. */
  complete(typed: string): readonly Suggestion[];
}

/** A reading that is fine. */
export function read<T>(value: T, problems: readonly Problem[] = []): Reading<T> {
  return { value, problems };
}

/** A reading that failed: one error over the whole text, or over a part of it. */
export function refused(
  text: string,
  message: string,
  options: { code?: string; start?: number; end?: number; rewrite?: string; facts?: Problem['facts'] } = {},
): Reading<never> {
  const { code = 'plan/unreadable', start = 0, end = text.length, rewrite, facts } = options;
  return {
    problems: [
      {
        code,
        message,
        span: { start, end },
        severity: 'error',
        ...(rewrite === undefined ? {} : { rewrite }),
        ...(facts === undefined ? {} : { facts }),
      },
    ],
  };
}
