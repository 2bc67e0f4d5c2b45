import fc from 'fast-check';
import { expect, test } from 'vitest';
import { clock } from '../../server/quantities/clock.ts';
import { holdsContract } from '../support/contract.ts';

const at = (hour: number, minute: number, second = 0, dayOffset = 0) => ({ hour, minute, second, dayOffset });

holdsContract(clock, {
  accepted: [
    ['07:10', at(7, 10)],
    ['7:10', at(7, 10)],
    ['07:10:30', at(7, 10, 30)],
    ['00:00', at(0, 0)],
    ['23:59:59', at(23, 59, 59)],
    ['07:10 next day', at(7, 10, 0, 1)],
    ['20:00 previous day', at(20, 0, 0, -1)],
    ['07:10:30  Next Day', at(7, 10, 30, 1)],
  ],
  refused: [
    ['7.10', 'plan/unreadable', '24-hour clock: 07:10', '07:10'],
    ['7h10', 'plan/unreadable', '24-hour clock: 07:10', '07:10'],
    ['19h', 'plan/unreadable', 'is no clock time'],
    ['0710', 'plan/unreadable', '07:10', '07:10'],
    ['710', 'plan/unreadable', '07:10', '07:10'],
    ['7', 'plan/unreadable', '07:00', '07:00'],
    ['30', 'plan/unreadable', 'is no clock time'],
    ['7 am', 'plan/unreadable', '07:00', '07:00'],
    ['7:10 am', 'plan/unreadable', '07:10', '07:10'],
    ['7:10pm', 'plan/unreadable', '19:10', '19:10'],
    ['7.10 p.m.', 'plan/unreadable', '19:10', '19:10'],
    ['12:10 am', 'plan/unreadable', '00:10', '00:10'],
    ['12:10 PM', 'plan/unreadable', '12:10', '12:10'],
    ['7:10 pm next day', 'plan/unreadable', '19:10', '19:10 next day'],
    ['13:10 pm', 'plan/unreadable', 'without am and pm'],
    ['24:00', 'plan/impossible-value', 'write 00:00 next day', '00:00 next day'],
    ['25:00', 'plan/impossible-value', 'write 01:00 next day', '01:00 next day'],
    ['25:00 previous day', 'plan/impossible-value', 'hours run from 00 to 23'],
    ['25:00 next day', 'plan/impossible-value', 'hours run from 00 to 23'],
    ['99:00', 'plan/impossible-value', 'hours run from 00 to 23'],
    ['07:60', 'plan/impossible-value', 'minutes run from 00 to 59'],
    ['07:10:60', 'plan/impossible-value', 'seconds run from 00 to 59'],
    ['07:5', 'plan/unreadable', '“07:5” is no clock time'],
    ['07:', 'plan/unreadable', '“07:” is no clock time'],
    ['007:10', 'plan/unreadable', 'is no clock time'],
    ['07:10 tomorrow', 'plan/unreadable', '“tomorrow” is not understood'],
    ['07:10Z', 'plan/unreadable', '“Z” is not understood'],
    ['07∶10', 'plan/unreadable', 'is no clock time'],
    ['-07:10', 'plan/unreadable', 'expected a clock time'],
    ['', 'plan/unreadable', 'expected a clock time'],
  ],
  values: fc.record({
    hour: fc.nat(23),
    minute: fc.nat(59),
    second: fc.nat(59),
    dayOffset: fc.nat(1),
  }),
});

test('a whole clock time completes to the next day', () => {
  expect(clock.complete('7:1').map(({ text }) => text)).toEqual([]);
  expect(clock.complete('18:30').map(({ text }) => text)).toEqual([
    '18:30',
    '18:30 next day',
    '18:30 previous day',
  ]);
});
