import { type Quantity, type Reading, refused, type Suggestion } from './quantity.ts';
import { commaRefused, type ScannedNumber, Scanner, shortened } from './scan.ts';

/** What a kind of scalar that is a number and a unit has to know to read one. */
export interface Measure {
  /** "length": for messages. */
  readonly what: string;
  /** Every spelling of a unit, and how many base units it is. Looked up as written, then in lower case. */
  readonly units: ReadonlyMap<string, number>;
  /** The units a message names, the most usual first. With only one, a missing unit is added as a rewrite. */
  readonly usual: readonly string[];
  /** The units that a number of this size without one may be meant in; the usual ones when left out. */
  readonly meant?: (size: number) => readonly string[];
}

/** A number with its unit, as it stood in the text. */
export interface Measured {
  /** In base units. */
  readonly value: number;
  readonly number: ScannedNumber;
  /** The unit as written. */
  readonly unit: string;
}

export function isRefusal(reading: object): reading is Reading<never> {
  return 'problems' in reading;
}

/** Takes a number and its unit at the scanner's place, or refuses what stands there. */
export function takeMeasure(scanner: Scanner, measure: Measure): Measured | Reading<never> {
  const number = takeNumber(scanner, `a ${measure.what}, like ${example(measure)}`);
  if (isRefusal(number)) return number;
  const unit = scanner.unit();
  if (unit === undefined) return unitMissing(scanner, number, measure);
  const size = measure.units.get(unit.text) ?? measure.units.get(lowered(unit.text));
  if (size === undefined) {
    return refused(
      scanner.text,
      `“${shortened(unit.text)}” is not a unit of ${measure.what}. Use ${measure.usual.join(', ')}.`,
      { code: 'plan/unknown-unit', ...unit.span },
    );
  }
  return { value: number.value * size, number, unit: unit.text };
}

/** Takes a number, or refuses what stands there: no number, a decimal comma, or one too large to be a number. */
export function takeNumber(
  scanner: Scanner,
  expected: string,
  signed = true,
): ScannedNumber | Reading<never> {
  const number = scanner.number({ signed });
  if (number === undefined) return scanner.unexpected(expected);
  return commaRefused(scanner.text, number) ?? infiniteRefused(scanner.text, number) ?? number;
}

function infiniteRefused(text: string, number: ScannedNumber): Reading<never> | undefined {
  if (Number.isFinite(number.value)) return undefined;
  const written = shortened(text.slice(number.span.start, number.span.end));
  return refused(text, `“${written}” is not a number that can be used.`, {
    code: 'plan/impossible-value',
    ...number.span,
  });
}

function unitMissing(scanner: Scanner, number: ScannedNumber, measure: Measure): Reading<never> {
  if (!scanner.done) return scanner.unexpected(`a unit: ${measure.usual.join(', ')}`);
  const { text } = scanner;
  const written = text.slice(number.span.start, number.span.end);
  const units = measure.meant?.(Math.abs(number.value)) ?? measure.usual;
  const spellings = units.map((unit) => `${shortened(written)} ${unit}`);
  const readings = units.map((unit) => `${written} ${unit}`);
  const [only, another] = readings;
  return refused(text, `The unit is missing. Write ${spellings.join(' or ')}.`, {
    code: 'plan/missing-unit',
    ...number.span,
    ...(only !== undefined && another === undefined ? { rewrite: only } : { facts: { readings } }),
  });
}

function example(measure: Measure): string {
  return `30 ${measure.usual[0]}`;
}

/** Units are short; a long run of letters is not worth lowering. */
function lowered(unit: string): string {
  return unit.length > 20 ? unit : unit.toLowerCase();
}

/** The refusal of a value outside what is possible. */
export function impossible(text: string, message: string, rewrite?: string): Reading<never> {
  return refused(text, message, {
    code: 'plan/impossible-value',
    ...(rewrite === undefined ? {} : { rewrite }),
  });
}

/** The refusal of what is left behind a scalar that is complete; undefined when nothing is left. */
export function leftover(scanner: Scanner, complete: string): Reading<never> | undefined {
  return scanner.done ? undefined : scanner.unexpected(`nothing more after ${complete}`);
}

/**
 * To twelve significant digits, without negative zero: what a conversion of units leaves behind the twelfth digit is
 * noise of the arithmetic, and without it a value can be written in another unit and read back unchanged.
 */
export function kept(value: number): number {
  return Number(value.toPrecision(12)) + 0;
}

/** The shortest decimal that reads back as exactly this number, without an exponent. Below 1e21. */
export function plain(value: number): string {
  const [mantissa = '', exponent] = String(value).split('e');
  if (exponent === undefined) return mantissa;
  const negative = mantissa.startsWith('-');
  const digits = mantissa.replace(/[-.]/g, '');
  return `${negative ? '-' : ''}0.${'0'.repeat(-Number(exponent) - 1)}${digits}`;
}

/** The first of the spellings that reads back as exactly this value, else the last. */
export function faithful(
  kind: Pick<Quantity<number>, 'parse'>,
  value: number,
  spellings: readonly string[],
): string {
  return spellings.find((spelling) => kind.parse(spelling).value === value) ?? spellings.at(-1) ?? '';
}

/** Whether the text is a number and one of these units, or begins that way. For `recognise`. */
export function looksLike(text: string, units: ReadonlyMap<string, number>): boolean {
  const scanner = new Scanner(text);
  if (scanner.number() === undefined) return false;
  const unit = scanner.unit();
  return unit !== undefined && (units.has(unit.text) || units.has(lowered(unit.text)));
}

/** Examples as suggestions. */
export function asSuggestions(examples: readonly string[], detail?: string): readonly Suggestion[] {
  return examples.map((text) => (detail === undefined ? { text } : { text, detail }));
}

/** Whether a scalar of ordinary length matches. Patterns that are quick on a short text are safe behind this. */
export function fits(text: string, pattern: RegExp): boolean {
  return text.length <= 100 && pattern.test(text);
}

/** The suggestions that the kind can read: `9` with `/8` behind it would be more than the whole. */
export function readable(
  kind: Pick<Quantity<unknown>, 'parse'>,
  suggestions: readonly Suggestion[],
): readonly Suggestion[] {
  return suggestions.filter(({ text }) => kind.parse(text).value !== undefined);
}
