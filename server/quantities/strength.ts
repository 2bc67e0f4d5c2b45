import { fits, impossible, kept, leftover, plain, readable } from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { commaRefused, type ScannedNumber, Scanner, shortened } from './scan.ts';
import { formatStops, stops } from './stops.ts';
import { beginning, withUnits } from './suggest.ts';

/** How a filter's strength is stated on its ring or its box. */
export type StrengthBasis = 'stops' | 'density' | 'factor';

export interface FilterStrength {
  /** How much light is held back: log2 of the factor. */
  readonly stops: number;
  /** How the author stated it. */
  readonly basis: StrengthBasis;
}

/** No filter for photography is stronger; a dark filter is never eye protection. */
const MOST_STOPS = 30;

const examples = ['6 stops', 'ND64', 'OD 1.8', 'ND 1.8', '1.8D', 'x64', 'ND8', '10 stops', 'ND1000'];

/**
 * The strength of a filter, by any of the labels in use:
 *
 * - stops: log2 of the factor by which the exposure time grows;
 * - optical density, `OD`, `D`, or `ND` before a number with a decimal point: D = log10(factor), ISO 5-2, so
 *   stops = D / log10(2);
 * - factor, `x64`, or `ND` before a whole number that is a usual factor (ND2, ND8, ND64, ND1000): stops = log2(factor).
 *
 * ND1000 is taken at its word: 9.97 stops. A number alone may be any of the three and is refused, and so is `ND 3`,
 * with the readings in stops.
 */
export const filterStrength: Quantity<FilterStrength> = {
  name: 'filter strength',
  documentation: [
    'How much light a filter holds back. A label ND with a decimal point is a density, with a whole number a factor.',
    '',
    '`6 stops`, `ND64`, `x64`, `OD 1.8`, `ND 1.8`, `1.8D`. A number alone is refused: `3.0` could be stops or density.',
  ].join('\n'),
  examples,
  recognise: (text) =>
    stops.recognise(text) ||
    fits(text, /^\s*(ND|OD|D|x|×)\s*\.?\d/iu) ||
    fits(text, /^\s*[\d.]+\s*(ND|OD|D|x|×)?\s*$/iu),
  parse: parseStrength,
  format({ stops: value, basis }) {
    if (basis === 'stops') return stops.format(value);
    if (basis === 'density') {
      const density = plain(kept(value * Math.log10(2)));
      return `OD ${density}`;
    }
    const factor = kept(2 ** value);
    return isUsualFactor(factor) ? `ND${factor}` : `x${plain(factor)}`;
  },
  complete(typed) {
    const completed = withUnits(typed, [
      { text: ' stops', detail: 'stops' },
      { text: 'D', detail: 'density' },
      { text: 'x', detail: 'factor' },
    ]);
    const possible = readable(filterStrength, completed);
    return possible.length > 0 ? possible : beginning(typed, examples.map(described));
  },
};

function described(text: string) {
  const strength = parseStrength(text).value;
  return strength === undefined
    ? { text }
    : { text, detail: `${formatStops(strength.stops)}, by ${strength.basis}` };
}

function parseStrength(text: string): Reading<FilterStrength> {
  const scanner = new Scanner(text);
  if (/stop|\dev$/i.test(text.slice(0, 60).replace(/\s/g, ''))) return inStops(scanner);
  const prefix = takePrefix(scanner);
  const number = scanner.number({ signed: false });
  if (number === undefined) return scanner.unexpected('a strength, as in 6 stops, ND64 or OD 1.8');
  const suffix = prefix === undefined ? takeSuffix(scanner) : undefined;
  const rest = leftover(scanner, 'the strength');
  if (rest !== undefined) return rest;
  if (number.form === 'fraction' || number.form === 'mixed') {
    return refused(text, 'A fraction can only be a number of stops, as in 1 1/3 stops.', {
      code: 'filter/ambiguous-strength',
      ...number.span,
    });
  }
  const mark = prefix ?? suffix;
  const comma = mark === undefined ? undefined : commaRefused(text, number);
  if (comma !== undefined) return comma;
  if (mark === 'density') return byDensity(text, number.value);
  if (mark === 'factor') return byFactor(text, number.value);
  if (mark === 'ND' && number.form === 'decimal') return byDensity(text, number.value);
  if (mark === 'ND' && isUsualFactor(number.value)) return byFactor(text, number.value);
  return ambiguous(text, number, mark === 'ND');
}

