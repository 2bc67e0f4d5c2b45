import type { Rule } from '../../analysis.ts';
import type { Edit } from '../../text/edit.ts';
import type { Span } from '../../text/span.ts';

/** What sort of thing is offered: it decides the icon. */
export type CompletionKind = 'key' | 'value' | 'word' | 'id' | 'stack' | 'file' | 'code';

/** One thing that is offered at the cursor: exactly which span is replaced, and by what. */
export interface CompletionItem {
  /** On the line of the cursor, which lies in it or at its end. */
  readonly span: Span;
  /** With the indentation of every further line: the editor must not add any. */
  readonly text: string;
  readonly label: string;
  /** Plain text. */
  readonly detail?: string;
  /** Markdown of this program; what comes from plans is escaped in it. */
  readonly documentation?: string;
  readonly kind: CompletionKind;
  /** The order of the items. */
  readonly sort: string;
  /** What the text in the span is compared with while more is typed, where it is not the label. */
  readonly filter?: string;
  /** The text is a snippet: `$1` is where the cursor goes; `$`, `}` and `\` of the text itself are escaped. */
  readonly snippet?: true;
  /** Edits elsewhere that belong to it. */
  readonly additional?: readonly Edit[];
}

/** What completion is told of the world around the document. */
export interface CompletionOptions {
  /** URIs of kit files that a plan could name. */
  readonly kits?: readonly string[];
  /** The rules, for the codes under `checks`. */
  readonly rules?: readonly Rule[];
}

/** A number that sorts as text. */
export function ordered(group: number, index: number): string {
  return `${group}${String(index).padStart(4, '0')}`;
}
