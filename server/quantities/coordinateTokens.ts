import type { Span } from '../text/span.ts';
import { type Reading, refused } from './quantity.ts';
import { characterName, shortened } from './scan.ts';

/** What to write instead of coordinates that cannot be read. */
export const ADVICE = 'Write latitude, longitude: 54.4301, -2.6102.';

export type Unit = 'degree' | 'minute' | 'second';
export type Axis = 'latitude' | 'longitude';
export type Letter = 'N' | 'S' | 'E' | 'W';

export type Token = Span &
  (
    | { readonly kind: 'number'; readonly digits: string }
    | { readonly kind: 'mark'; readonly unit: Unit }
    | { readonly kind: 'letter'; readonly letter: Letter }
    | { readonly kind: 'sign'; readonly negative: boolean }
    | { readonly kind: 'separator' }
  );

const MARKS: ReadonlyMap<string, Unit> = new Map([
  ...[...'°º˚'].map((mark) => [mark, 'degree'] as const),
  ...[..."'’‘ʼ´′ʹ"].map((mark) => [mark, 'minute'] as const),
  ...[...'"”“″ʺ'].map((mark) => [mark, 'second'] as const),
  ['deg', 'degree'],
]);

const LETTERS: ReadonlyMap<string, Letter> = new Map([
  ['n', 'N'],
  ['s', 'S'],
  ['e', 'E'],
  ['w', 'W'],
  ['north', 'N'],
  ['south', 'S'],
  ['east', 'E'],
  ['west', 'W'],
]);

/** The tokens of the text, or the first thing in it that has no place there. */
export function tokenise(text: string): Token[] | Reading<never> {
  const tokens: Token[] = [];
  const piece = /\s+|\d+(?:\.\d*)?|\.\d+|''|[A-Za-z]+|./gsu;
  for (const match of text.matchAll(piece)) {
    const [found] = match;
    if (found.trim() === '') continue;
    const span = { start: match.index, end: match.index + found.length };
    const token = tokenFor(found, span);
    if (token === undefined) {
      const what = /^[A-Za-z]/.test(found) ? `“${shortened(found)}”` : characterName(found);
      return refused(text, `${what} has no place in coordinates. ${ADVICE}`, span);
    }
    tokens.push(token);
  }
  return tokens;
}

function tokenFor(found: string, span: Span): Token | undefined {
  if (/\d/.test(found)) return { kind: 'number', digits: found, ...span };
  if (found === ',' || found === ';') return { kind: 'separator', ...span };
  if (found === '+') return { kind: 'sign', negative: false, ...span };
  if ('-\u2212\u2013'.includes(found)) return { kind: 'sign', negative: true, ...span };
  if (found === "''") return { kind: 'mark', unit: 'second', ...span };
  const word = found.length <= 5 ? found.toLowerCase() : found;
  const unit = MARKS.get(word);
  if (unit !== undefined) return { kind: 'mark', unit, ...span };
  const letter = LETTERS.get(word);
  return letter === undefined ? undefined : { kind: 'letter', letter, ...span };
}
