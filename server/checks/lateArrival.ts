import type { Rule } from '../analysis.ts';
import { missedArrivals } from './arrivals.ts';
import { mend, mendFixes } from './mends.ts';
import { also, headOf } from './related.ts';
import { lateness, spotName, timeAt, writtenTime } from './wording.ts';

/**
 * Drive and walk take their time: the earliest arrival is leaving the place before + drive + walk (as stated, else by
 * Naismith's rule with the threshold walking-factor).
 */
export const lateArrival: Rule = {
  code: 'time/late-arrival',
  severity: 'error',
  doc: 'The stated arrival is earlier than drive and walk allow. Leave earlier or arrive later; where no time for the walk is given, Naismith’s rule is used.',
  check({ day, plan }, report) {
    for (const { visit, index, before, earliestMs, arriveMs, culprit } of missedArrivals(day)) {
      const { at, spot, leaveByMs } = visit;
      const { arrive } = spot;
      if (at === undefined || arrive === undefined || culprit !== undefined) continue;
      const written = writtenTime(earliestMs, at);
      const leave = index === 0 ? plan?.model.start?.leave : undefined;
      const leaveBy = leaveByMs === undefined ? undefined : writtenTime(leaveByMs, at, 'down');
      const from = before === undefined ? '' : ` ${spotName(before.spot, index - 1)}`;
      report(
        arrive,
        `You arrive at ${timeAt(earliestMs, at)} at the earliest, not at ${timeAt(arriveMs, at)}: ${lateness(arriveMs, earliestMs)} late. ${leaveBy === undefined ? 'Leave earlier' : `Leave${from} by ${leaveBy}`}, or arrive at ${timeAt(Math.ceil(earliestMs / 60_000) * 60_000, at)} or later.`,
        {
          related: [
            ...also(spot.drive, 'The drive.'),
            ...(spot.walk === undefined ? [] : also(headOf(spot.walk), 'The walk.')),
          ],
          facts: {
            earliestMs,
            arriveMs,
            lateSeconds: (earliestMs - arriveMs) / 1000,
            mends: [
              ...(written === undefined ? [] : [mend(`Arrive at ${written}`, arrive, written)]),
              ...(leave === undefined || leaveBy === undefined
                ? []
                : [mend(`Leave at ${leaveBy}`, leave, leaveBy)]),
            ],
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
