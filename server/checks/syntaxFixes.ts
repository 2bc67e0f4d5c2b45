import type { Finding, Fix } from '../text/finding.ts';

/** What the edits of each code do, for people; other codes say “Mend this line”. */
const titles: ReadonlyMap<string, string> = new Map([
  ['syntax/colon-missing', 'Put a colon after the key'],
  ['syntax/space-missing', 'Put a space after the colon'],
  ['syntax/dash-missing', 'Put a dash before the item'],
  ['syntax/colon-in-value', 'Put the value in quotes'],
  ['syntax/reserved-character', 'Put the value in quotes'],
  ['syntax/unclosed-bracket', 'Close the bracket'],
  ['syntax/unclosed-quote', 'Close the quote'],
  ['syntax/value-above-block', 'Remove the value above the block'],
  ['syntax/indentation', 'Align this line with its neighbours'],
  ['syntax/tab', 'Put spaces in the place of the tab'],
]);

/** The mend of broken YAML: what the reader changed in order to read on, from `edits` in the facts, is written into the text. */
export function syntaxFixes({ code, uri, facts }: Finding): readonly Fix[] {
  const { edits } = facts;
  if (!Array.isArray(edits) || edits.length === 0) return [];
  const placed = (edits as readonly StoredEdit[]).map(({ start, end, text }) => ({
    uri,
    span: { start, end },
    text,
  }));
  return [{ title: titles.get(code) ?? 'Mend this line', edits: placed, preferred: true }];
}

interface StoredEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}
