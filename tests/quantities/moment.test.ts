import { describe, expect, test } from 'vitest';
import type { EventName, Occurrence } from '../../server/quantities/events.ts';
import { type Moment, moment } from '../../server/quantities/moment.ts';
import { holdsContract } from '../support/contract.ts';
import { moments, withoutSpans } from '../support/moments.ts';

const clock = (hour: number, minute: number, second = 0, dayOffset = 0): Moment => ({
  kind: 'clock',
  clock: { hour, minute, second, dayOffset },
});
const event = (name: EventName, dayOffset = 0, occurrence?: Occurrence): Moment => ({
  kind: 'event',
  event: name,
  dayOffset,
  ...(occurrence === undefined ? {} : { occurrence }),
});
const mark = (name: 'arrive' | 'ready'): Moment => ({ kind: 'mark', mark: name });
const after = (shot: string, start: number): Moment => ({
  kind: 'after',
  shot,
  span: { start, end: start + shot.length },
});
const offset = (base: Moment, seconds: number): Moment => ({ kind: 'offset', base, seconds });

holdsContract(moment, {
  accepted: [
    ['07:10', clock(7, 10)],
    ['7:10', clock(7, 10)],
    ['07:10 next day', clock(7, 10, 0, 1)],
    ['20:00 previous day', clock(20, 0, 0, -1)],
    ['23:30 Previous  Day + 5 min', offset(clock(23, 30, 0, -1), 300)],
    ['06:30 + 10 min', offset(clock(6, 30), 600)],
    ['sunrise', event('sunrise')],
    ['Sunrise', event('sunrise')],
    ['sun rise', event('sunrise')],
    ['sunrise next day', event('sunrise', 1)],
    ['sunset previous day', event('sunset', -1)],
    ['second high water', event('high water', 0, 2)],
    ['Second high-water - 2 h', offset(event('high water', 0, 2), -7200)],
    ['first sunset next day', event('sunset', 1, 1)],
    ['third sun clears skyline', event('sun clears skyline', 0, 3)],
    ['sunrise next day - 1 h', offset(event('sunrise', 1), -3600)],
    ['sunrise - 30 min', offset(event('sunrise'), -1800)],
    ['sunrise-30min', offset(event('sunrise'), -1800)],
    ['sunrise \u2212 30\u00a0min', offset(event('sunrise'), -1800)],
    ['sunrise \u2013 30 min', offset(event('sunrise'), -1800)],
    ['sunset + 1 h 10 min', offset(event('sunset'), 4200)],
    ['sunset + 1:10 h', offset(event('sunset'), 4200)],
    ['sunset - 0 min', offset(event('sunset'), 0)],
    ['morning blue-hour start', event('morning blue hour start')],
    ['sun clears skyline + 5 min', offset(event('sun clears skyline'), 300)],
    ['high water - 2 h', offset(event('high water'), -7200)],
    ['arrive', mark('arrive')],
    ['Ready', mark('ready')],
    ['arrive + 20 min', offset(mark('arrive'), 1200)],
    ['after mirror', after('mirror', 6)],
    ['  after   mirror + 5 min', offset(after('mirror', 10), 300)],
    ['after north-2 - 5 min', offset(after('north-2', 6), -300)],
    ['after sunset', after('sunset', 6)],
    ['earlier of sunset, 18:30', { kind: 'earlier', of: [event('sunset'), clock(18, 30)] }],
    [
      'later of ready + 5 min, civil dawn, after mirror',
      { kind: 'later', of: [offset(mark('ready'), 300), event('civil dawn'), after('mirror', 42)] },
    ],
  ],
  refused: [
    ['sunrsie', 'plan/unknown-event', '“sunrsie” is no event: sunrise?', 'sunrise'],
    ['sunrsie - 30 min', 'plan/unknown-event', 'sunrise?', 'sunrise - 30 min'],
    ['later of sunrsie, 07:00', 'plan/unknown-event', 'sunrise?', 'later of sunrise, 07:00'],
    ['arive', 'plan/unknown-event', 'arrive?', 'arrive'],
    ['noon', 'plan/unknown-event', 'write which of solar noon, 12:00.'],
    ['midnight', 'plan/unknown-event', 'write which of 00:00, 00:00 next day.'],
    ['midnight next day', 'plan/unknown-event', '“midnight” is no event: 00:00?', '00:00 next day'],
    ['high tide', 'plan/unknown-event', '“high tide” is no event: high water?', 'high water'],
    ['Low-tide + 1 h', 'plan/unknown-event', 'low water?', 'low water + 1 h'],
    ['second high tide', 'plan/unknown-event', '“high tide” is no event: high water?', 'second high water'],
    [
      'first light',
      'plan/unknown-event',
      '“first light” is no event: write which of nautical dawn, civil dawn',
    ],
    ['second breakfast', 'plan/unknown-event', '“breakfast” is no event'],
    ['second', 'plan/unreadable', 'expected an event behind “second”, such as second high water'],
    ['second 07:10', 'plan/unreadable', 'expected an event behind “second”'],
    ['later of s9, 12:00', 'plan/unknown-event', '“s9” is no event: after s9?', 'later of after s9, 12:00'],
    ['north-2', 'plan/unknown-event', '“north-2” is no event: after north-2?', 'after north-2'],
    ['north-2 + 5 min', 'plan/unknown-event', 'after north-2?', 'after north-2 + 5 min'],
    ['sunsset-2', 'plan/unknown-event', '“sunsset-2” is no event: write which of sunset, after sunsset-2.'],
    ['sunrsie-30 min', 'plan/unknown-event', '“sunrsie” is no event: sunrise?', 'sunrise-30 min'],
    ['latest of sunset, 18:30', 'plan/unreadable', 'Write “later of”', 'later of sunset, 18:30'],
    ['Earliest of sunset, 18:30', 'plan/unreadable', 'Write “earlier of”', 'earlier of sunset, 18:30'],
    ['earlier of sunset and 18:30', 'plan/unreadable', 'a comma', 'earlier of sunset, 18:30'],
    ['later of after mirror or ready', 'plan/unreadable', 'a comma', 'later of after mirror, ready'],
    ['golden hour start', 'plan/unknown-event', 'morning golden hour start, evening golden hour start'],
    ['breakfast', 'plan/unknown-event', '“breakfast” is no event: expected a clock time'],
    ['sunrise - 30', 'plan/missing-unit', '30 min?', 'sunrise - 30 min'],
    ['after mirror - 30', 'plan/missing-unit', 'does it belong to the id'],
    ['sunrise - 1:30', 'plan/ambiguous-time', '1:30 min or 1:30 h'],
    ['sunrise - 1,5 h', 'plan/decimal-comma', '1.5', 'sunrise - 1.5 h'],
    ['sunrise - 30 mins before', 'plan/unreadable', '“before” is not understood'],
    ['sunrise - 3 hrz', 'plan/unknown-unit', 'hr?', 'sunrise - 3 hr'],
    ['sunrise -', 'plan/unreadable', 'expected a duration'],
    ['sunrise - soon', 'plan/unreadable', 'expected a duration'],
    ['sunrise - 60 days', 'plan/impossible-value', 'at most 31 days'],
    [`sunset - ${'1h'.repeat(50_000)}`, 'plan/unreadable', 'each unit once'],
    ['sunrise + 1 h - 5 min', 'plan/unreadable', 'one offset'],
    ['sunrise - 30 min next day', 'plan/unreadable', '“next day” stands before', 'sunrise next day - 30 min'],
    [
      'sunset + 1 h previous day',
      'plan/unreadable',
      '“previous day” stands before',
      'sunset previous day + 1 h',
    ],
    ['30 min before sunrise', 'plan/unreadable', 'sunrise - 30 min', 'sunrise - 30 min'],
    ['1 h after sun set', 'plan/unreadable', 'sun set + 1 h', 'sun set + 1 h'],
    ['10 min after arrive', 'plan/unreadable', 'arrive + 10 min', 'arrive + 10 min'],
    ['10 min after mirror', 'plan/unreadable', 'after mirror + 10 min'],
    ['7.10', 'plan/unreadable', '07:10', '07:10'],
    ['7:10 pm + 5 min', 'plan/unreadable', '19:10', '19:10 + 5 min'],
    ['25:00', 'plan/impossible-value', '01:00 next day', '01:00 next day'],
    ['after', 'plan/unreadable', 'expected the id of a shot'],
    ['after - 5 min', 'plan/unreadable', 'expected the id of a shot'],
    ['after mirror-5 min', 'plan/unreadable', 'a blank on both sides of the minus', 'after mirror - 5 min'],
    ['after mirror next day', 'plan/unreadable', '“next day” is not understood'],
    ['earlier of sunset', 'plan/unreadable', 'two moments or more'],
    ['earlier of sunset,', 'plan/unreadable', 'Something is missing at the end'],
    ['earlier of sunset, later of ready, 07:00', 'plan/unreadable', 'holds no other list'],
    [`earlier of ${Array(40).fill('sunset').join(', ')}`, 'plan/unreadable', 'At most 31'],
    ['sunrise .. sunset', 'plan/unreadable', 'one moment, not a range'],
    ['sunrise, sunset', 'plan/unreadable', '“, sunset” is not understood'],
    ['🌅', 'plan/unreadable', 'U+1F305'],
    ['', 'plan/unreadable', 'expected a clock time, an event'],
  ],
  values: moments,
  compared: withoutSpans,
});

