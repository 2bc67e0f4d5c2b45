import type { Rule } from '../analysis.ts';
import { coordinates } from '../quantities/coordinates.ts';
import { mend, mendFixes } from './mends.ts';
import { also } from './related.ts';
import { longitudeLooksMirrored } from './zones.ts';

/** West of Greenwich a longitude is negative. The sun stands in the south at noon to within a few hours of any zone. */
export const missingMinus: Rule = {
  code: 'time/missing-minus',
  severity: 'error',
  doc: 'Zone and longitude are more than four hours apart, and would fit with the other sign: a minus is missing or one too many. West is negative.',
  check({ day, plan }, report) {
    for (const { spot, at } of day?.spots ?? []) {
      if (at === undefined || spot.at === undefined || !longitudeLooksMirrored(at)) continue;
      const { latitude, longitude } = spot.at.value;
      const turned = coordinates.format({ latitude, longitude: -longitude });
      report(
        spot.at,
        `At longitude ${longitude}° the clocks of ${at.clock.zone} are more than four hours off. West is negative: write ${turned}?`,
        {
          related: also(plan?.model.timezone, 'The time zone.'),
          facts: { longitude, mends: [mend(`Write ${turned}`, spot.at, turned)] },
        },
      );
    }
  },
  fixes: mendFixes,
};
