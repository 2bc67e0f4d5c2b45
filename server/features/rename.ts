import type { Analysis } from '../analysis.ts';
import { identifier } from '../quantities/words.ts';
import type { PlacedEdit } from '../text/edit.ts';
import type { Span } from '../text/span.ts';
import { type IdSymbol, isDeclared, occurrenceAt, occurrencesOf } from './symbols.ts';

/** The edits that give an id another name everywhere, or why it cannot be done. */
export type Renamed = { readonly edits: readonly PlacedEdit[] } | { readonly refused: string };

/** The id at an offset that can be renamed: its place without quotes, and its text. */
export function renameable(
  analysis: Analysis,
  offset: number,
): { readonly span: Span; readonly text: string } | undefined {
  const here = occurrenceAt(analysis, offset);
  return here === undefined ? undefined : { span: here.span, text: here.symbol.id };
}

/**
 * Renames the id at an offset where it is declared and where it is used, in this document and in the others that are
 * known: for equipment, in the kit and in every plan that names that kit. Only the text of the id is replaced; quotes
 * around it stay. Refused when the name is no id, is taken, or when it cannot be told what the id stands for.
 */
export function rename(
  analyses: readonly Analysis[],
  analysis: Analysis,
  offset: number,
  name: string,
): Renamed {
  const here = occurrenceAt(analysis, offset);
  if (here === undefined) return { refused: 'There is no id here that could be renamed.' };
  const { symbol } = here;
  const reading = identifier.parse(name);
  const id = reading.value;
  if (id === undefined) return { refused: reading.problems[0]?.message ?? 'This is no id.' };
  if (id === symbol.id) return { edits: [] };
  const documents = [analysis, ...analyses];
  const refused = refusal(symbol, id, documents);
  if (refused !== undefined) return { refused };
  const edits = occurrencesOf(symbol, documents).map(({ uri, span }) => ({ uri, span, text: id }));
  return { edits };
}

function refusal(symbol: IdSymbol, id: string, documents: readonly Analysis[]): string | undefined {
  const { target } = symbol;
  if (isDeclared({ ...symbol, id }, documents)) {
    return `There is already a ${target} “${id}”. Choose another name.`;
  }
  const declarations = occurrencesOf(symbol, documents).filter(({ isDeclaration }) => isDeclaration);
  if (declarations.length === 0)
    return `Nothing declares the ${target} “${symbol.id}”. Correct the id first.`;
  if (declarations.length > 1) {
    return `There are ${declarations.length} things with the id “${symbol.id}”. Give each its own id by hand first.`;
  }
  return undefined;
}
