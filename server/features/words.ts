import type { Quantity } from '../quantities/quantity.ts';

/** The words of a kind of scalar that takes nothing else, with what each means; undefined for other kinds. */
export function closedWords(quantity: Quantity<unknown>): readonly string[] | undefined {
  const suggestions = quantity.complete('');
  const { examples } = quantity;
  if (suggestions.length !== examples.length || suggestions.length < 2) return undefined;
  const isClosed = suggestions.every(
    ({ text, detail }, index) => detail !== undefined && text === examples[index] && !/\d/.test(text),
  );
  return isClosed ? examples : undefined;
}
