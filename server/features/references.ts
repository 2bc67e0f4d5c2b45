import type { Analysis } from '../analysis.ts';
import type { Place } from '../text/span.ts';
import { occurrenceAt, occurrencesOf } from './symbols.ts';

/** Every place that names the id at an offset, in this document and in the others that are known; each once. */
export function references(
  analyses: readonly Analysis[],
  analysis: Analysis,
  offset: number,
  includeDeclaration: boolean,
): readonly Place[] {
  const here = occurrenceAt(analysis, offset);
  if (here === undefined) return [];
  return occurrencesOf(here.symbol, [analysis, ...analyses])
    .filter(({ isDeclaration }) => includeDeclaration || !isDeclaration)
    .map(({ uri, span }) => ({ uri, span }));
}
