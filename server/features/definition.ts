import type { Analysis } from '../analysis.ts';
import { type Place, touches } from '../text/span.ts';
import { occurrenceAt, occurrencesOf } from './symbols.ts';

/** Where the id at an offset is declared, in this document or in its kit; for the path of a kit, the beginning of that file. */
export function definition(analysis: Analysis, offset: number): readonly Place[] {
  const { kitFile } = analysis;
  if (kitFile?.opened.kind === 'text' && touches(kitFile.place.span, offset)) {
    return [{ uri: kitFile.opened.uri, span: { start: 0, end: 0 } }];
  }
  const here = occurrenceAt(analysis, offset);
  if (here === undefined) return [];
  return occurrencesOf(here.symbol, [analysis])
    .filter(({ isDeclaration }) => isDeclaration)
    .map(({ uri, span }) => ({ uri, span }));
}
