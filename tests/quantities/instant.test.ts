import fc from 'fast-check';
import { instant } from '../../server/quantities/instant.ts';
import { holdsContract } from '../support/contract.ts';

const value = {
  date: { year: 2027, month: 3, day: 19 },
  clock: { hour: 18, minute: 0, second: 0, dayOffset: 0 },
};

holdsContract(instant, {
  accepted: [
    ['2027-03-19 18:00', value],
    ['2027-03-19T18:00', value],
    ['2027-03-19T18:00:00', value],
    ['2027-03-19   8:05:09', { ...value, clock: { hour: 8, minute: 5, second: 9, dayOffset: 0 } }],
  ],
  refused: [
    ['2027-03-19', 'plan/unreadable', 'expected a time behind the date'],
    ['2027-03-1918:00', 'plan/unreadable', 'is no date'],
    ['19/3/2027 18:00', 'plan/unreadable', '2027-03-19', '2027-03-19 18:00'],
    ['2027-03-19 6 pm', 'plan/unreadable', '18:00', '2027-03-19 18:00'],
    ['2027-03-19 24:00', 'plan/impossible-value', 'hours run from 00 to 23'],
    ['2027-02-29 18:00', 'plan/impossible-value', 'it has 28 days'],
    ['2027-03-19 18:00Z', 'plan/unreadable', 'the time is local, without a zone'],
    ['2027-03-19 18:00+01:00', 'plan/unreadable', 'the time is local, without a zone'],
    ['2027-03-19 18:00 previous day', 'plan/unreadable', 'write the previous date'],
    ['2027-03-19 18:00 next day', 'plan/unreadable', 'write the next date'],
    ['2027-03-19/18:00', 'plan/unreadable', 'expected a blank and a time'],
    ['yesterday', 'plan/unreadable', 'is no date'],
  ],
  values: fc.record({
    date: fc.record({
      year: fc.integer({ min: 1950, max: 2100 }),
      month: fc.integer({ min: 1, max: 12 }),
      day: fc.integer({ min: 1, max: 28 }),
    }),
    clock: fc.record({ hour: fc.nat(23), minute: fc.nat(59), second: fc.nat(59), dayOffset: fc.constant(0) }),
  }),
});
