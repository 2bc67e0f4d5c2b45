import type { Span } from '../text/span.ts';
import { nearest } from './nearest.ts';
import { type Reading, refused } from './quantity.ts';
import { commaRefused, isDigit, replaced, type ScannedNumber, type Scanner, shortened } from './scan.ts';

/** What stands at the scanner's place, read as a length of time. */
export type TimeScan =
  | { readonly kind: 'time'; readonly seconds: number; readonly span: Span }
  /** A number that no unit follows: each kind says what it makes of it. */
  | { readonly kind: 'bare'; readonly number: ScannedNumber }
  | { readonly kind: 'refused'; readonly reading: Reading<never> };

const unitSeconds: ReadonlyMap<string, number> = new Map([
  ...['s', 'sec', 'secs', 'second', 'seconds', '"', '″', '”', "''", '′′'].map((unit) => [unit, 1] as const),
  ...['min', 'mins', 'minute', 'minutes', 'm', "'", '′', '’'].map((unit) => [unit, 60] as const),
  ...['h', 'hr', 'hrs', 'hour', 'hours'].map((unit) => [unit, 3600] as const),
  ...['d', 'day', 'days'].map((unit) => [unit, 86_400] as const),
]);
const secondMarks: ReadonlySet<string> = new Set(['"', '″', '”', "''", '′′']);

/** Seconds in a unit of time as it is written, undefined for another word. */
export function secondsIn(unit: string): number | undefined {
  return unitSeconds.get(unit.toLowerCase());
}

/** Whether the text begins as a length of time does: a number, then nothing, a unit of time or a colon. */
export function looksLikeTime(scanner: Scanner): boolean {
  if (scanner.number() === undefined) return false;
  const unit = scanner.unit();
  return unit === undefined ? scanner.done || scanner.next === ':' : secondsIn(unit.text) !== undefined;
}

/**
 * Takes a length of time: `35 min`, `1 h 20 min`, `1m30s`, `1:20 h`, `1:30 min`, `0"5`, `1/2 s`, `½ h`. Each unit
 * stands once, the largest first. Undefined when no unsigned number stands here. Sizes are not judged.
 */
export function scanTime(scanner: Scanner): TimeScan | undefined {
  const first = scanner.number({ signed: false });
  if (first === undefined) return undefined;
  const { start } = first.span;
  const comma = commaRefused(scanner.text, first);
  if (comma !== undefined) return { kind: 'refused', reading: comma };
  const nothing = dividedByNothing(scanner.text, first);
  if (nothing !== undefined) return { kind: 'refused', reading: nothing };
  if (first.form === 'whole' && scanner.text[scanner.at] === ':') return scanColonTime(scanner, start);

  let seconds = 0;
  let previous = Number.POSITIVE_INFINITY;
  for (let number: ScannedNumber | undefined = first; number; number = scanner.number({ signed: false })) {
    const decimalComma = commaRefused(scanner.text, number);
    if (decimalComma !== undefined) return { kind: 'refused', reading: decimalComma };
    const unit = scanner.unit();
    if (unit === undefined) {
      return number === first
        ? { kind: 'bare', number }
        : { kind: 'refused', reading: unitMissing(scanner, number, previous) };
    }
    const size = secondsIn(unit.text);
    if (size === undefined)
      return { kind: 'refused', reading: unitUnknown(scanner.text, unit.text, unit.span) };
    if (size >= previous) return { kind: 'refused', reading: outOfOrder(scanner, number.span.start) };
    const decimals = secondMarks.has(unit.text) && number.form === 'whole' ? tightDigits(scanner) : undefined;
    seconds +=
      decimals === undefined ? withoutDust(number.value * size, size) : Number(`${number.value}.${decimals}`);
    previous = size;
  }
  return { kind: 'time', seconds, span: { start, end: scanner.at } };
}

/** The whole time in units from the largest down, `1 h 20 min`, nothing rounded; seconds alone below a minute. */
export function inUnits(seconds: number): string {
  const parts: string[] = [];
  let rest = seconds;
  for (const [size, name] of [
    [86_400, 'day'],
    [3600, 'h'],
    [60, 'min'],
  ] as const) {
    const count = Math.floor(rest / size);
    if (count > 0) parts.push(`${count} ${name}${name === 'day' && count > 1 ? 's' : ''}`);
    rest -= count * size;
  }
  if (rest > 0 || parts.length === 0) parts.push(`${rest} s`);
  return parts.join(' ');
}

