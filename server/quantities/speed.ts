import {
  asSuggestions,
  faithful,
  impossible,
  isRefusal,
  kept,
  leftover,
  looksLike,
  type Measure,
  plain,
  readable,
  takeMeasure,
  takeNumber,
} from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { Scanner } from './scan.ts';
import { beginning, withUnits } from './suggest.ts';

/** In metres per second. Knot: one nautical mile, 1852 m, an hour, ISO 80000-3; mile and foot of 1959. */
const SPEED_UNITS: ReadonlyMap<string, number> = new Map([
  ['m/s', 1],
  ['km/h', 1 / 3.6],
  ['kmh', 1 / 3.6],
  ['kph', 1 / 3.6],
  ['mph', 0.44704],
  ['mi/h', 0.44704],
  ['ft/s', 0.3048],
  ['kn', 1852 / 3600],
  ['kt', 1852 / 3600],
  ['kts', 1852 / 3600],
  ['knot', 1852 / 3600],
  ['knots', 1852 / 3600],
]);
const SPEED: Measure = { what: 'speed', units: SPEED_UNITS, usual: ['km/h', 'm/s', 'mph', 'kn'] };

/** Faster than any wind or water at the ground. */
const FASTEST = 150;

const examples = ['5 km/h', '1.5 m/s', '3 mph', '8 kn', 'Bft 2'];

/**
 * The speed of wind or water, in m/s. A Beaufort force stands for the middle of its class, see `speedOfForce`.
 */
export const speed: Quantity<number> = {
  name: 'speed',
  documentation: [
    'The speed of wind or water. A Beaufort force is read as the middle of its class.',
    '',
    '`5 km/h`, `1.5 m/s`, `3 mph`, `8 kn`, `Bft 2`.',
  ].join('\n'),
  examples,
  recognise: (text) => looksLike(text, SPEED_UNITS) || isBeaufort(text),
  parse(text) {
    if (isBeaufort(text)) return fromForce(text);
    const scanner = new Scanner(text);
    const measured = takeMeasure(scanner, SPEED);
    if (isRefusal(measured)) return measured;
    const rest = leftover(scanner, 'the speed');
    if (rest !== undefined) return rest;
    if (measured.value < 0) return impossible(text, 'A speed is not negative.');
    if (!(measured.value <= FASTEST)) {
      return impossible(text, `No wind or water is faster than ${FASTEST} m/s.`);
    }
    return read(kept(measured.value));
  },
  format(metresPerSecond) {
    const kilometresPerHour = Number((metresPerSecond * 3.6).toPrecision(9));
    return faithful(speed, metresPerSecond, [
      `${plain(kilometresPerHour)} km/h`,
      `${plain(metresPerSecond)} m/s`,
    ]);
  },
  complete: (typed) =>
    typed.trim() === ''
      ? asSuggestions(examples)
      : [
          ...readable(speed, withUnits(typed, asSuggestions([' km/h', ' m/s', ' mph', ' kn', ' Bft']))),
          ...beginning(typed, asSuggestions(['Bft 1', 'Bft 2', 'Bft 3', 'Bft 4', 'Bft 5'])),
        ],
};

function isBeaufort(text: string): boolean {
  return text.length <= 40 && /bft|beaufort|^\s*force/i.test(text);
}

function takeBeaufort(scanner: Scanner): boolean {
  const origin = scanner.at;
  const word = scanner.word()?.text.toLowerCase();
  if (word === 'bft' || word === 'beaufort' || word === 'force') return true;
  scanner.at = origin;
  return false;
}

/** `Bft 2`, `2 Bft`, `force 2`. */
function fromForce(text: string): Reading<number> {
  const scanner = new Scanner(text);
  const before = takeBeaufort(scanner);
  const number = takeNumber(scanner, 'a Beaufort force, as in Bft 2');
  if (isRefusal(number)) return number;
  if (!before && !takeBeaufort(scanner)) return scanner.unexpected('Bft, as in 2 Bft');
  const rest = leftover(scanner, 'the Beaufort force');
  if (rest !== undefined) return rest;
  if (number.form !== 'whole' || !(number.value >= 0 && number.value <= 12)) {
    return refused(text, 'Beaufort forces are whole numbers from 0 to 12.', {
      code: 'plan/impossible-value',
      ...number.span,
    });
  }
  return read(kept(speedOfForce(number.value)));
}

/** The speed at the middle of a Beaufort class in m/s: v = 0.836 B^1.5 (formula from memory; it falls into every class of WMO-No. 306). */
export function speedOfForce(force: number): number {
  return 0.836 * force ** 1.5;
}

/** The lowest wind speed of forces 1 to 12 in m/s, at 10 m above open ground. WMO-No. 306, Manual on Codes, Vol. I.1. */
const FORCE_STARTS = [0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7];

/**
 * The Beaufort force of a wind speed in m/s. The limits are printed to 0.1 m/s, so the speed is rounded to that first.
 * The column in knots of the same table is rounded by itself: at 16 kn it says one force less.
 */
export function beaufort(metresPerSecond: number): number {
  const rounded = Math.round(metresPerSecond * 10) / 10;
  return FORCE_STARTS.filter((start) => rounded >= start).length;
}
