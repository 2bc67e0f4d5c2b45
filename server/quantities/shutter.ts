import type { Span } from '../text/span.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { replaced, type ScannedNumber, Scanner, shortened } from './scan.ts';
import { inUnits, looksLikeTime, scanTime } from './spanOfTime.ts';
import { beginning, distinct, withUnits } from './suggest.ts';

/** A time that stands in a text; or its refusal. */
export type ShutterScan =
  | { readonly seconds: number; readonly span: Span }
  | { readonly refusal: Reading<never> };

const shortestSeconds = 1e-6;
const longestSeconds = 86_400;

/** The full stops of the dial (ISO 516 markings, from memory), then the usual bulb times. */
const usual = [
  ...[8000, 4000, 2000, 1000, 500, 250, 125, 60, 30, 15, 8, 4, 2].map((part) => `1/${part} s`),
  ...['1 s', '2 s', '4 s', '8 s', '15 s', '30 s', '1 min', '2 min', '4 min', '8 min'],
];

/** A shutter time in seconds, from a millionth of a second to a day. */
export const shutter: Quantity<number> = {
  name: 'shutter time',
  documentation: [
    'How long the shutter is open. A bare whole number is refused: on a dial, 30 is 1/30 s.',
    '',
    '`1/250`, `1/2 s`, `½ s`, `0.5 s`, `0"5`, `30 s`, `30"`, `2 min`, `1 min 30 s`, `1m30s`, `1:30 min`, `1 h 20 min`',
  ].join('\n'),
  examples: [
    '1/250',
    '1/2 s',
    '0.8 s',
    '30 s',
    '2 min',
    '1 min 30 s',
    '1:30 min',
    '0"5',
    '30"',
    '1 h 20 min',
  ],
  recognise: (text) => looksLikeTime(new Scanner(text)),
  parse: parseShutter,
  format: formatExactly,
  complete(typed) {
    const units = typed.includes('/') ? [{ text: ' s' }] : [{ text: ' s' }, { text: ' min' }, { text: ' h' }];
    const offered = [
      ...withUnits(typed, units),
      ...beginning(
        typed,
        usual.map((text) => ({ text })),
      ),
    ];
    return distinct(offered).filter(({ text }) => parseShutter(text).value !== undefined);
  },
};

/**
 * A shutter time for people. Below 0.3 s as a fraction of a second, its divisor to three digits, where that is within 5 %
 * (`1/250 s`); half a second as `1/2 s`; else below 1 s to two digits (`0.63 s`), below 10 s to a tenth (`2.5 s`), below
 * an hour to a second (`34 min 8 s`), below two days to a minute (`1 h 20 min`), beyond to an hour (`3 days 4 h`).
 */
export function formatShutter(seconds: number): string {
  if (!Number.isFinite(seconds) || seconds <= 0) return seconds === Number.POSITIVE_INFINITY ? '∞ s' : '0 s';
  if (seconds < 0.3) {
    const divisor = Number((1 / seconds).toPrecision(3));
    const whole = Math.round(divisor);
    if (Math.abs(whole * seconds - 1) <= 0.05) return `1/${whole} s`;
  }
  if (seconds === 0.5) return '1/2 s';
  if (seconds < 1) return `${Number(seconds.toPrecision(2))} s`;
  if (seconds < 9.95) return `${Number(seconds.toFixed(1))} s`;
  const toSecond = Math.round(seconds);
  if (toSecond < 3600) return inUnits(toSecond);
  const toMinute = Math.round(seconds / 60) * 60;
  if (toMinute >= 172_800) return inUnits(Math.round(seconds / 3600) * 3600);
  const hours = Math.floor(toMinute / 3600);
  const rest = toMinute - hours * 3600;
  return rest === 0 ? `${hours} h` : `${hours} h ${inUnits(rest)}`;
}

/** Takes a shutter time at the scanner's place; undefined when no number stands there. */
export function scanShutter(scanner: Scanner): ShutterScan | undefined {
  const { text } = scanner;
  scanner.skipBlanks();
  const start = scanner.at;
  const sign = scanner.sign();
  const scan = scanTime(scanner);
  if (scan === undefined) {
    scanner.at = start;
    return undefined;
  }
  if (scan.kind === 'refused') return { refusal: scan.reading };
  const span = { start, end: scanner.at };
  const impossible = (message: string): ShutterScan => ({
    refusal: refused(text, message, { code: 'plan/impossible-value', ...span }),
  });
  const seconds = scan.kind === 'time' ? scan.seconds : scan.number.value;
  if (sign === '-' || seconds === 0) return impossible('A shutter time is longer than 0 s.');
  if (!(seconds >= shortestSeconds)) return impossible('A shutter time is at least 1/1000000 s.');
  if (!(seconds <= longestSeconds)) return impossible('A shutter time is at most 24 h.');
  if (sign === '+') {
    const rewrite = replaced(text, span, text.slice(start + 1, span.end).trimStart());
    return { refusal: refused(text, 'A shutter time has no sign.', { ...span, rewrite }) };
  }
  if (scan.kind === 'bare' && !meansSeconds(scan.number)) {
    const goesOn = scanner.done || '.@,'.includes(scanner.next);
    return { refusal: goesOn ? bareRefused(text, scan.number) : scanner.unexpected('a unit: s, min or h') };
  }
  return { seconds, span };
}

function parseShutter(text: string): Reading<number> {
  const scanner = new Scanner(text);
  const scan = scanShutter(scanner);
  if (scan === undefined) return scanner.unexpected('a shutter time such as 1/250 or 30 s');
  if ('refusal' in scan) return scan.refusal;
  return scanner.done ? read(scan.seconds) : scanner.unexpected('the end of the shutter time');
}

/** `1/250`, `½` and `0.5` need no unit: below 1 s a dial marks nothing else with them. */
function meansSeconds(number: ScannedNumber): boolean {
  return (number.form === 'fraction' || number.form === 'decimal') && number.value < 1;
}

/** A dial marks 1/30 s as 30, and 1/2.5 s as 2.5. */
function bareRefused(text: string, number: ScannedNumber): Reading<never> {
  const { start, end } = number.span;
  const written = text.slice(start, end);
  if (number.value === 1 || number.form === 'fraction' || number.form === 'mixed') {
    return refused(text, `A unit is missing: ${shortened(written)} s?`, {
      code: 'plan/missing-unit',
      start,
      end,
      rewrite: replaced(text, number.span, `${written} s`),
    });
  }
  const readings = [`1/${written} s`, `${written} s`];
  return refused(
    text,
    `“${shortened(written)}” may be ${readings.map(shortened).join(' or ')}: write which.`,
    {
      code: 'plan/ambiguous-time',
      start,
      end,
      facts: { readings },
    },
  );
}

function formatExactly(seconds: number): string {
  const usualSpelling = spelled(seconds);
  return parseShutter(usualSpelling).value === seconds ? usualSpelling : `${seconds} s`;
}

function spelled(seconds: number): string {
  if (seconds >= 60) return inUnits(seconds);
  const divisor = Math.round(1 / seconds);
  const isFraction = divisor >= 2 && 1 / divisor === seconds;
  return isFraction ? `1/${divisor} s` : `${seconds} s`;
}
