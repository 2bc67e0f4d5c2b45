import type { PlacedEdit } from './edit.ts';
import type { Place, Span } from './span.ts';

/** error: contradictory, impossible or a safety limit broken; warning: will probably spoil the picture or the day; hint: worth knowing. */
export type Severity = 'error' | 'warning' | 'hint';

/** A plain value that a fix or a machine reads; never text to show. Units are in the key. */
export type Fact = string | number | boolean | null | readonly Fact[] | { readonly [key: string]: Fact };
export type Facts = { readonly [key: string]: Fact };

/** Another place that has part in a finding. */
export interface Related extends Place {
  readonly message: string;
}

/** One thing that is wrong or worth knowing, at its place. */
export interface Finding extends Place {
  /** `family/name`, stable and documented. */
  readonly code: string;
  readonly severity: Severity;
  /** What is wrong, by how much, and what would mend it. Plain text. */
  readonly message: string;
  readonly related: readonly Related[];
  /** What fixes and machines read. */
  readonly facts: Facts;
}

/** A mechanical mend: edits of text, in any of the documents at hand. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly PlacedEdit[];
  /** The one to take when a single key is pressed. */
  readonly preferred?: boolean;
}

/** What a reader of one scalar reports: as a finding, but its span counts from the start of that scalar's text. */
export interface Problem {
  readonly code: string;
  readonly message: string;
  readonly span: Span;
  readonly severity?: Severity;
  /** What to write instead of the whole scalar, where that is certain. */
  readonly rewrite?: string;
  readonly facts?: Facts;
}
