import type { Suggestion } from './quantity.ts';
import { Scanner } from './scan.ts';

/** The suggestions that begin with what has been typed, without regard to case and to the number of blanks; all of them for nothing typed. */
export function beginning(typed: string, suggestions: readonly Suggestion[]): readonly Suggestion[] {
  const wanted = plain(typed);
  return suggestions.filter((suggestion) => plain(suggestion.text).startsWith(wanted));
}

/**
 * The number that has been typed with each of these units: `30` gives `30 s`, `30 min`. Nothing unless the typed text is
 * one number and at most the beginning of a unit. A unit is given as it is to stand behind the number, with its blank: ` s`, `°`.
 */
export function withUnits(typed: string, units: readonly Suggestion[]): readonly Suggestion[] {
  const scanner = new Scanner(typed);
  const number = scanner.number();
  if (number === undefined || number.decimalComma || !Number.isFinite(number.value)) return [];
  const begun = plain(typed.slice(number.span.end));
  const written = typed.slice(number.span.start, number.span.end);
  return units
    .filter((unit) => plain(unit.text).startsWith(begun))
    .map((unit) => ({ ...unit, text: written + unit.text }));
}

/** The suggestions without those that repeat a text. */
export function distinct(suggestions: readonly Suggestion[]): readonly Suggestion[] {
  const texts = new Set<string>();
  return suggestions.filter(({ text }) => {
    const isNew = !texts.has(text);
    texts.add(text);
    return isNew;
  });
}

function plain(text: string): string {
  return text.slice(0, 200).replace(/\s+/g, ' ').trim().toLowerCase();
}
