import type { Rule } from '../analysis.ts';
import { ev100 } from '../exposure/apex.ts';
import { exactExposure } from '../exposure/dial.ts';
import { formatStops } from '../quantities/stops.ts';
import { figure, startPlace } from './figures.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';
import { timeAt } from './wording.ts';

/**
 * A reading against the light that is expected when the shot starts: |EV − expected EV| beyond the estimate's ± and the
 * threshold `light-difference`. The reading is of light reflected by whatever the meter was pointed at, the estimate is
 * of light falling on level ground, so that two stops either way are no contradiction. EV at ISO 100 by ISO 2720; the
 * expected light by the Explanatory Supplement's table of illuminance and Kasten and Czeplak's clouds.
 */
export const lightDiffers: Rule = {
  code: 'light/differs-from-expected',
  severity: 'warning',
  doc: 'The meter reading does not suit the light that sun, moon and clouds give at the start of the shot, even with the ± of the estimate and two stops for what the meter was pointed at. The reading is wrong, or it was taken at another hour, or the start is. Set the threshold `light-difference` to allow more.',
  check(analysis, report) {
    const allowed = analysis.thresholds['light-difference'];
    for (const shot of shotsOf(analysis)) {
      const { exposure, light, visit, startMs } = shot;
      const { metered } = shot.shot;
      const reading = exposure?.input?.metered;
      if (metered === undefined || reading === undefined || light?.expected === undefined) continue;
      if (exposure?.basis === 'expected' || visit.at === undefined || startMs === undefined) continue;
      const { ev100: expected, spreadStops } = light.expected;
      const found = ev100(exactExposure(reading));
      const difference = found - expected;
      if (Math.abs(difference) <= spreadStops + allowed) continue;
      report(
        metered,
        `The meter says EV ${figure(found, 1)}, but about EV ${figure(expected, 1)} ± ${figure(spreadStops, 1)} is expected at ${timeAt(startMs, visit.at)}: ${formatStops(Math.abs(difference))} ${difference > 0 ? 'brighter' : 'darker'}. Check the reading and its aperture and ISO, whether it was taken through a filter, and the time of the start.`,
        {
          related: also(startPlace(shot), 'The start.'),
          facts: { ev100: found, expectedEv100: expected, spreadStops, differenceStops: difference },
        },
      );
    }
  },
};
