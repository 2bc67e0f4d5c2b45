import { isBreak, lineFeed, rowsOf } from './rows.ts';

/** A text that short cannot nest deeply enough to matter. */
const shortText = 1000;

const colon = 58;
const dash = 45;
const question = 63;
const openBracket = 91;
const closeBracket = 93;
const openBrace = 123;
const closeBrace = 125;

/**
 * Whether the text may be nested deeper than `limit`: by brackets, by indicators in one line (`- - -`), or by ever
 * deeper lines. A quick bound from above, to keep such text away from a parser that recurses.
 */
export function isTooDeep(text: string, limit: number): boolean {
  if (text.length < shortText) return false;
  let brackets = 0;
  let indicators = 0;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === openBracket || code === openBrace) brackets += 1;
    else if ((code === closeBracket || code === closeBrace) && brackets > 0) brackets -= 1;
    else if (code === lineFeed) indicators = 0;
    else if ((code === dash || code === question || code === colon) && isBreak(text.charCodeAt(at + 1)))
      indicators += 1;
    if (brackets > limit || indicators > limit) return true;
  }
  // Lines ever deeper have 0, 1, 2 ... spaces before them.
  if (text.length < (limit * limit) / 2) return false;
  const columns: number[] = [];
  for (const row of rowsOf(text)) {
    if (row.first === 0) continue;
    while (columns.length > 0 && (columns.at(-1) as number) >= row.indent) columns.pop();
    columns.push(row.indent);
    if (columns.length > limit) return true;
  }
  return false;
}
