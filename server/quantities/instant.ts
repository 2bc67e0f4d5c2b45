import { type Clock, formatClock, scanClock, scanDay } from './clock.ts';
import { type CivilDate, formatDate, scanDate } from './date.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { Scanner } from './scan.ts';
import { beginning } from './suggest.ts';

/** A date and a clock time, local. The clock's `dayOffset` is 0. */
export interface LocalInstant {
  readonly date: CivilDate;
  readonly clock: Clock;
}

const examples = ['2027-03-19 18:00', '2027-03-19T18:00'];

/** A moment in full: date and local time, as in ISO 8601, with a blank or a T between. */
export const instant: Quantity<LocalInstant> = {
  name: 'date and time',
  documentation: 'A date and the local time on that date.\n\n`2027-03-19 18:00`, `2027-03-19T18:00`',
  examples,
  recognise: (text) => !('refusal' in scanDate(new Scanner(text))),
  parse: parseInstant,
  format: (value) => `${formatDate(value.date)} ${formatClock(value.clock)}`,
  complete: (typed) =>
    beginning(
      typed,
      examples.map((text) => ({ text })),
    ),
};

function parseInstant(text: string): Reading<LocalInstant> {
  const scanner = new Scanner(text);
  const day = scanDate(scanner);
  if ('refusal' in day) return day.refusal;
  if (text[scanner.at]?.toUpperCase() === 'T') scanner.at += 1;
  else if (!/\s/.test(text.charAt(scanner.at)) && !scanner.done)
    return scanner.unexpected('a blank and a time');
  const time = scanClock(scanner, { dated: true });
  if (time === undefined) return scanner.unexpected('a time behind the date, as in 2027-03-19 18:00');
  if ('refusal' in time) return time.refusal;
  const { start } = scanner.rest;
  const shift = scanDay(scanner);
  if (shift !== 0) {
    const options = { start, end: scanner.at };
    const which = shift > 0 ? 'next' : 'previous';
    return refused(text, `The date is given: write the ${which} date instead of “${which} day”.`, options);
  }
  if (!scanner.done) return scanner.unexpected('the end: the time is local, without a zone');
  return read({ date: day.date, clock: time.clock });
}
