import type { Rule } from '../analysis.ts';
import { mendFixes } from './mends.ts';
import { polarizersOf, skyEffect, takeOff } from './polarizers.ts';
import { shotsOf } from './shots.ts';

/**
 * A wide lens sees sky at many angles from the sun, and a polarizer darkens each of them by another amount: a dark band
 * stands in the picture. Rayleigh and Malus along a row of the frame, see server/optics/polarizer.ts.
 */
export const unevenSky: Rule = {
  code: 'filter/uneven-sky',
  severity: 'warning',
  doc: 'The polarizer darkens one part of the sky more than another by more than the threshold `uneven-sky`: a dark band in a wide picture. Take it off, use a longer lens, or turn it to less effect.',
  check(analysis, report) {
    const most = analysis.thresholds['uneven-sky'];
    for (const shot of shotsOf(analysis)) {
      const [use] = polarizersOf(shot);
      const sky = use === undefined || shot.light?.overcast === true ? undefined : skyEffect(analysis, shot);
      if (use === undefined || sky?.unevenStops === undefined || sky.unevenStops <= most) continue;
      const { weakestStops = 0, strongestStops, strongestAt = 0 } = sky;
      const side =
        Math.abs(strongestAt) < 0.17 ? 'in the middle' : strongestAt < 0 ? 'on the left' : 'on the right';
      report(
        use.use,
        `This polarizer darkens the sky by ${weakestStops.toFixed(1)} to ${strongestStops.toFixed(1)} stops across the frame, most ${side}: ${sky.unevenStops.toFixed(1)} stops uneven. Take it off, use a longer lens, or turn it to less effect.`,
        {
          facts: {
            unevenStops: sky.unevenStops,
            weakestStops,
            strongestStops,
            mends: takeOff(analysis, shot, use),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
