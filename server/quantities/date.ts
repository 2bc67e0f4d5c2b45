import { capitalized } from '../text/sentence.ts';
import type { Span } from '../text/span.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { characterName, isDigit, replaced, type ScannedText, Scanner, shortened } from './scan.ts';
import { beginning } from './suggest.ts';

/** A day of the Gregorian calendar, without a time zone: the civil date at a place. `month` and `day` count from 1. */
export interface CivilDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const firstYear = 1950;
const lastYear = 2100;
const months = [
  ...['january', 'february', 'march', 'april', 'may', 'june', 'july'],
  ...['august', 'september', 'october', 'november', 'december'],
];
const examples = ['2027-03-20'];

/** A civil date as in ISO 8601, calendar date in extended format. */
export const date: Quantity<CivilDate> = {
  name: 'date',
  documentation: 'The civil date at the first spot, as in ISO 8601: year, month, day.\n\n`2027-03-20`',
  examples,
  recognise: (text) => {
    const year = new Scanner(text).digits();
    return year?.text.length === 4 && text.charAt(year.span.end) === '-';
  },
  parse: (text) => {
    const scanner = new Scanner(text);
    const scan = scanDate(scanner);
    if ('refusal' in scan) return scan.refusal;
    return scanner.done ? read(scan.date) : scanner.unexpected('the end of the date');
  },
  format: formatDate,
  complete: (typed) =>
    beginning(
      typed,
      examples.map((text) => ({ text })),
    ),
};

/** `2027-03-20`. */
export function formatDate({ year, month, day }: CivilDate): string {
  return `${String(year).padStart(4, '0')}-${twoDigits(month)}-${twoDigits(day)}`;
}

/** Days in a month of the Gregorian calendar; 0 when there is no such month. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) {
    const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
    return leap ? 29 : 28;
  }
  if (month < 1 || month > 12) return 0;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** Takes a date at the scanner's place, or says what to write instead of what stands there. */
export function scanDate(
  scanner: Scanner,
): { readonly date: CivilDate; readonly span: Span } | { readonly refusal: Reading<never> } {
  scanner.skipBlanks();
  const start = scanner.at;
  const iso = isoParts(scanner);
  if (iso !== undefined) {
    const span = { start, end: scanner.at };
    const impossible = whyImpossible(iso);
    if (impossible === undefined) return { date: iso, span };
    return { refusal: refused(scanner.text, impossible, { code: 'plan/impossible-value', ...span }) };
  }
  scanner.at = start;
  return { refusal: otherSpelling(scanner) };
}

/** `YYYY-MM-DD`, tight. */
function isoParts(scanner: Scanner): CivilDate | undefined {
  const { text } = scanner;
  const numbers: number[] = [];
  for (const length of [4, 2, 2]) {
    if (numbers.length > 0) {
      if (text[scanner.at] !== '-') return undefined;
      scanner.at += 1;
    }
    const digits = isDigit(text.charAt(scanner.at)) ? scanner.digits() : undefined;
    if (digits?.text.length !== length) return undefined;
    numbers.push(Number(digits.text));
  }
  const [year = 0, month = 0, day = 0] = numbers;
  return { year, month, day };
}

function whyImpossible({ year, month, day }: CivilDate): string | undefined {
  if (year < firstYear || year > lastYear) return `The year must be from ${firstYear} to ${lastYear}.`;
  if (month < 1 || month > 12) return `There is no month ${month}: months run from 01 to 12.`;
  const days = daysInMonth(year, month);
  if (day >= 1 && day <= days) return undefined;
  const name = `${capitalized(months[month - 1] ?? '')} ${year}`;
  return `There is no day ${day} in ${name}: it has ${days} days.`;
}

/** A date that is written otherwise: what it would be in ISO 8601, where that is certain. */
function otherSpelling(scanner: Scanner): Reading<never> {
  const { text } = scanner;
  const start = scanner.at;
  const pieces: ScannedText[] = [];
  for (let taken = 0; taken < 8; taken += 1) {
    const piece = scanner.digits() ?? scanner.word();
    if (piece === undefined) break;
    if (/^(st|nd|rd|th|of)$/i.test(piece.text)) continue;
    pieces.push(piece);
    scanner.takeAny('-/.,\u2010\u2011\u2012\u2013');
    if (pieces.length === 3) break;
  }
  const end = Math.max(start, pieces.at(-1)?.span.end ?? start);
  scanner.at = end;
  if (pieces.length === 0 && !scanner.done && !/[ -~]/.test(scanner.next)) {
    return refused(
      text,
      `The character ${characterName(scanner.next)} has no place in a date: write 2027-03-20.`,
      {
        start,
        end: start + scanner.next.length,
      },
    );
  }
  const readings = readingsOf(pieces).filter((reading) => whyImpossible(reading) === undefined);
  const texts = [...new Set(readings.map(formatDate))];
  const options = { start, end: end > start ? end : text.length };
  if (texts.length === 0) {
    const written = shortened(text.slice(options.start, options.end));
    return refused(text, `“${written}” is no date: write year, month and day as in 2027-03-20.`, options);
  }
  if (texts.length > 1) {
    const message = `The order of day and month is not certain: write ${texts.join(' or ')}.`;
    return refused(text, message, { code: 'plan/ambiguous-date', ...options, facts: { readings: texts } });
  }
  return refused(text, `Write the date as year, month and day: ${texts[0]}.`, {
    ...options,
    rewrite: replaced(text, { start, end }, texts[0] ?? ''),
  });
}

/** Every date that three pieces, or eight digits, can mean. Years have four digits. */
function readingsOf(pieces: readonly ScannedText[]): CivilDate[] {
  const [a, b, c] = pieces.map((piece) => piece.text);
  if (a === undefined) return [];
  if (b === undefined) {
    return a.length === 8 && isDigit(a.charAt(0))
      ? [{ year: Number(a.slice(0, 4)), month: Number(a.slice(4, 6)), day: Number(a.slice(6)) }]
      : [];
  }
  if (c === undefined) return [];
  const reading = (year: string, month: string, day: string): CivilDate[] => {
    const monthNumber = isDigit(month.charAt(0)) ? Number(month) : monthNamed(month);
    const isDay = day.length <= 2 && isDigit(day.charAt(0));
    const isYear = year.length === 4 && isDigit(year.charAt(0));
    return isYear && isDay && month.length < 10 && monthNumber !== undefined
      ? [{ year: Number(year), month: monthNumber, day: Number(day) }]
      : [];
  };
  return [...reading(a, b, c), ...reading(c, b, a), ...reading(c, a, b)];
}

/** The month of an English name or its first three letters or more. */
function monthNamed(name: string): number | undefined {
  const wanted = name.toLowerCase();
  if (wanted.length < 3) return undefined;
  const index = months.findIndex(
    (month) => month.startsWith(wanted) || (wanted === 'sept' && month === 'september'),
  );
  return index < 0 ? undefined : index + 1;
}

/** `7` as `07`. */
export function twoDigits(number: number): string {
  return String(number).padStart(2, '0');
}
