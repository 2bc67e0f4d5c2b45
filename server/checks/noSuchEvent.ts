import type { Rule } from '../analysis.ts';
import { failuresOf } from './stated.ts';

/**
 * An event that does not happen on that date and place is never given a time: no sunrise in the polar night, no moonrise
 * on the day between two, no astronomical dawn in a bright summer night. The reason comes from the scan of the sky.
 */
export const noSuchEvent: Rule = {
  code: 'time/no-such-event',
  severity: 'error',
  doc: 'The event does not happen that day at that place: polar day or night, a day without moonrise, a night that does not get dark. Write a clock time, another event, or `earlier of` and `later of` with a second choice.',
  check(analysis, report) {
    for (const { moment, failure } of failuresOf(analysis, 'no-such-event')) {
      const { event, reason } = failure;
      report(
        moment.value,
        `There is no ${event} here on this date: ${reason.replace(/\.$/, '')}. Write a clock time or another event.`,
        { facts: { event, ...failure.facts } },
      );
    }
  },
};
