import type { Rule } from '../analysis.ts';
import { missedArrivals } from './arrivals.ts';
import { mend, mendFixes } from './mends.ts';
import { also, headOf } from './related.ts';
import { lateness, shotName, spotName, timeAt, writtenTime } from './wording.ts';

/** The last shot of a spot must end early enough to pack, walk back, drive and walk to the next one. */
export const outlastsDeparture: Rule = {
  code: 'time/outlasts-departure',
  severity: 'error',
  doc: 'A shot ends too late for the stated arrival at the next spot. From its end on, packing, the walk back, the drive and the next walk have to be done.',
  check({ day }, report) {
    for (const { visit, earliestMs, arriveMs, culprit } of missedArrivals(day)) {
      const { at, spot } = visit;
      const { arrive } = spot;
      if (at === undefined || arrive === undefined || culprit?.shot.endMs === undefined) continue;
      const { endMs, shot } = culprit.shot;
      const lateMs = earliestMs - arriveMs;
      const name = shotName(shot, culprit.place);
      const next = spotName(spot, day?.spots.indexOf(visit) ?? 0);
      const written = writtenTime(earliestMs, at);
      const latest = timeAt(Math.floor((endMs - lateMs + 1) / 60_000) * 60_000, at);
      report(
        headOf(shot),
        `${name} ends at ${timeAt(endMs, at)}: ${lateness(arriveMs, earliestMs)} too late to reach ${next} at ${timeAt(arriveMs, at)}. It must end by ${latest}, or arrive there at ${timeAt(Math.ceil(earliestMs / 60_000) * 60_000, at)}.`,
        {
          related: also(arrive, `The arrival at ${next}.`),
          facts: {
            endMs,
            latestEndMs: endMs - lateMs,
            lateSeconds: lateMs / 1000,
            mends: written === undefined ? [] : [mend(`Arrive at ${next} at ${written}`, arrive, written)],
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
