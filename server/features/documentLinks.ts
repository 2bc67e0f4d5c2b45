import type { Analysis } from '../analysis.ts';
import type { Span } from '../text/span.ts';

/** A place that opens another document. */
export interface DocumentLink {
  readonly span: Span;
  /** A URI. */
  readonly target: string;
  /** Plain text. */
  readonly tooltip: string;
}

/** The path of the kit, unless it is refused: a file that is not there yet can be made from its link. */
export function documentLinks({ uri, kitFile }: Analysis): readonly DocumentLink[] {
  if (kitFile === undefined || kitFile.opened.kind === 'refused' || kitFile.place.uri !== uri) return [];
  return [{ span: kitFile.place.span, target: kitFile.uri, tooltip: 'Open the kit' }];
}
