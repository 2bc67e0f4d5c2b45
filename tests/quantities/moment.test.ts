import { describe, expect, test } from 'vitest';
import type { EventName } from '../../server/quantities/events.ts';
import { type Moment, moment } from '../../server/quantities/moment.ts';
import { holdsContract } from '../support/contract.ts';
import { moments, withoutSpans } from '../support/moments.ts';

const clock = (hour: number, minute: number, second = 0, dayOffset = 0): Moment => ({
  kind: 'clock',
  clock: { hour, minute, second, dayOffset },
});
const event = (name: EventName, dayOffset = 0): Moment => ({ kind: 'event', event: name, dayOffset });
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
    ['06:30 + 10 min', offset(clock(6, 30), 600)],
    ['sunrise', event('sunrise')],
    ['Sunrise', event('sunrise')],
    ['sun rise', event('sunrise')],
    ['sunrise next day', event('sunrise', 1)],
    ['sunrise next day - 1 h', offset(event('sunrise', 1), -3600)],
    ['sunrise - 30 min', offset(event('sunrise'), -1800)],
    ['sunrise-30min', offset(event('sunrise'), -1800)],
    ['sunrise \u2212 30\u00a0min', offset(event('sunrise'), -1800)],
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
    ['noon', 'plan/unknown-event', 'solar noon?', 'solar noon'],
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
    ]);
    expect(offered('sunrise -')).toEqual(['sunrise - 30 min', 'sunrise - 1 h']);
    expect(offered('sunrise - 4')).toEqual(['sunrise - 4 min', 'sunrise - 4 h', 'sunrise - 4 s']);
  });

  test('the last moment of a list, and no list in a list', () => {
    expect(offered('earlier of ready, sunr')).toEqual(['earlier of ready, sunrise']);
    expect(offered('later of')).toContain('later of sunset, ');
    expect(offered('later of ')).not.toContain('later of earlier of ');
  });
});
