import type { Span } from '../text/span.ts';
import {
  asSuggestions,
  fits,
  impossible,
  isRefusal,
  leftover,
  type Measure,
  plain,
  takeMeasure,
  takeNumber,
} from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { inside, Scanner, shortened } from './scan.ts';
import { beginning } from './suggest.ts';

const FOCAL: Measure = { what: 'focal length', units: new Map([['mm', 1]]), usual: ['mm'] };
const SHORTEST_MILLIMETRES = 1;
const LONGEST_MILLIMETRES = 10_000;

/** The focal lengths of a lens: the same twice for a prime. */
export interface FocalRange {
  readonly shortestMillimetres: number;
  readonly longestMillimetres: number;
}

const examples = ['24 mm', '16-35 mm', '24-70 mm', '70-200 mm', '50 mm', '16 .. 35 mm'];

/** The focal length of a prime, or the range of a zoom, in millimetres as engraved on the lens. */
export const focalLength: Quantity<FocalRange> = {
  name: 'focal length',
  documentation:
    'The focal length as engraved on the lens, or its range.\n\n`24 mm`, `16-35 mm`, `16–35 mm`, `16 .. 35 mm`.',
  examples,
  recognise: (text) => fits(text, /^\s*[\d.]+\s*(mm)?\s*((\.\.|[-–])\s*[\d.]+\s*)?(mm)?\s*$/u),
  parse(text) {
    const scanner = new Scanner(text);
    const start = scanner.at;
    const first = takeNumber(scanner, 'a focal length, as in 24 mm or 16-35 mm', false);
    if (isRefusal(first)) return first;
    const firstUnit = scanner.take('mm');
    const isRange = scanner.take('..') || scanner.takeAny('-–') !== undefined;
    if (!isRange) {
      scanner.at = start;
      const only = takeFocal(scanner);
      if (typeof only !== 'number') return only;
      return (
        leftover(scanner, 'the focal length') ?? read({ shortestMillimetres: only, longestMillimetres: only })
      );
    }
    const second = takeNumber(scanner, 'the longest focal length, as in 16-35 mm', false);
    if (isRefusal(second)) return second;
    if (!scanner.take('mm') && (!firstUnit || !scanner.done)) return unitMissing(scanner, text);
    const rest = leftover(scanner, 'the focal length');
    if (rest !== undefined) return rest;
    const outside = [first.value, second.value].find((value) => !isPossible(value));
    if (outside !== undefined) return impossibleFocal(text);
    if (first.value > second.value) {
      const rewrite = `${plain(second.value)}-${plain(first.value)} mm`;
      return impossible(text, `Write the shortest focal length first: ${rewrite}.`, rewrite);
    }
    return read({ shortestMillimetres: first.value, longestMillimetres: second.value });
  },
  format: ({ shortestMillimetres: shortest, longestMillimetres: longest }) =>
    shortest === longest ? `${plain(shortest)} mm` : `${plain(shortest)}-${plain(longest)} mm`,
  complete: (typed) => beginning(typed, asSuggestions(examples)),
};

function unitMissing(scanner: Scanner, text: string): Reading<never> {
  if (!scanner.done) return scanner.unexpected('mm behind the focal length');
  const rewrite = `${text.trim()} mm`;
  return refused(text, `The unit is missing. Write ${shortened(rewrite)}.`, {
    code: 'plan/missing-unit',
    rewrite,
  });
}

/** Takes one focal length with its unit. */
function takeFocal(scanner: Scanner): number | Reading<never> {
  const focal = takeMeasure(scanner, FOCAL);
  if (isRefusal(focal)) return focal;
  return isPossible(focal.value) ? focal.value : impossibleFocal(scanner.text);
}

function isPossible(millimetres: number): boolean {
  return millimetres >= SHORTEST_MILLIMETRES && millimetres <= LONGEST_MILLIMETRES;
}

function impossibleFocal(text: string): Reading<never> {
  return impossible(text, `Focal lengths go from ${SHORTEST_MILLIMETRES} mm to ${LONGEST_MILLIMETRES} mm.`);
}

/** The lens of a shot, by its id in the kit, and for a zoom where it is set. Spans count within the scalar. */
export interface LensChoice {
  readonly lens: string;
  readonly lensSpan: Span;
  readonly focalMillimetres?: number;
  readonly focalSpan?: Span;
}

const choiceExamples = ['wide @ 24 mm', 'wide'];

/** The lens of a shot. The spans of what `format` writes differ from those of another spelling; lens and focal length do not. */
export const lensChoice: Quantity<LensChoice> = {
  name: 'lens of a shot',
  documentation: 'The id of a lens in the kit, and for a zoom the focal length.\n\n`wide @ 24 mm`, `wide`.',
  examples: choiceExamples,
  recognise: (text) => fits(text, /^\s*[\p{L}\p{N}_-]+\s*@/u),
  parse(text) {
    if (focalLength.parse(text).value !== undefined) {
      return refused(text, `Name the lens as well: the id of a lens in the kit, then @ ${shortened(text)}.`);
    }
    const scanner = new Scanner(text);
    const lens = scanner.id();
    if (lens === undefined) return scanner.unexpected('the id of a lens in the kit, as in wide @ 24 mm');
    const named = { lens: lens.text, lensSpan: lens.span };
    if (scanner.done) return read(named);
    if (!scanner.take('@')) return scanner.unexpected('@ and a focal length, as in wide @ 24 mm');
    scanner.skipBlanks();
    const focalSpan = { start: scanner.at, end: Math.max(scanner.at, text.trimEnd().length) };
    const focal = focalLength.parse(text.slice(focalSpan.start, focalSpan.end));
    if (focal.value === undefined) return { problems: inside(text, focalSpan, focal.problems) };
    const { shortestMillimetres, longestMillimetres } = focal.value;
    if (shortestMillimetres !== longestMillimetres) {
      return refused(text, 'A shot has one focal length, as in wide @ 24 mm.', focalSpan);
    }
    return read({ ...named, focalMillimetres: shortestMillimetres, focalSpan });
  },
  format: ({ lens, focalMillimetres }) =>
    focalMillimetres === undefined ? lens : `${lens} @ ${plain(focalMillimetres)} mm`,
  complete: (typed) => beginning(typed, asSuggestions(choiceExamples)),
};
