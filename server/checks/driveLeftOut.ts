import type { Rule } from '../analysis.ts';
import { legsOf } from './legs.ts';
import { also, headOf } from './related.ts';

/** Further apart than this beyond the walks, two places are not walked between with a tripod. Common practice, no source. */
const walkableMetres = 2000;

/** A plan without a drive counts no time for it. Silent where the walk covers the distance. */
export const driveLeftOut: Rule = {
  code: 'time/drive-left-out',
  severity: 'warning',
  doc: 'Two places lie more than two kilometres apart, beyond the stated walk, and no `drive` is given: the day counts no time for the way.',
  check(analysis, report) {
    for (const { visit, from, distanceMetres, walkedMetres } of legsOf(analysis)) {
      const { spot } = visit;
      if (spot.self.broken.has('drive') || (spot.drive?.value ?? 0) > 0) continue;
      const metres = distanceMetres - walkedMetres;
      if (metres <= walkableMetres || metres > 500_000) continue;
      report(
        spot.drive ?? headOf(spot),
        `This lies ${(distanceMetres / 1000).toFixed(1)} km from the place before, and no time is counted for the way. Write \`drive: ${guess(metres)} min\`, or the walk.`,
        { related: also(from, 'The place before.'), facts: { distanceMetres } },
      );
    }
  },
};

/** At 40 km/h along the line, rounded up to five minutes: only an example. */
function guess(metres: number): number {
  return Math.ceil((metres / 1000 / 40) * 12) * 5;
}
