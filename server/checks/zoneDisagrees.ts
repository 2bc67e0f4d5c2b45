import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { offsetText } from '../schedule/localTime.ts';
import { farPlaces } from './farPlaces.ts';
import { mendFixes } from './mends.ts';
import { also } from './related.ts';
import { firstSpot, longitudeLooksMirrored, zoneMends, zonePlace } from './zones.ts';

/** The given zone stands; but no zone within 30 km of the spot shows its time. */
export const zoneDisagrees: Rule = {
  code: 'time/zone-disagrees',
  severity: 'warning',
  doc: 'The given time zone does not fit the coordinates: clocks there show another time on that date. The given zone is used.',
  check(analysis, report) {
    // A place that lies far from all others has wrong coordinates, and the zone is not to blame.
    const far = new Set(farPlaces(analysis).map(({ place }) => place.value));
    const found = firstSpot(
      analysis,
      (at, { spot }) =>
        at.zoneDoubt?.kind === 'disagrees' &&
        !longitudeLooksMirrored(at) &&
        !(spot.at !== undefined && far.has(spot.at.value)),
    );
    const doubt = found?.at.zoneDoubt;
    const place = found === undefined ? undefined : zonePlace(analysis, found.visit);
    if (found === undefined || doubt?.kind !== 'disagrees' || place === undefined) return;
    const { given, lookedUp } = doubt;
    const apart = Math.abs(given.offsetSeconds - lookedUp.offsetSeconds);
    report(
      place,
      `Clocks at ${found.visit.spot.at?.text.slice(0, 60) ?? 'this spot'} follow ${lookedUp.zone} (${offsetText(lookedUp.offsetSeconds)} that day), not ${given.zone} (${offsetText(given.offsetSeconds)}): all times here are off by ${formatDuration(apart)}. Write ${lookedUp.zone}, or check the coordinates.`,
      {
        related: also(found.visit.spot.at, 'The coordinates.'),
        facts: {
          given: given.zone,
          lookedUp: lookedUp.zone,
          apartSeconds: apart,
          mends: zoneMends(analysis, [lookedUp.zone]),
        },
      },
    );
  },
  fixes: mendFixes,
};
