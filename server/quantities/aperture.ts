import { asSuggestions, fits, impossible, isRefusal, leftover, plain, takeNumber } from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { type ScannedNumber, Scanner, shortened } from './scan.ts';
import { beginning } from './suggest.ts';

const WIDEST = 0.5;
const SMALLEST = 256;

/** Marked full and third stops, as on lenses: common practice, no source. */
const MARKED = [
  '1.4 1.8 2 2.8 4 5.6 8 11 16 22 32',
  '1.6 2.2 2.5 3.2 3.5 4.5 5 6.3 7.1 9 10 13 14 18 20 25 29',
].flatMap((row) => row.split(' '));

const examples = ['f/8', 'f/11', 'f/14', 'f/2.8', 'f14', 'F 14'];

/** The f-number of an exposure: focal length over the diameter of the entrance pupil, ISO 517. */
export const aperture: Quantity<number> = {
  name: 'aperture',
  documentation: 'The f-number of the exposure.\n\n`f/14`, `f14`, `F 14`, `f/2.8`.',
  examples,
  recognise: (text) => fits(text, /^\s*[fƒ]\s*\/?\s*\.?\d/iu),
  parse(text) {
    const scanner = new Scanner(text);
    if (scanner.takeAny('fFƒ') === undefined) return withoutF(scanner);
    scanner.slash();
    const number = takeFNumber(scanner, 'an f-number, as in f/14');
    if (isRefusal(number)) return number;
    return leftover(scanner, 'the aperture') ?? read(number.value);
  },
  format: (fNumber) => `f/${plain(fNumber)}`,
  complete: (typed) =>
    suggestions(
      typed,
      MARKED.map((number) => `f/${number}`),
    ),
};

/** The apertures of a lens. */
export interface ApertureRange {
  /** The smallest f-number. */
  readonly widest: number;
  /** The largest f-number. */
  readonly smallest: number;
}

const rangeExamples = ['f/2.8 .. f/22', 'f/4 .. f/22', 'f/4-22', 'f/1.4 .. f/16'];

/** The f-numbers of a lens, from wide open to stopped down. */
export const apertureRange: Quantity<ApertureRange> = {
  name: 'apertures of a lens',
  documentation: 'The f-numbers of the lens, wide open to stopped down.\n\n`f/4 .. f/22`, `f/4-22`.',
  examples: rangeExamples,
  recognise: (text) => fits(text, /^\s*[fƒ]\s*\/?\s*[\d.]+\s*(\.\.|[-–])\s*([fƒ]\s*\/?\s*)?\d/iu),
  parse(text) {
    const scanner = new Scanner(text);
    if (scanner.takeAny('fFƒ') === undefined) return scanner.unexpected('two apertures, as in f/4 .. f/22');
    scanner.slash();
    const first = takeFNumber(scanner, 'an f-number, as in f/4 .. f/22');
    if (isRefusal(first)) return first;
    if (!(scanner.take('..') || scanner.takeAny('-–'))) {
      if (!scanner.done) return scanner.unexpected('.. and the smallest aperture, as in f/4 .. f/22');
      return refused(text, `The other end is missing. Write f/4 .. f/22.`);
    }
    const marked = scanner.take('f') || scanner.take('F');
    if (marked) scanner.slash();
    const second = takeFNumber(scanner, 'the smallest aperture, as in f/4 .. f/22');
    if (isRefusal(second)) return second;
    const rest = leftover(scanner, 'the two apertures');
    if (rest !== undefined) return rest;
    if (first.value > second.value) {
      const rewrite = `f/${plain(second.value)} .. f/${plain(first.value)}`;
      return impossible(text, `Write the widest aperture first: ${rewrite}.`, rewrite);
    }
    return read({ widest: first.value, smallest: second.value });
  },
  format: ({ widest, smallest }) => `f/${plain(widest)} .. f/${plain(smallest)}`,
  complete: (typed) => suggestions(typed, rangeExamples),
};

function takeFNumber(scanner: Scanner, expected: string): ScannedNumber | Reading<never> {
  const { text } = scanner;
  const number = takeNumber(scanner, expected, false);
  if (isRefusal(number)) return number;
  const written = shortened(text.slice(number.span.start, number.span.end));
  if (number.form !== 'whole' && number.form !== 'decimal') {
    return refused(
      text,
      `An f-number is written as a decimal, as in f/2.8, not as “${written}”.`,
      number.span,
    );
  }
  if (number.value >= WIDEST && number.value <= SMALLEST) return number;
  return refused(
    text,
    `f/${written} is no aperture of a lens: f-numbers go from f/${WIDEST} to f/${SMALLEST}.`,
    {
      code: 'plan/impossible-value',
      ...number.span,
    },
  );
}

/** `14` alone is refused, with the rewrite when an f is all that is missing. */
function withoutF(scanner: Scanner): Reading<never> {
  const { text } = scanner;
  const number = scanner.number({ signed: false });
  if (number === undefined) return scanner.unexpected('an aperture, as in f/14');
  const written = text.slice(number.span.start, number.span.end).replace(',', '.');
  const readable = scanner.done && aperture.parse(`f/${written}`).value !== undefined;
  return refused(text, `An aperture starts with f. Write f/${readable ? written : '14'}.`, {
    code: 'plan/missing-unit',
    ...number.span,
    ...(readable ? { rewrite: `f/${written}` } : {}),
  });
}

/** Those that begin as typed, whether or not the `f/` has been typed. */
function suggestions(typed: string, texts: readonly string[]) {
  const number = typed.trim().replace(/^[fFƒ]\s{0,5}\/?\s{0,5}/u, '');
  return beginning(`f/${number}`, asSuggestions(texts));
}
