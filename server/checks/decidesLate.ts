import type { Rule } from '../analysis.ts';
import { also } from './related.ts';
import { lateness, timeAt, unnoticedMs } from './wording.ts';

/** Whether to go to a spot is decided before one is there. */
export const decidesLate: Rule = {
  code: 'time/decides-late',
  severity: 'warning',
  doc: 'The moment to decide whether to go to a spot comes after the arrival there. Decide before, while there is another choice.',
  check({ day }, report) {
    for (const { spot, at, arriveMs } of day?.spots ?? []) {
      const { decide } = spot;
      const resolution = day?.moments.find(({ value }) => value === decide)?.resolution;
      if (at === undefined || decide === undefined || arriveMs === undefined) continue;
      if (resolution?.kind !== 'at' || resolution.instantMs - arriveMs <= unnoticedMs) continue;
      report(
        decide,
        `You decide at ${timeAt(resolution.instantMs, at)}, ${lateness(arriveMs, resolution.instantMs)} after arriving at ${timeAt(arriveMs, at)}. Decide before you set out.`,
        {
          related: also(spot.arrive, 'The arrival.'),
          facts: { decideMs: resolution.instantMs, arriveMs },
        },
      );
    }
  },
};
