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
import { Scanner, shortened } from './scan.ts';
import { beginning, distinct, withUnits } from './suggest.ts';

const STOP_UNITS: ReadonlyMap<string, number> = new Map([
  ['stop', 1],
  ['stops', 1],
]);
const STOPS: Measure = {
  what: 'number of stops',
  units: STOP_UNITS,
  usual: ['stops'],
  meant: (size) => [unitFor(size)],
};
/** No scene, body or stack of filters spans more. */
const MOST_STOPS = 60;

const examples = ['6 stops', '1 1/3 stops', '2/3 stop', '+2/3 stop', '-1 stop', '6⅔ stops', '2.1 stops'];

/** A difference in exposure, in stops: each doubles or halves the light. */
export const stops: Quantity<number> = {
  name: 'stops',
  documentation: [
    'A difference in exposure; each stop doubles or halves the light.',
    '',
    '`6 stops`, `1 1/3 stops`, `+2/3 stop`, `6⅔ stops`, `-1 stop`, `2.1 stops`.',
  ].join('\n'),
  examples,
  recognise: (text) => fits(text, /\d-?\s?stops?\s*$|[½⅓⅔¼¾]-?\s?stops?\s*$/u),
  parse(text) {
    // `6-stop` is how a filter is spoken of; the spans stay as they are.
    const scanner = new Scanner(text.replace('-stop', ' stop'));
    const measured = takeMeasure(scanner, STOPS);
    if (isRefusal(measured)) return differenceInEv(text, measured) ?? measured;
    return leftover(scanner, 'the stops') ?? inRange(text, measured.value);
  },
  format: (value) => `${written(value)} ${unitFor(value)}`,
  complete: (typed) => {
    const size = new Scanner(typed).number()?.value ?? 0;
    const withUnit = withUnits(typed, asSuggestions([` ${unitFor(size)}`]));
    return distinct([...withUnit, ...beginning(typed, asSuggestions(examples))]);
  },
};

/** A step of exposure values is a stop: `2 EV` for a difference is understood well enough to offer the rewrite. */
function differenceInEv(text: string, { problems }: Reading<never>): Reading<never> | undefined {
  const [problem] = problems;
  if (problem?.code !== 'plan/unknown-unit') return undefined;
  const { start, end } = problem.span;
  if (!/^ev$/i.test(text.slice(start, end)) || text.slice(end).trim() !== '') return undefined;
  const number = text.slice(0, start).trimEnd();
  const rewrite = `${number} ${unitFor(new Scanner(number).number()?.value ?? 0)}`;
  const message = `“EV” is a level of light; a difference is counted in stops. Write ${shortened(rewrite)}.`;
  return refused(text, message, { code: problem.code, ...problem.span, rewrite });
}

function inRange(text: string, value: number) {
  if (Math.abs(value) <= MOST_STOPS) return read(value + 0);
  return impossible(text, `${shortened(text)} is more than any scene or filter spans.`);
}

/**
 * A number of stops for people, without sign unless negative (U+2212): thirds and halves as fractions, `1 1/3 stops`,
 * `1/2 stop`, when within 0.02 of one (finer than a dial or a filter keeps); otherwise to a tenth, `2.1 stops`.
 */
export function formatStops(value: number): string {
  const size = Math.abs(value);
  const near = fractionsAt(Math.floor(size)).find((step) => Math.abs(size - step) < 0.02);
  const rounded = near ?? Math.round(size * 10) / 10;
  const sign = value < 0 && rounded > 0 ? '\u2212' : '';
  return `${sign}${written(rounded)} ${unitFor(rounded)}`;
}

const FRACTIONS = [
  [1, 3],
  [1, 2],
  [2, 3],
] as const;

/** A whole number, its thirds and its half, and the next whole number. */
function fractionsAt(whole: number): readonly number[] {
  return [whole, whole + 1, ...FRACTIONS.map(([above, below]) => whole + above / below)];
}

/** `1/3`, `1 2/3`, `-1/2`, or a decimal: whichever reads back as exactly this number. */
function written(value: number): string {
  const size = Math.abs(value);
  const whole = Math.floor(size);
  const fraction = FRACTIONS.find(([above, below]) => whole + above / below === size);
  if (fraction === undefined) return plain(value);
  return `${value < 0 ? '-' : ''}${whole === 0 ? '' : `${whole} `}${fraction.join('/')}`;
}

