import type { Span } from '../text/span.ts';
import {
  asSuggestions,
  fits,
  impossible,
  isRefusal,
  kept,
  leftover,
  plain,
  readable,
  takeNumber,
} from './measure.ts';
import { type Quantity, type Reading, read, refused, type Suggestion } from './quantity.ts';
import { Scanner } from './scan.ts';
import { beginning, distinct, withUnits } from './suggest.ts';

const examples = ['-3°', '0°', '12.5°', '6°', '12.5 deg', "12°30'"];

/** An angle to the horizontal, up positive, from -90° to 90°: the tilt of the camera, the height of land above the horizon. */
export const angle: Quantity<number> = {
  name: 'angle',
  documentation:
    "An angle in degrees to the horizontal; below it is negative.\n\n`-3°`, `12.5°`, `12.5 deg`, `12°30'`, `-3`.",
  examples,
  recognise: (text) => fits(text, /^\s*[-+−–]?\s*\.?\d[\d.]*\s*([°º˚]|deg|$)/u),
  parse(text) {
    const scanner = new Scanner(text);
    const degrees = takeDegrees(scanner, 'an angle, as in -3°');
    if (isRefusal(degrees)) return degrees;
    const rest = leftover(scanner, 'the angle');
    if (rest !== undefined) return rest;
    if (Math.abs(degrees.value) <= 90) return read(degrees.value);
    return impossible(
      text,
      'Straight up is 90° and straight down -90°: no angle to the horizontal is larger.',
    );
  },
  format: (degrees) => `${plain(degrees)}°`,
  complete: (typed) => completed(angle, typed, examples),
};

const sweepExamples = ['120°', '90°', '180°', '360°'];

/** The angle that a panorama covers, from one edge to the other: at most once round. */
export const sweepAngle: Quantity<number> = {
  name: 'angle of a sweep',
  documentation:
    'The angle that a panorama covers, in degrees; 360° is all around.\n\n`120°`, `120`, `120 deg`, `360°`.',
  examples: sweepExamples,
  recognise: angle.recognise,
  parse(text) {
    const scanner = new Scanner(text);
    const degrees = takeDegrees(scanner, 'an angle, as in 120°');
    if (isRefusal(degrees)) return degrees;
    const rest = leftover(scanner, 'the angle');
    if (rest !== undefined) return rest;
    if (degrees.value > 0 && degrees.value <= 360) return read(degrees.value);
    return impossible(text, 'A panorama covers more than 0° and at most 360°.');
  },
  format: angle.format,
  complete: (typed) => completed(sweepAngle, typed, sweepExamples),
};

/** The number typed as degrees, where that can be read, and the examples that begin so. */
function completed(kind: Quantity<number>, typed: string, offered: readonly string[]): readonly Suggestion[] {
  const inDegrees = readable(kind, withUnits(typed, asSuggestions(['°'])));
  return distinct([...inDegrees, ...beginning(typed, asSuggestions(offered))]);
}

export interface ScannedAngle {
  /** Degrees. */
  readonly value: number;
  readonly span: Span;
}

/**
 * Takes an angle in degrees, with minutes and seconds of arc where they stand: `12.5°`, `12.5 deg`, `12°30'`,
 * `12°30'15"`, `12.5`. The sign is that of the whole, so `-0°30'` is -0.5.
 */
export function takeDegrees(scanner: Scanner, expected: string): ScannedAngle | Reading<never> {
  const number = takeNumber(scanner, expected);
  if (isRefusal(number)) return number;
  let size = Math.abs(number.value);
  const marked = scanner.takeAny('°º˚') !== undefined;
  if (!marked) takeWord(scanner, ['degrees', 'degree', 'deg']);
  if (marked && /^\d/.test(scanner.next)) {
    const minutes = takeSixtieths(scanner, ["'", '’', '′'], 'minutes of arc');
    if (typeof minutes !== 'number') return minutes;
    if (number.form !== 'whole') {
      return refused(
        scanner.text,
        'Only the last of degrees, minutes and seconds may have decimals.',
        number.span,
      );
    }
    size += minutes / 60;
    if (/^\d/.test(scanner.next)) {
      const seconds = takeSixtieths(scanner, ["''", '"', '”', '″'], 'seconds of arc');
      if (typeof seconds !== 'number') return seconds;
      size += seconds / 3600;
    }
  }
  const value = kept(number.sign === '-' ? -size : size);
  return { value, span: { start: number.span.start, end: scanner.at } };
}

/** Takes the first of the words that stands alone here. */
function takeWord(scanner: Scanner, words: readonly string[]): boolean {
  const origin = scanner.at;
  const word = scanner.word();
  if (word !== undefined && words.includes(word.text)) return true;
  scanner.at = origin;
  return false;
}

function takeSixtieths(scanner: Scanner, marks: readonly string[], what: string): number | Reading<never> {
  const number = takeNumber(scanner, what, false);
  if (isRefusal(number)) return number;
  if (!marks.some((mark) => scanner.take(mark)))
    return scanner.unexpected(`the mark ${marks[0]} behind ${what}`);
  if (number.value < 60) return number.value;
  return refused(scanner.text, `There are only 60 ${what} to the next larger unit.`, {
    code: 'plan/impossible-value',
    ...number.span,
  });
}
