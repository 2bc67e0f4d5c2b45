import type { Span } from '../text/span.ts';
import { twoDigits } from './date.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { isDigit, replaced, Scanner, shortened } from './scan.ts';
import { beginning } from './suggest.ts';

/** A time on the clock at a spot. */
export interface Clock {
  /** 0 to 23. */
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  /** 0 for the plan's date, 1 for the day after, -1 for the day before. */
  readonly dayOffset: number;
}

/** A clock time that stands in a text; or its refusal. */
export type ClockScan = { readonly clock: Clock; readonly span: Span } | { readonly refusal: Reading<never> };

const examples = ['07:10', '18:30', '00:30 next day', '20:00 previous day', '07:10:30'];

/** A local time of the 24-hour clock. */
export const clock: Quantity<Clock> = {
  name: 'clock time',
  documentation: [
    'The local time at the spot, on the 24-hour clock.',
    '',
    '`07:10`, `7:10`, `07:10:30`, `00:30 next day`, `20:00 previous day`',
  ].join('\n'),
  examples,
  recognise: (text) => {
    const hour = new Scanner(text).digits();
    return hour !== undefined && hour.text.length <= 2 && text.charAt(hour.span.end) === ':';
  },
  parse: (text) => {
    const scanner = new Scanner(text);
    const scan = scanClock(scanner);
    if (scan === undefined) return scanner.unexpected('a clock time such as 07:10');
    if ('refusal' in scan) return scan.refusal;
    return scanner.done ? read(scan.clock) : scanner.unexpected('the end of the clock time');
  },
  format: formatClock,
  complete: (typed) => {
    const offered = beginning(
      typed,
      examples.map((text) => ({ text })),
    );
    const parsed = clock.parse(typed).value;
    if (parsed === undefined || parsed.dayOffset !== 0) return offered;
    return [0, 1, -1].map((dayOffset) => ({ text: formatClock({ ...parsed, dayOffset }) }));
  },
};

/** `07:10`, `07:10:30`, `07:10 next day`, `20:00 previous day`. */
export function formatClock({ hour, minute, second, dayOffset }: Clock): string {
  const seconds = second === 0 ? '' : `:${twoDigits(second)}`;
  return `${twoDigits(hour)}:${twoDigits(minute)}${seconds}${daySuffix(dayOffset)}`;
}

/** What stands behind a moment that is not of the plan's date: ` next day`, ` previous day`. */
export function daySuffix(dayOffset: number): string {
  if (dayOffset === 0) return '';
  return dayOffset > 0 ? ' next day' : ' previous day';
}

/** Takes `next day`, which is 1, or `previous day`, -1; 0 where neither stands. */
export function scanDay(scanner: Scanner): -1 | 0 | 1 {
  const origin = scanner.at;
  const which = scanner.word()?.text.toLowerCase();
  const named = which === 'next' || which === 'previous';
  if (named && scanner.word()?.text.toLowerCase() === 'day') return which === 'next' ? 1 : -1;
  scanner.at = origin;
  return 0;
}

/**
 * Takes a clock time at the scanner's place, with `next day` or `previous day` where it follows, unless `dated`: then the date is known.
 * Undefined when no digit stands here. Other spellings of a time (`7.10`, `7h10`, `7:10 pm`, `0710`) are refused with
 * the rewrite.
 */
