import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { date, daysInMonth } from '../../server/quantities/date.ts';
import { holdsContract } from '../support/contract.ts';

const dates = fc
  .date({ min: new Date('1950-01-01T00:00:00Z'), max: new Date('2100-12-31T00:00:00Z'), noInvalidDate: true })
  .map((day) => ({ year: day.getUTCFullYear(), month: day.getUTCMonth() + 1, day: day.getUTCDate() }));

holdsContract(date, {
  accepted: [
    ['2027-03-20', { year: 2027, month: 3, day: 20 }],
    [' 2028-02-29 ', { year: 2028, month: 2, day: 29 }],
    ['2000-02-29', { year: 2000, month: 2, day: 29 }],
    ['1950-01-01', { year: 1950, month: 1, day: 1 }],
    ['2100-12-31', { year: 2100, month: 12, day: 31 }],
  ],
  refused: [
    ['20/3/2027', 'plan/unreadable', 'year, month and day: 2027-03-20', '2027-03-20'],
    ['3/20/2027', 'plan/unreadable', 'year, month and day: 2027-03-20', '2027-03-20'],
    ['20.03.2027', 'plan/unreadable', 'year, month and day: 2027-03-20', '2027-03-20'],
    ['20-3-2027', 'plan/unreadable', 'year, month and day: 2027-03-20', '2027-03-20'],
    ['3/3/2027', 'plan/unreadable', 'year, month and day: 2027-03-03', '2027-03-03'],
    ['4/3/2027', 'plan/ambiguous-date', 'write 2027-03-04 or 2027-04-03'],
    ['March 20 2027', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['Mar 20, 2027', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['20 March 2027', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['20th of March, 2027', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['1 Sept 2027', 'plan/unreadable', '2027-09-01', '2027-09-01'],
    ['2027-3-20', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['2027/03/20', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['2027 March 20', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['20270320', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['27-03-20', 'plan/unreadable', 'is no date'],
    ['30/2/2027', 'plan/unreadable', 'is no date'],
    ['2027-03', 'plan/unreadable', 'is no date'],
    ['2027-W12-6', 'plan/unreadable', 'is no date'],
    ['2027-02-29', 'plan/impossible-value', 'There is no day 29 in February 2027: it has 28 days'],
    ['2100-02-29', 'plan/impossible-value', 'There is no day 29 in February 2100: it has 28 days'],
    ['2027-04-31', 'plan/impossible-value', 'it has 30 days'],
    ['2027-04-00', 'plan/impossible-value', 'There is no day 0'],
    ['2027-13-01', 'plan/impossible-value', 'There is no month 13'],
    ['1949-12-31', 'plan/impossible-value', 'from 1950 to 2100'],
    ['2101-01-01', 'plan/impossible-value', 'from 1950 to 2100'],
    ['2027-03-20 18:00', 'plan/unreadable', 'expected the end of the date'],
    ['tomorrow', 'plan/unreadable', '“tomorrow” is no date'],
    ['2027‐03‐20', 'plan/unreadable', '2027-03-20', '2027-03-20'],
    ['🌅', 'plan/unreadable', 'U+1F305'],
    ['', 'plan/unreadable', 'is no date'],
  ],
  values: dates,
});

describe('days in a month', () => {
  test('as the calendar of the language runtime counts them, 1950 to 2100', () => {
    for (let year = 1950; year <= 2100; year += 1) {
      for (let month = 1; month <= 12; month += 1) {
        expect([year, month, daysInMonth(year, month)]).toEqual([
          year,
          month,
          new Date(Date.UTC(year, month, 0)).getUTCDate(),
        ]);
      }
    }
    expect(daysInMonth(2027, 13)).toBe(0);
  });
});
