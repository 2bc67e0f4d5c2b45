import type { Rule } from '../analysis.ts';
import { type EventName, eventText, type Occurrence } from '../quantities/events.ts';
import { formatMoment, type Moment } from '../quantities/moment.ts';
import { mend, mendFixes } from './mends.ts';
import { notesOf } from './stated.ts';
import { timeAt } from './wording.ts';

/** A broken skyline lets the sun through more than once, and a day of tides has two high waters; the first is taken. */
export const severalTimes: Rule = {
  code: 'time/several-times',
  severity: 'hint',
  doc: 'An event that happens more than once that day, such as high water or a sun that clears a broken skyline twice. The first is used.',
  check(analysis, report) {
    for (const { moment, note } of notesOf(analysis, 'several')) {
      const { value, at } = moment;
      if (at === undefined) continue;
      const times = note.instants.map((ms) => timeAt(ms, at));
      const named = ([1, 2, 3] as const).slice(0, times.length);
      const mends = named.map((occurrence) =>
        mend(
          `Mean the ${eventText(note.event, occurrence)}, ${times[occurrence - 1]}`,
          value,
          formatMoment(chosen(value.value, note.event, occurrence)),
        ),
      );
      report(
        value,
        `${note.event} comes ${note.instants.length === 2 ? 'twice' : `${note.instants.length} times`} that day: ${times.join(', ')}. The one at ${times[0]} is used; for the next, write ${eventText(note.event, 2)}.`,
        { facts: { event: note.event, instants: note.instants, open: true, mends } },
      );
    }
  },
  fixes: mendFixes,
};

/** The moment with one of the times of an event named, wherever it leaves that open. */
function chosen(moment: Moment, event: EventName, occurrence: Occurrence): Moment {
  switch (moment.kind) {
    case 'event':
      return moment.event === event && moment.occurrence === undefined ? { ...moment, occurrence } : moment;
    case 'offset':
      return { ...moment, base: chosen(moment.base, event, occurrence) };
    case 'earlier':
    case 'later':
      return { ...moment, of: moment.of.map((part) => chosen(part, event, occurrence)) };
    default:
      return moment;
  }
}