export function scanClock(scanner: Scanner, options: { dated?: boolean } = {}): ClockScan | undefined {
  const { text } = scanner;
  const first = scanner.digits();
  if (first === undefined) return undefined;
  const { start } = first.span;
  if (text[scanner.at] !== ':') return { refusal: otherSpelling(scanner, first.text, start) };

  const parts: string[] = [first.text];
  while (parts.length < 3 && text[scanner.at] === ':') {
    scanner.at += 1;
    parts.push(isDigit(text.charAt(scanner.at)) ? (scanner.digits()?.text ?? '') : '');
  }
  const refuse = (message: string, rewrite?: string, code = 'plan/impossible-value'): ClockScan => ({
    refusal: refused(text, message, {
      code,
      start,
      end: scanner.at,
      ...(rewrite === undefined ? {} : { rewrite: replaced(text, { start, end: scanner.at }, rewrite) }),
    }),
  });
  if (first.text.length > 2 || parts.slice(1).some((part) => part.length !== 2)) {
    const written = shortened(text.slice(start, scanner.at));
    return {
      refusal: refused(text, `“${written}” is no clock time: write it as in 07:10.`, {
        start,
        end: scanner.at,
      }),
    };
  }
  const [hour = 0, minute = 0, second = 0] = parts.map(Number);
  if (minute > 59) return refuse(`There is no minute ${minute}: minutes run from 00 to 59.`);
  if (second > 59) return refuse(`There is no second ${second}: seconds run from 00 to 59.`);
  const half = scanHalfOfDay(scanner);
  if (half !== undefined) {
    if (hour < 1 || hour > 12)
      return refuse('Write the time on the 24-hour clock, without am and pm.', undefined, 'plan/unreadable');
    const meant = formatClock({ hour: (hour % 12) + (half === 'pm' ? 12 : 0), minute, second, dayOffset: 0 });
    return refuse(`Write the time on the 24-hour clock: ${meant}.`, meant, 'plan/unreadable');
  }
  const dayOffset = options.dated === true ? 0 : scanDay(scanner);
  if (hour > 23) {
    const meant = formatClock({ hour: hour - 24, minute, second, dayOffset: 1 });
    if (hour > 47 || dayOffset !== 0 || options.dated)
      return refuse(`There is no hour ${hour}: hours run from 00 to 23.`);
    return refuse(`There is no hour ${hour}: write ${meant}.`, meant);
  }
  return { clock: { hour, minute, second, dayOffset }, span: { start, end: scanner.at } };
}

/** A time that does not have `hh:mm`. The scanner stands behind its first digits. */
function otherSpelling(scanner: Scanner, first: string, start: number): Reading<never> {
  const { text } = scanner;
  let hour = first;
  let minute = '';
  if (first.length === 4 || first.length === 3) {
    hour = first.slice(0, -2);
    minute = first.slice(-2);
  } else if (/[.hHuU]/.test(text.charAt(scanner.at)) && isDigit(text.charAt(scanner.at + 1))) {
    scanner.at += 1;
    minute = scanner.digits()?.text ?? '';
  }
  const half = scanHalfOfDay(scanner);
  const span = { start, end: scanner.at };
  const written = shortened(text.slice(span.start, span.end));
  const inHalf = half === undefined || (Number(hour) >= 1 && Number(hour) <= 12);
  const certain = minute.length === 2 || (minute === '' && (half !== undefined || scanner.done));
  if (hour.length <= 2 && Number(hour) <= 23 && Number(minute) <= 59 && certain && inHalf) {
    const meantHour = half === undefined ? Number(hour) : (Number(hour) % 12) + (half === 'pm' ? 12 : 0);
    const meant = formatClock({ hour: meantHour, minute: Number(minute), second: 0, dayOffset: 0 });
    return refused(text, `Write the clock time with a colon, on the 24-hour clock: ${meant}.`, {
      ...span,
      rewrite: replaced(text, span, meant),
    });
  }
  return refused(text, `“${written}” is no clock time: write it as in 07:10.`, span);
}

/** Takes `am`, `pm`, `a.m.`, `p.m.`, in either case. */
function scanHalfOfDay(scanner: Scanner): 'am' | 'pm' | undefined {
  const pattern = /\s?([ap])\.?m\b\.?/iy;
  pattern.lastIndex = scanner.at;
  const match = pattern.exec(scanner.text);
  if (match === null) return undefined;
  scanner.at = pattern.lastIndex;
  return match[1]?.toLowerCase() === 'a' ? 'am' : 'pm';
}
