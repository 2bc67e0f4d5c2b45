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
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { type ScannedNumber, Scanner, shortened } from './scan.ts';
import { beginning, distinct, withUnits } from './suggest.ts';

const examples = ['90 %', '50 %', '7/8', '100 %', '0 %'];

/** A share of a whole, from 0 to 1: cloud cover, overlap. Cloud is also given in eighths of the sky, oktas. */
export const share: Quantity<number> = {
  name: 'share',
  documentation:
    'A share of the whole: per cent, or a fraction such as eighths of the sky (oktas).\n\n`90 %`, `7/8`, `7 oktas`.',
  examples,
  recognise: (text) => fits(text, /^\s*([\d.]+|\d+\s*\/\s*\d+)\s*(%|percent|per cent|oktas?|\/\s*\d+)\s*$/u),
  parse(text) {
    const scanner = new Scanner(text);
    const number = takeNumber(scanner, 'a share, as in 90 % or 7/8');
    if (isRefusal(number)) return number;
    const whole = takeWhole(scanner);
    const isFraction = number.form === 'fraction';
    if (whole === undefined && !isFraction) {
      return scanner.done ? bare(text, number) : scanner.unexpected('%, as in 90 %');
    }
    const rest = leftover(scanner, 'the share');
    if (rest !== undefined) return rest;
    if (whole !== undefined && isFraction && !(whole === 8 && inEighths(text, number))) {
      return twiceDivided(text, number, whole);
    }
    const value = kept(isFraction ? number.value : number.value / (whole ?? 1));
    if (value >= 0 && value <= 1) return read(value);
    return impossible(
      text,
      `${shortened(text)} is ${value < 0 ? 'less than nothing' : 'more than the whole'}.`,
    );
  },
  format: (value) => `${plain(kept(value * 100))} %`,
  complete: (typed) =>
    typed.trim() === ''
      ? asSuggestions(examples)
      : distinct([
          ...readable(share, withUnits(typed, asSuggestions([' %', '/8']))),
          ...beginning(typed, asSuggestions(examples)),
        ]),
};

/** Takes what says of how many parts the whole is made. */
function takeWhole(scanner: Scanner): number | undefined {
  if (['%', 'percent', 'per cent'].some((mark) => scanner.take(mark))) return 100;
  return scanner.take('oktas') || scanner.take('okta') ? 8 : undefined;
}

/** Whether it is written with an 8 below the line. `7/8 okta` is said of seven eighths of the sky. */
function inEighths(text: string, { span }: ScannedNumber): boolean {
  return /\D\s*8$/.test(text.slice(span.start, span.end));
}

/** `1/2 %` may be half of the whole, or half a per cent. */
function twiceDivided(text: string, { value, span }: ScannedNumber, whole: number): Reading<never> {
  const written = shortened(text.slice(span.start, span.end));
  const readings = [value, value / whole].map((meant) => share.format(meant));
  return refused(text, `“${written}” is a share by itself. Write ${readings.join(' or ')}.`, {
    code: 'plan/ambiguous-value',
    facts: { readings },
  });
}

/** `0.9` is meant as 90 %, `90` too; up to 8 it may be oktas, and 1 may be the whole. */
function bare(text: string, number: ScannedNumber): Reading<never> {
  const written = shortened(text.slice(number.span.start, number.span.end));
  const { value } = number;
  if (value > 0 && value <= 8 && number.form === 'whole') {
    return refused(text, `Write ${written} % or ${written}/8.`, { code: 'plan/ambiguous-value' });
  }
  const percent = value > 0 && value < 1 ? kept(value * 100) : value;
  const rewrite = `${plain(percent)} %`;
  if (!(percent >= 0 && percent <= 100)) return impossible(text, 'A share goes from 0 % to 100 %.');
  return refused(text, `The unit is missing. Write ${rewrite}.`, { code: 'plan/missing-unit', rewrite });
}