function unitFor(value: number): string {
  return value !== 0 && Math.abs(value) <= 1 ? 'stop' : 'stops';
}

const evExamples = ['EV 12', 'EV 7', 'EV 15', 'EV -3', '12 EV', 'EV 12 1/3'];

/** An exposure value at ISO 100: Ev = log2(N²/t), ISO 2720. */
export const exposureValue: Quantity<number> = {
  name: 'exposure value',
  documentation:
    'How bright it is, as the exposure value at ISO 100.\n\n`EV 12`, `EV -3`, `12 EV`, `EV 12 1/3`.',
  examples: evExamples,
  recognise: (text) => fits(text, /^\s*EV\b|^\s*EV\s*[-+−–]?\d|[\d½⅓⅔¼¾]\s?EV\s*$/iu),
  parse(text) {
    const scanner = new Scanner(text);
    const before = takeEv(scanner);
    const number = takeNumber(scanner, 'an exposure value, as in EV 12');
    if (isRefusal(number)) return number;
    if (!before && !takeEv(scanner)) {
      if (!scanner.done) return scanner.unexpected('EV, as in EV 12');
      const written = text.slice(number.span.start, number.span.end);
      return refused(text, `Write EV ${shortened(written)}.`, {
        code: 'plan/missing-unit',
        rewrite: `EV ${written}`,
      });
    }
    const rest = leftover(scanner, 'the exposure value');
    if (rest !== undefined) return rest;
    if (number.value >= -20 && number.value <= 30) return read(number.value + 0);
    return impossible(text, 'Exposure values go from EV -20 to EV 30; full sun is EV 15.');
  },
  format: (value) => `EV ${written(value)}`,
  complete: (typed) =>
    /^\s*[-+−–\d]/u.test(typed)
      ? withUnits(typed, asSuggestions([' EV']))
      : beginning(typed, asSuggestions(evExamples)),
};

function takeEv(scanner: Scanner): boolean {
  return ['EV', 'ev', 'Ev'].some((spelling) => scanner.take(spelling));
}

const stepExamples = ['1/3 stop', '1/2 stop', '1 stop'];

const STEP_ADVICE = 'Dials move by 1/3 stop, 1/2 stop or 1 stop.';

const STEP_SIZES: readonly number[] = [1 / 3, 1 / 2, 1];

const STEPS: ReadonlyMap<string, number> = new Map([
  ['full', 1],
  ['whole', 1],
  ['half', 1 / 2],
  ['third', 1 / 3],
]);

/** The step of a body's dials, in stops: 1/3, 1/2 or 1. */
export const stopStep: Quantity<number> = {
  name: 'dial step',
  documentation: 'The step of the dials.\n\n`1/3 stop`, `1/2 stop`, `1 stop` or `full stop`.',
  examples: stepExamples,
  recognise: (text) => fits(text, /^\s*(1|1\/[23]|[½⅓]|full|whole|half|third)[\s-]?stops?\s*$/iu),
  parse(text) {
    const scanner = new Scanner(text.replace('-stop', ' stop'));
    const word = scanner.word();
    if (word !== undefined) {
      const step = STEPS.get(word.text.slice(0, 10).toLowerCase());
      if (step === undefined || !(scanner.take('stops') || scanner.take('stop'))) {
        return refused(text, STEP_ADVICE);
      }
      return leftover(scanner, 'the step') ?? read(step);
    }
    const reading = stops.parse(text);
    if (reading.value === undefined) {
      const [problem] = reading.problems;
      const meant = problem?.rewrite;
      return meant === undefined || isStep(meant) ? reading : impossible(text, STEP_ADVICE);
    }
    if (STEP_SIZES.includes(reading.value)) return read(reading.value);
    const aboutThird = reading.value >= 0.3 && reading.value < 0.34;
    return impossible(text, STEP_ADVICE, aboutThird ? '1/3 stop' : undefined);
  },
  format: (step) => stops.format(step),
  complete: (typed) => beginning(typed, asSuggestions(stepExamples)),
};

function isStep(text: string): boolean {
  const size = stops.parse(text).value;
  return size !== undefined && STEP_SIZES.includes(size);
}
