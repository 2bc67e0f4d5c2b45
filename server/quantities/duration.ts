import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { replaced, Scanner } from './scan.ts';
import { inUnits, looksLikeTime, scanTime } from './spanOfTime.ts';
import { beginning, distinct, withUnits } from './suggest.ts';

/** Longer than any outing; a duration beyond it is a slip. */
const longestSeconds = 31 * 86_400;
const shortestSeconds = 0.001;

const examples = ['35 min', '1 h 20 min', '90 min', '1:20 h', '90 s', '2 days', '½ h'];

/** A length of time in seconds: walking, driving, setting up, a limit. Zero is allowed, a sign is not. */
export const duration: Quantity<number> = {
  name: 'duration',
  documentation: [
    'A length of time, with its unit.',
    '',
    '`35 min`, `90 s`, `1 h 20 min`, `1h20m`, `1:20 h` (hours and minutes), `1:30 min` (minutes and seconds), `½ h`, `2 days`',
  ].join('\n'),
  examples,
  recognise: (text) => looksLikeTime(new Scanner(text)),
  parse: parseDuration,
  format(seconds) {
    if (seconds === 0) return '0 min';
    const text = inUnits(seconds);
    return parseDuration(text).value === seconds ? text : `${seconds} s`;
  },
  complete(typed) {
    const units = [{ text: ' min' }, { text: ' h' }, { text: ' s' }];
    const offered = [
      ...withUnits(typed, units),
      ...beginning(
        typed,
        examples.map((text) => ({ text })),
      ),
    ];
    return distinct(offered).filter(({ text }) => parseDuration(text).value !== undefined);
  },
};

/**
 * A duration for people: seconds below a minute (`45 s`), minutes and seconds below ten minutes (`1 min 30 s`), hours
 * and minutes beyond (`35 min`, `1 h 20 min`), days and hours from two days (`3 days 4 h`). Rounded to the last unit
 * shown. A negative one has a minus sign (U+2212).
 */
export function formatDuration(seconds: number): string {
  if (!Number.isFinite(seconds)) return seconds < 0 ? '−∞' : '∞';
  const size = Math.abs(seconds);
  const step = size < 600 ? 1 : size < 172_800 ? 60 : 3600;
  const rounded = Math.round(size / step) * step;
  const sign = seconds < 0 && rounded > 0 ? '−' : '';
  if (rounded < 172_800) {
    const hours = Math.floor(rounded / 3600);
    const rest = rounded - hours * 3600;
    if (hours > 0) return `${sign}${hours} h${rest > 0 ? ` ${inUnits(rest)}` : ''}`;
  }
  return sign + inUnits(rounded);
}

function parseDuration(text: string): Reading<number> {
  const scanner = new Scanner(text);
  const sign = scanner.sign();
  const scan = scanTime(scanner);
  if (scan === undefined) return new Scanner(text).unexpected('a duration such as 35 min or 1 h 20 min');
  if (scan.kind === 'refused') return scan.reading;
  if (scan.kind === 'bare') {
    const { span } = scan.number;
    if (!scanner.done) return scanner.unexpected('a unit: s, min, h or days');
    return refused(text, `A unit is missing: ${text.slice(span.start, span.end).slice(0, 20)} min?`, {
      code: 'plan/missing-unit',
      ...span,
      rewrite: replaced(text, span, `${text.slice(span.start, span.end)} min`),
    });
  }
  if (!scanner.done) return scanner.unexpected('the end of the duration');
  if (sign !== undefined) {
    return refused(text, 'A duration has no sign.', {
      code: 'plan/impossible-value',
      ...(sign === '+' ? { rewrite: text.slice(scan.span.start) } : {}),
    });
  }
  if (!(scan.seconds <= longestSeconds)) {
    return refused(text, 'A duration is at most 31 days.', { code: 'plan/impossible-value' });
  }
  if (scan.seconds > 0 && scan.seconds < shortestSeconds) {
    return refused(text, 'A duration is 0 or at least a thousandth of a second.', {
      code: 'plan/impossible-value',
    });
  }
  return read(scan.seconds);
}
