import type { Rule } from '../analysis.ts';
import { mend, mendFixes } from './mends.ts';
import { notesOf } from './stated.ts';
import { timeAt, writtenTime } from './wording.ts';

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
      const bare = value.value.kind === 'event';
      const mends = !bare
        ? []
        : note.instants.slice(1).flatMap((ms) => {
            const text = writtenTime(ms, at);
            return text === undefined ? [] : [mend(`Mean the one at ${text}`, value, text)];
          });
      report(
        value,
        `${note.event} comes ${note.instants.length === 2 ? 'twice' : `${note.instants.length} times`} that day: ${times.join(', ')}. The one at ${times[0]} is used; for another, write its clock time.`,
        { facts: { event: note.event, instants: note.instants, open: true, mends } },
      );
    }
  },
  fixes: mendFixes,
};
