import type { Span } from '../text/span.ts';
import { type Clock, daySuffix, formatClock, scanClock, scanDay } from './clock.ts';
import { duration } from './duration.ts';
import {
  type EventName,
  eventNamed,
  events,
  eventsLike,
  eventText,
  type Occurrence,
  occurrences,
} from './events.ts';
import { completeMoment } from './momentCompletion.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { isDigit, replaced, type ScannedText, Scanner, shortened } from './scan.ts';
import { scanTime, secondsIn } from './spanOfTime.ts';
import { expectedMoment, unknownEvent } from './unknownEvent.ts';

/** A moment as the author gives it, not yet a time on a date. */
export type Moment =
  | { readonly kind: 'clock'; readonly clock: Clock }
  /** `dayOffset` 1 for `sunrise next day`, -1 for `sunset previous day`, else 0; `occurrence` 2 for `second high water`. */
  | {
      readonly kind: 'event';
      readonly event: EventName;
      readonly dayOffset: number;
      readonly occurrence?: Occurrence;
    }
  /** When one arrives at the spot, and when one has set up there. */
  | { readonly kind: 'mark'; readonly mark: 'arrive' | 'ready' }
  /** The end of another shot. `span` is where its id stands in the scalar's text. */
  | { readonly kind: 'after'; readonly shot: string; readonly span: Span }
  | { readonly kind: 'offset'; readonly base: Moment; readonly seconds: number }
  /** Two or more moments; none of them is an `earlier` or `later` itself. */
  | { readonly kind: 'earlier' | 'later'; readonly of: readonly Moment[] };

export type MomentScan =
  | { readonly moment: Moment; readonly span: Span }
  | { readonly refusal: Reading<never> };

/** More than a day's events; a longer list is a slip. */
const longestList = 32;
const longestName = 8;
/** Words that people write between two moments; no name has one. */
const joining: ReadonlySet<string> = new Set(['and', 'or']);

/**
 * A moment of the day. `format` gives the canonical text; `parse` of it gives the same moment, but the `span` of an
 * `after` then counts in the canonical text.
 */
