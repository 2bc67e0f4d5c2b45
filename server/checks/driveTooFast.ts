import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { legsOf } from './legs.ts';
import { mend, mendFixes } from './mends.ts';
import { also } from './related.ts';

/**
 * Speed = straight line between the two places / stated drive. Roads are longer than the line, so a drive that is too
 * fast along it is certainly too fast. The line is shortened by the walks at both ends. Threshold fastest-drive.
 */
export const driveTooFast: Rule = {
  code: 'time/drive-too-fast',
  severity: 'warning',
  doc: 'The stated drive is faster than anybody drives, even along the straight line between the two places. The threshold `fastest-drive` sets how fast may be.',
  check(analysis, report) {
    const fastest = analysis.thresholds['fastest-drive'];
    if (!(fastest > 0)) return;
    for (const { visit, from, distanceMetres, walkedMetres } of legsOf(analysis)) {
      const { drive } = visit.spot;
      const metres = distanceMetres - walkedMetres;
      if (drive === undefined || drive.value === 0 || metres <= 0 || metres > 500_000) continue;
      const kilometresPerHour = (metres / drive.value) * 3.6;
      if (kilometresPerHour <= fastest) continue;
      const least = formatDuration(Math.ceil((metres * 3.6) / fastest / 60) * 60);
      report(
        drive,
        `${Math.round(distanceMetres / 1000)} km along the straight line in ${formatDuration(drive.value)} is ${Math.round(kilometresPerHour)} km/h. At ${fastest} km/h it takes ${least} or more: check drive and coordinates.`,
        {
          related: [...also(from, 'From here.'), ...also(visit.spot.at, 'To here.')],
          facts: { distanceMetres, kilometresPerHour, mends: [mend(`Write ${least}`, drive, least)] },
        },
      );
    }
  },
  fixes: mendFixes,
};