test('the canonical text', () => {
  const canonical: [string, string][] = [
    ['7:10  next day', '07:10 next day'],
    ['Second  high-water   previous day', 'second high water previous day'],
    ['Sun Rise-90min', 'sunrise - 1 h 30 min'],
    ['later of  ready,7:00', 'later of ready, 07:00'],
    ['after   mirror+5min', 'after mirror + 5 min'],
  ];
  for (const [text, expected] of canonical) {
    const { value } = moment.parse(text);
    expect(value && moment.format(value)).toBe(expected);
  }
});

describe('completion', () => {
  const offered = (typed: string) => moment.complete(typed).map(({ text }) => text);

  test('names, then offsets, then units', () => {
    expect(offered('')).toContain('sun clears skyline');
    expect(offered('sunr')).toEqual(['sunrise']);
    expect(offered('sunrise')).toEqual([
      'sunrise',
      'sunrise - 30 min',
      'sunrise + 30 min',
      'sunrise next day',
      'sunrise previous day',
    ]);
    expect(offered('second hi')).toEqual(['second high water']);
    expect(offered('second high water')).toContain('second high water next day');
    expect(offered('')).not.toContain('second sunset');
    expect(offered('sunrise -')).toEqual(['sunrise - 30 min', 'sunrise - 1 h']);
    expect(offered('sunrise - 4')).toEqual(['sunrise - 4 min', 'sunrise - 4 h', 'sunrise - 4 s']);
  });

  test('the last moment of a list, and no list in a list', () => {
    expect(offered('earlier of ready, sunr')).toEqual(['earlier of ready, sunrise']);
    expect(offered('later of')).toContain('later of sunset, ');
    expect(offered('later of ')).not.toContain('later of earlier of ');
  });
});