export const moment: Quantity<Moment> = {
  name: 'moment',
  documentation: [
    'A moment of the day: a local clock time, or one that moves with sun, moon, tide or the work.',
    '',
    '`07:10`, `00:30 next day`, `sunrise`, `sunrise - 30 min`, `sunset + 1 h 10 min`, `sunrise next day`, `20:00 previous day`, `second high water`, `arrive`, `ready`, `arrive + 20 min`, `after mirror` (the end of that shot), `earlier of sunset, 18:30`, `later of ready, civil dawn`',
    '',
    `Events: ${events.map((event) => `\`${event.name}\``).join(', ')}`,
  ].join('\n'),
  examples: [
    'sunrise - 30 min',
    '07:10',
    '00:30 next day',
    '20:00 previous day',
    'sunset + 1 h 10 min',
    'second high water',
    'civil dawn',
    'ready',
    'arrive + 20 min',
    'after mirror',
    'earlier of sunset, 18:30',
  ],
  recognise: recogniseMoment,
  parse: (text) => {
    const scanner = new Scanner(text);
    const scan = scanMoment(scanner);
    if ('refusal' in scan) return scan.refusal;
    if (scanner.done) return read(scan.moment);
    return scanner.unexpected(scanner.next === '.' ? 'one moment, not a range' : 'the end of the moment');
  },
  format: formatMoment,
  complete: completeMoment,
};

/** The canonical text of a moment. */
export function formatMoment(value: Moment): string {
  switch (value.kind) {
    case 'clock':
      return formatClock(value.clock);
    case 'event':
      return eventText(value.event, value.occurrence) + daySuffix(value.dayOffset);
    case 'mark':
      return value.mark;
    case 'after':
      return `after ${value.shot}`;
    case 'offset': {
      const sign = value.seconds < 0 ? '-' : '+';
      return `${formatMoment(value.base)} ${sign} ${duration.format(Math.abs(value.seconds))}`;
    }
    case 'earlier':
    case 'later':
      return `${value.kind} of ${value.of.map(formatMoment).join(', ')}`;
  }
}

/** Takes a moment at the scanner's place, as much as belongs to it. */
export function scanMoment(scanner: Scanner): MomentScan {
  const { start } = scanner.rest;
  const choice = scanChoice(scanner);
  if (choice === undefined) return otherChoice(scanner) ?? scanSimple(scanner);
  const of: Moment[] = [];
  do {
    const nested = scanner.rest.start;
    if (scanChoice(scanner) !== undefined) {
      const options = { start: nested, end: scanner.at };
      return { refusal: refused(scanner.text, 'A list of moments holds no other list.', options) };
    }
    const item = scanSimple(scanner);
    if ('refusal' in item) return item;
    of.push(item.moment);
    const between = commaMissing(scanner);
    if (between !== undefined) return { refusal: between };
  } while (scanner.take(',') && of.length < longestList);
  const span = { start, end: scanner.at };
  if (of.length < 2) {
    const message = `“${choice} of” takes two moments or more, with commas between.`;
    return { refusal: refused(scanner.text, message, span) };
  }
  if (of.length >= longestList) {
    return { refusal: refused(scanner.text, `At most ${longestList - 1} moments can be compared.`, span) };
  }
  return { moment: { kind: choice, of }, span };
}

/** Takes `earlier of` or `later of`. */
function scanChoice(scanner: Scanner): 'earlier' | 'later' | undefined {
  const origin = scanner.at;
  const word = scanner.word()?.text.toLowerCase();
  if ((word === 'earlier' || word === 'later') && scanner.word()?.text.toLowerCase() === 'of') return word;
  scanner.at = origin;
  return undefined;
}

/** `latest of` and the like for `later of`. */
const otherChoices: ReadonlyMap<string, 'earlier' | 'later'> = new Map([
  ['earliest', 'earlier'],
  ['first', 'earlier'],
  ['latest', 'later'],
  ['last', 'later'],
]);

/** `latest of` is understood well enough to offer the rewrite. */
function otherChoice(scanner: Scanner): MomentScan | undefined {
  const origin = scanner.at;
  const word = scanner.word();
  const meant = word === undefined ? undefined : otherChoices.get(word.text.toLowerCase());
  const isChoice = meant !== undefined && scanner.word()?.text.toLowerCase() === 'of';
  scanner.at = origin;
  if (!isChoice || word === undefined) return undefined;
  const rewrite = replaced(scanner.text, word.span, meant);
  return { refusal: refused(scanner.text, `Write “${meant} of”.`, { ...word.span, rewrite }) };
}

/** `earlier of sunset and 18:30` lacks a comma. */
function commaMissing(scanner: Scanner): Reading<never> | undefined {
  const origin = scanner.at;
  const word = scanner.word();
  scanner.at = origin;
  if (word === undefined || !joining.has(word.text.toLowerCase())) return undefined;
  const rewrite = replaced(scanner.text, { start: origin, end: word.span.end }, ',');
  const message = `Write a comma instead of “${word.text}”: ${shortened(rewrite)}.`;
  return refused(scanner.text, message, { ...word.span, rewrite });
}

/** Takes a moment that is no list: a base, and at most one offset. */
function scanSimple(scanner: Scanner): MomentScan {
  const { start } = scanner.rest;
  const base = scanBase(scanner);
  if ('refusal' in base) return base;
  const sign = scanner.sign();
  if (sign === undefined) return base;
  const offset = scanOffset(scanner, base.moment);
  if ('refusal' in offset) return offset;
  const { seconds } = offset;
  const beforeDay = scanner.rest.start;
  const day = scanDay(scanner);
  if (day !== 0) {
    const span = { start, end: scanner.at };
    const written = scanner.text.slice(base.span.end, beforeDay).trimEnd();
    const meant = `${scanner.text.slice(start, base.span.end)}${daySuffix(day)}${written}`;
    const rewrite = replaced(scanner.text, span, meant);
    const message = `“${daySuffix(day).trim()}” stands before the offset: ${shortened(meant)}.`;
    return { refusal: refused(scanner.text, message, { ...span, rewrite }) };
  }
  const again = scanner.rest.start;
  if (scanner.sign() !== undefined) {
    return {
      refusal: refused(scanner.text, 'A moment has one offset: add them up.', {
        start: again,
        end: scanner.rest.end,
      }),
    };
  }
  const moved: Moment = { kind: 'offset', base: base.moment, seconds: sign === '-' ? 0 - seconds : seconds };
  return { moment: moved, span: { start, end: scanner.at } };
}

/** Takes the duration behind a sign. */
function scanOffset(
  scanner: Scanner,
  base: Moment,
): { readonly seconds: number } | { readonly refusal: Reading<never> } {
  const { text } = scanner;
  const scan = scanTime(scanner);
  if (scan === undefined) return { refusal: scanner.unexpected('a duration such as 30 min') };
  if (scan.kind === 'refused') return { refusal: scan.reading };
  if (scan.kind === 'bare') {
    const { span } = scan.number;
    const meant = `${text.slice(span.start, span.end)} min`;
    const id = base.kind === 'after' ? ' Or does it belong to the id? Then leave no blank before it.' : '';
    return {
      refusal: refused(text, `A unit is missing: ${shortened(meant)}?${id}`, {
        code: 'plan/missing-unit',
        ...span,
        ...(id === '' ? { rewrite: replaced(text, span, meant) } : {}),
      }),
    };
  }
  const judged = duration.parse(text.slice(scan.span.start, scan.span.end));
  const problem = judged.problems[0];
  if (problem === undefined) return { seconds: scan.seconds };
  return { refusal: refused(text, problem.message, { code: problem.code, ...scan.span }) };
}

function scanBase(scanner: Scanner): MomentScan {
  const { start } = scanner.rest;
  if (isDigit(scanner.next)) return beforeOrAfter(scanner) ?? scanClockBase(scanner);
  const first = scanner.word();
  if (first === undefined) return { refusal: scanner.unexpected(expectedMoment) };
  const word = first.text.toLowerCase();
  if (word === 'arrive' || word === 'ready')
    return { moment: { kind: 'mark', mark: word }, span: first.span };
  if (word === 'after') {
    const id = scanner.id();
    if (id === undefined) return { refusal: scanner.unexpected('the id of a shot behind “after”') };
    const glued = gluedOffset(scanner, id);
    if (glued !== undefined) return { refusal: glued };
    return { moment: { kind: 'after', shot: id.text, span: id.span }, span: { start, end: scanner.at } };
  }
  const occurrence = occurrences.get(word);
  const from = occurrence === undefined ? start : scanner.rest.start;
  if (occurrence !== undefined && scanner.word() === undefined) {
    return { refusal: scanner.unexpected(`an event behind “${word}”, such as ${word} high water`) };
  }
  const name = scanName(scanner, from);
  const event = eventNamed(name.text);
  if (event === undefined) return { refusal: unknownEvent(scanner, start, name) };
  return {
    moment: {
      kind: 'event',
      event: event.name,
      dayOffset: scanDay(scanner),
      ...(occurrence === undefined ? {} : { occurrence }),
    },
    span: { start, end: scanner.at },
  };
}

/** In `after mirror-5 min` the id is `mirror-5`; a unit behind it shows that an offset was meant. */
function gluedOffset(scanner: Scanner, id: ScannedText): Reading<never> | undefined {
  const at = id.text.lastIndexOf('-');
  const number = id.text.slice(at + 1);
  if (at < 1 || number.length > 6 || !/^\d+$/.test(number)) return undefined;
  const origin = scanner.at;
  const unit = scanner.unit();
  const end = scanner.at;
  scanner.at = origin;
  if (unit === undefined || secondsIn(unit.text) === undefined) return undefined;
  const meant = `${id.text.slice(0, at)} - ${number}`;
  return refused(
    scanner.text,
    `Write a blank on both sides of the minus: ${shortened(meant)} ${unit.text}.`,
    {
      start: id.span.start,
      end,
      rewrite: replaced(scanner.text, id.span, meant),
    },
  );
}

function scanClockBase(scanner: Scanner): MomentScan {
  const scan = scanClock(scanner);
  if (scan === undefined) return { refusal: scanner.unexpected(expectedMoment) };
  if ('refusal' in scan) return scan;
  return { moment: { kind: 'clock', clock: scan.clock }, span: scan.span };
}

/**
 * Takes the words of a name, single hyphens between them too, up to `next day`, `and` and the like. The first word is taken already; no
 * name has more than `longestName`.
 */
function scanName(scanner: Scanner, start: number): { readonly text: string; readonly span: Span } {
  for (let words = 1; words < longestName; words += 1) {
    const origin = scanner.at;
    const ends = scanDay(scanner) !== 0 || joining.has(scanner.word()?.text.toLowerCase() ?? '');
    scanner.at = origin;
    if (ends) break;
    const joined = /^[-_]\p{L}/u.test(scanner.text.slice(origin, origin + 3));
    if (joined) scanner.at += 1;
    if (scanner.word() === undefined) break;
  }
  return scanner.since(start);
}

/** `30 min before sunrise` is understood well enough to offer the rewrite. Undefined for anything else. */
function beforeOrAfter(scanner: Scanner): MomentScan | undefined {
  const origin = scanner.at;
  const time = scanTime(scanner);
  const word = time?.kind === 'time' ? scanner.word()?.text.toLowerCase() : undefined;
  if (time?.kind !== 'time' || (word !== 'before' && word !== 'after')) {
    scanner.at = origin;
    return undefined;
  }
  const sign = word === 'before' ? '-' : '+';
  const base = scanner.rest;
  const target = scanner.word() === undefined ? undefined : scanName(scanner, base.start);
  const length = scanner.text.slice(time.span.start, time.span.end);
  const span = { start: time.span.start, end: scanner.at };
  const name = target?.text ?? 'sunrise';
  const known = name === 'arrive' || name === 'ready' || eventNamed(name) !== undefined;
  const meant = `${name} ${sign} ${length}`;
  const rewrite = known && target !== undefined ? { rewrite: replaced(scanner.text, span, meant) } : {};
  const isShot = word === 'after' && target !== undefined && eventsLike(name).length === 0;
  const shown = known ? meant : isShot ? `after ${meant}` : `sunrise ${sign} ${length}`;
  return {
    refusal: refused(scanner.text, `The duration comes last: ${shortened(shown)}.`, { ...span, ...rewrite }),
  };
}

function recogniseMoment(text: string): boolean {
  const scanner = new Scanner(text.slice(0, 200));
  if (scanChoice(scanner) !== undefined) return true;
  const { start } = scanner.rest;
  const digits = scanner.digits();
  if (digits !== undefined) return digits.text.length <= 2 && text[scanner.at] === ':';
  const word = scanner.word()?.text.toLowerCase();
  if (word === undefined) return false;
  if (['arrive', 'ready', 'after'].includes(word)) return true;
  if (!occurrences.has(word)) return eventNamed(scanName(scanner, start).text) !== undefined;
  const from = scanner.rest.start;
  return scanner.word() !== undefined && eventNamed(scanName(scanner, from).text) !== undefined;
}