/** `6 stops`, and `ND 6 stops`, in which ND only says what kind of filter it is. */
function inStops(scanner: Scanner): Reading<FilterStrength> {
  const { text } = scanner;
  const prefixed = takePrefix(scanner) === 'ND';
  const skipped = prefixed ? scanner.at : 0;
  const reading = stops.parse(' '.repeat(skipped) + text.slice(skipped));
  if (reading.value === undefined) return { problems: reading.problems };
  if (reading.value < 0) return impossible(text, 'A filter holds light back: its strength is not negative.');
  return inRange(text, reading.value, 'stops');
}

function byDensity(text: string, density: number): Reading<FilterStrength> {
  return inRange(text, kept(density) / Math.log10(2), 'density');
}

function byFactor(text: string, factor: number): Reading<FilterStrength> {
  if (factor >= 1) return inRange(text, Math.log2(kept(factor)), 'factor');
  return impossible(text, 'The factor of a filter is 1 or more: it multiplies the exposure time.');
}

function inRange(text: string, value: number, basis: StrengthBasis): Reading<FilterStrength> {
  if (value <= MOST_STOPS) return read({ stops: value, basis });
  const size = value < 1000 ? `${formatStops(value)}, ` : '';
  return impossible(text, `“${shortened(text)}” would be ${size}more than any filter holds back.`);
}

type Mark = 'ND' | 'density' | 'factor';

function takePrefix(scanner: Scanner): Mark | undefined {
  if (scanner.takeAny('xX×')) return 'factor';
  for (const [spelling, mark] of [
    ['ND', 'ND'],
    ['OD', 'density'],
    ['D', 'density'],
  ] as const) {
    if (scanner.take(spelling) || scanner.take(spelling.toLowerCase())) return mark;
  }
  return undefined;
}

function takeSuffix(scanner: Scanner): Mark | undefined {
  const suffix = takePrefix(scanner);
  return suffix === 'ND' ? undefined : suffix;
}

/** The factors that are printed behind ND: powers of two, and 100, 200, 400, 500, 1000 and so on. Common practice, no source. */
function isUsualFactor(number: number): boolean {
  if (!Number.isInteger(number) || number < 2 || number > 1_000_000) return false;
  if (Number.isInteger(Math.log2(number))) return true;
  if (number < 100) return false;
  const leading = number / 10 ** Math.floor(Math.log10(number));
  return [1, 2, 4, 5].includes(leading);
}

/** Refuses a number that may be stops, a density or a factor, and says what each of them would be. */
function ambiguous(text: string, number: ScannedNumber, behindNd: boolean): Reading<never> {
  const { value } = number;
  const written = shortened(plain(value));
  const density = Number.isInteger(value) ? `${written}.0` : written;
  const readings = [
    { spelling: stops.format(value), stops: value, said: '' },
    {
      spelling: `OD ${density}`,
      stops: value / Math.log10(2),
      said: ` (${formatStops(value / Math.log10(2))})`,
    },
    { spelling: `x${written}`, stops: Math.log2(value), said: ` (${formatStops(Math.log2(value))})` },
  ].filter((reading) => reading.stops >= 0 && reading.stops <= MOST_STOPS);
  if (readings.length === 0) return impossible(text, `“${shortened(text)}” is no strength of a filter.`);
  const choices = readings.map((reading) => reading.spelling + reading.said).join(', or ');
  const subject = behindNd
    ? `“${shortened(text)}” is no usual label`
    : `“${shortened(text)}” does not say what it counts`;
  const [only, another] = readings;
  return refused(text, `${subject}. Write ${choices}.`, {
    code: 'filter/ambiguous-strength',
    ...(only !== undefined && another === undefined ? { rewrite: only.spelling } : {}),
    facts: { readings: readings.map(({ spelling, stops: count }) => ({ spelling, stops: count })) },
  });
}
