import { isBlank, isBreak } from '../../plan/rows.ts';

/**
 * Where a text ends whose quote is opened before the cursor and not closed on its line: before what can only belong to
 * others. That is the colon, when it is a key that is being written; between brackets also a closing bracket, and a comma
 * when another key, or in a list another item, follows. `end`: the end of the line, or of the value on it.
 */
export function openQuoteEnd(text: string, offset: number, end: number, inside: '{' | '[' | ''): number {
  const word = wordEnd(text, offset, end);
  if (inside !== '[' && isKeyEnd(text, word, end)) return word;
  if (inside === '') return Math.max(end, offset);
  let at = offset;
  while (at < end && !endsHere(text, at, end, inside)) at += 1;
  while (at > offset && isBlank(text.charCodeAt(at - 1))) at -= 1;
  return at;
}

function endsHere(text: string, at: number, end: number, inside: '{' | '['): boolean {
  const unit = text[at];
  if (unit === '}' || unit === ']') return true;
  if (unit !== ',') return unit === '#' && isBlank(text.charCodeAt(at - 1));
  if (inside === '[') return true;
  let next = at + 1;
  while (next < end && isBlank(text.charCodeAt(next))) next += 1;
  const word = wordEnd(text, next, end);
  return word > next && isKeyEnd(text, word, end);
}

/** Behind the letters, digits and hyphens that stand at `from`. */
function wordEnd(text: string, from: number, end: number): number {
  let at = from;
  while (at < end && /[\p{L}\p{N}_/-]/u.test(text[at] as string)) at += 1;
  return at;
}

function isKeyEnd(text: string, at: number, end: number): boolean {
  return at < end && text[at] === ':' && isBreak(text.charCodeAt(at + 1));
}
