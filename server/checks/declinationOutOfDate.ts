import type { Rule } from '../analysis.ts';
import { DECLINATION_YEARS } from '../sky/declination.ts';

/** A World Magnetic Model is good for five years; outside, the field has moved on. Source: NOAA/NCEI and BGS, WMM2025. */
export const declinationOutOfDate: Rule = {
  code: 'light/declination-out-of-date',
  severity: 'warning',
  doc: 'A magnetic bearing is turned to true north for a date for which there is no World Magnetic Model, so that it may be off. Write the bearing from true north.',
  check({ day }, report) {
    for (const { shots } of day?.spots ?? []) {
      for (const { shot, facing } of shots) {
        if (shot.facing === undefined || facing?.declination === undefined || facing.declination.valid)
          continue;
        const { from, to } = DECLINATION_YEARS;
        report(
          shot.facing,
          `Magnetic declination is known from ${from} to ${to - 1}; for this date it is carried on and may be off. Write ${Math.round(facing.degrees) % 360}° from true north, from a map.`,
          { facts: { declinationDegrees: facing.declination.degrees } },
        );
        return;
      }
    }
  },
};