/** `1:20 h` is 1 h 20 min, `1:30 min` is 1 min 30 s, `1:20:30 h` all three. The scanner stands at the first colon. */
function scanColonTime(scanner: Scanner, start: number): TimeScan {
  const { text } = scanner;
  const parts = [Number(text.slice(start, scanner.at))];
  while (parts.length < 3 && text[scanner.at] === ':') {
    scanner.at += 1;
    const digits = tightDigits(scanner);
    const written = scanner.since(start);
    if (digits === undefined || digits.length !== 2 || Number(digits) > 59) {
      const message = `Two digits from 00 to 59 belong behind the colon of “${shortened(written.text)}”.`;
      return { kind: 'refused', reading: refused(text, message, written.span) };
    }
    parts.push(Number(digits));
  }
  const written = scanner.since(start);
  const unit = scanner.unit();
  const size = unit === undefined ? undefined : secondsIn(unit.text);
  if (size === 3600 || (size === 60 && parts.length === 2)) {
    const seconds = parts.reduce((sum, part, index) => sum + (part * size) / 60 ** index, 0);
    return { kind: 'time', seconds, span: { start, end: scanner.at } };
  }
  if (unit !== undefined && size === undefined) {
    return { kind: 'refused', reading: unitUnknown(text, unit.text, unit.span) };
  }
  const readings = parts.length === 3 ? [`${written.text} h`] : [`${written.text} min`, `${written.text} h`];
  const message =
    parts.length === 3
      ? `Write ${readings[0]} for hours, minutes and seconds.`
      : `“${written.text}” may be minutes or hours: write ${readings.join(' or ')}.`;
  const reading = refused(text, message, {
    code: 'plan/ambiguous-time',
    start,
    end: scanner.at,
    facts: { readings },
    ...(parts.length === 3 ? { rewrite: replaced(text, { start, end: scanner.at }, readings[0] ?? '') } : {}),
  });
  return { kind: 'refused', reading };
}

/** `1/0` is no time, however long. */
function dividedByNothing(text: string, { form, value, span }: ScannedNumber): Reading<never> | undefined {
  if (form !== 'fraction' || Number.isFinite(value)) return undefined;
  const written = shortened(text.slice(span.start, span.end));
  return refused(text, `“${written}” is no time: nothing can be divided by 0.`, {
    code: 'plan/impossible-value',
    ...span,
  });
}

/** Takes digits that follow without a blank. */
function tightDigits(scanner: Scanner): string | undefined {
  return isDigit(scanner.text.charAt(scanner.at)) ? scanner.digits()?.text : undefined;
}

/** `1 h 20` can only mean minutes, `2 min 30` only seconds. */
function unitMissing(scanner: Scanner, number: ScannedNumber, previous: number): Reading<never> {
  const { text } = scanner;
  const written = text.slice(number.span.start, number.span.end);
  const unit = previous === 86_400 ? 'h' : previous === 3600 ? 'min' : 's';
  if (previous === 1) return outOfOrder(scanner, number.span.start);
  return refused(text, `A unit is missing: ${shortened(written)} ${unit}?`, {
    code: 'plan/missing-unit',
    ...number.span,
    rewrite: replaced(text, number.span, `${written} ${unit}`),
  });
}

function unitUnknown(text: string, unit: string, span: Span): Reading<never> {
  const near = unit.length > 2 ? nearest(unit, unitSeconds.keys()) : undefined;
  const meant = near === undefined ? 'use s, min, h or days' : `${near}?`;
  return refused(text, `“${shortened(unit)}” is not a unit of time: ${meant}.`.replace('?.', '?'), {
    code: 'plan/unknown-unit',
    ...span,
    ...(near === undefined ? {} : { rewrite: replaced(text, span, near) }),
  });
}

function outOfOrder(scanner: Scanner, start: number): Reading<never> {
  return refused(scanner.text, 'Write each unit once, the largest first: 1 h 20 min.', {
    start,
    end: scanner.at,
  });
}

/** 2.3 h is 8280 s, not 8279.999999999999 s: minutes, hours and days are rounded to a microsecond, seconds kept. */
function withoutDust(seconds: number, unit: number): number {
  return unit === 1 ? seconds : Math.round(seconds * 1e6) / 1e6;
}
