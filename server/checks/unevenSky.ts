import type { Rule } from '../analysis.ts';
import { mendFixes } from './mends.ts';
import { polarizersOf, type SkyEffect, skyEffect, takeOff } from './polarizers.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/**
 * A wide lens sees sky at many angles from the sun, and a polarizer darkens each of them by another amount: a dark band
 * stands in the picture. Rayleigh and Malus along a row of the frame, less by the share of cloud; see
 * server/optics/polarizer.ts.
 */
export const unevenSky: Rule = {
  code: 'filter/uneven-sky',
  severity: 'warning',
  doc: 'The polarizer darkens one part of the sky more than another by more than the threshold `uneven-sky`: a dark band in a wide picture. Clouds weaken it in proportion to their share. Take it off, use a longer lens, or turn it to less effect.',
  check(analysis, report) {
    const most = analysis.thresholds['uneven-sky'];
    for (const shot of shotsOf(analysis)) {
      const [use] = polarizersOf(shot);
      const sky = use === undefined || shot.light?.overcast === true ? undefined : skyEffect(analysis, shot);
      if (use === undefined || sky?.unevenStops === undefined || sky.unevenStops <= most) continue;
      report(
        use.use,
        `${across(sky)}: ${sky.unevenStops.toFixed(1)} stops uneven${clouds(shot)}. Take it off, use a longer lens, or turn it to less effect.`,
        {
          facts: {
            unevenStops: sky.unevenStops,
            weakestStops: sky.weakestStops ?? 0,
            strongestStops: sky.strongestStops,
            mends: takeOff(analysis, shot, use),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

/** How much it does where. A part that is polarized the other way comes out brighter against the land. */
function across({ weakestStops = 0, strongestStops, strongestAt = 0 }: SkyEffect): string {
  const side =
    Math.abs(strongestAt) < 0.17 ? 'in the middle' : strongestAt < 0 ? 'on the left' : 'on the right';
  if (weakestStops > -0.05) {
    return `This polarizer darkens the sky by ${Math.abs(weakestStops).toFixed(1)} to ${strongestStops.toFixed(1)} stops across the frame, most ${side}`;
  }
  const brighter = (-weakestStops).toFixed(1);
  return `This polarizer darkens the sky by up to ${strongestStops.toFixed(1)} stops, most ${side}, and brightens another part of it by ${brighter} ${Number(brighter) > 1 ? 'stops' : 'stop'}`;
}

function clouds({ light }: ShotOfDay): string {
  const share = light?.cloudShare ?? 0;
  return share < 0.005 ? '' : `, with ${Math.round(share * 100)} % cloud counted off`;
}
