import { isBreak, rowsOf } from './rows.ts';

/** A text that short cannot nest deeply enough to matter. */
const shortText = 1000;

/**
 * Whether the text may be nested deeper than `limit`: by brackets, by indicators in one line (`- - -`), or by ever
 * deeper lines. A quick bound from above, to keep such text away from a parser that recurses.
 */
export function isTooDeep(text: string, limit: number): boolean {
  if (text.length < shortText) return false;
  let brackets = 0;
  let indicators = 0;
  for (let at = 0; at < text.length; at += 1) {
    const unit = text[at];
    if (unit === '[' || unit === '{') brackets += 1;
    else if ((unit === ']' || unit === '}') && brackets > 0) brackets -= 1;
    else if (unit === '\n') indicators = 0;
    else if ((unit === '-' || unit === '?' || unit === ':') && isBreak(text.charCodeAt(at + 1)))
      indicators += 1;
    if (brackets > limit || indicators > limit) return true;
  }
  const columns: number[] = [];
  for (const row of rowsOf(text)) {
    if (row.first === 0) continue;
    while (columns.length > 0 && (columns.at(-1) as number) >= row.indent) columns.pop();
    columns.push(row.indent);
    if (columns.length > limit) return true;
  }
  return false;
}
