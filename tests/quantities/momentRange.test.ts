import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Moment } from '../../server/quantities/moment.ts';
import { type MomentRange, momentRange } from '../../server/quantities/momentRange.ts';
import { holdsContract } from '../support/contract.ts';
import { moments, withoutSpans } from '../support/moments.ts';

const clock = (hour: number, minute: number, dayOffset = 0): Moment => ({
  kind: 'clock',
  clock: { hour, minute, second: 0, dayOffset },
});
const sunset: Moment = { kind: 'event', event: 'sunset', dayOffset: 0 };

const ranges: fc.Arbitrary<MomentRange> = fc
  .record({ from: moments, to: moments })
  .filter(({ from, to }) => from.kind !== 'clock' || to.kind !== 'clock');

holdsContract<MomentRange>(momentRange, {
  accepted: [
    ['06:00 .. 21:00', { from: clock(6, 0), to: clock(21, 0) }],
    ['6:00..21:00', { from: clock(6, 0), to: clock(21, 0) }],
    ['20:00 .. 02:00 next day', { from: clock(20, 0), to: clock(2, 0, 1) }],
    ['20:00 previous day .. 02:00', { from: clock(20, 0, -1), to: clock(2, 0) }],
    ['06:00 .. sunset + 1 h', { from: clock(6, 0), to: { kind: 'offset', base: sunset, seconds: 3600 } }],
    [
      'earlier of sunset, 18:30 .. 21:00',
      { from: { kind: 'earlier', of: [sunset, clock(18, 30)] }, to: clock(21, 0) },
    ],
  ],
  refused: [
    ['06:00 - 21:00', 'plan/unreadable', 'Write “..” between', '06:00 .. 21:00'],
    ['06:00-21:00', 'plan/unreadable', 'Write “..” between', '06:00 .. 21:00'],
    ['06:00\u201321:00', 'plan/unreadable', 'Write “..” between', '06:00 .. 21:00'],
    ['06:00 to sunset + 1 h', 'plan/unreadable', 'Write “..” between', '06:00 .. sunset + 1 h'],
    ['21:00 .. 06:00', 'plan/impossible-value', 'write 21:00 .. 06:00 next day or 06:00 .. 21:00'],
    ['06:00 .. 06:00', 'plan/impossible-value', 'write 06:00 .. 06:00 next day'],
    ['06:00 next day .. 06:00 next day', 'plan/impossible-value', 'ends before it has begun.'],
    ['06:00', 'plan/unreadable', 'expected “..” and a second moment'],
    ['06:00 ..', 'plan/unreadable', 'Something is missing at the end'],
    ['.. 21:00', 'plan/unreadable', 'expected a clock time'],
    ['06:00 .. 25:00', 'plan/impossible-value', 'write 01:00 next day', '06:00 .. 01:00 next day'],
    ['06:00 .. sunsett', 'plan/unknown-event', 'sunset?', '06:00 .. sunset'],
    ['06:00 .. 21:00 .. 22:00', 'plan/unreadable', 'the end of the range'],
    ['', 'plan/unreadable', 'expected a clock time'],
  ],
  values: ranges,
  compared: ({ from, to }: MomentRange) => [withoutSpans(from), withoutSpans(to)],
});

test('both ends complete', () => {
  expect(momentRange.complete('sunr').map(({ text }) => text)).toEqual(['sunrise .. ']);
  expect(momentRange.complete('06:00 ..sunse').map(({ text }) => text)).toEqual(['06:00 .. sunset']);
});
