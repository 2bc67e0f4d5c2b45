import type { Rule } from '../analysis.ts';
import { formatStops } from '../quantities/stops.ts';
import { statedEstimate } from '../schedule/frames.ts';
import { askedTime, figure, settingName, startPlace } from './figures.ts';
import { mendFixes } from './mends.ts';
import { also } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf, timePlace } from './shots.ts';
import { timeAt } from './wording.ts';

/**
 * A shutter time that the plan sets without a reading, against that which the expected light asks for through the same
 * filters, at the same aperture and ISO: log2 of their ratio beyond the estimate's ± and the threshold
 * `light-difference`. The light is that of the Explanatory Supplement's table, with Kasten and Czeplak's clouds.
 */
export const statedDiffers: Rule = {
  code: 'exposure/differs-from-expected',
  severity: 'warning',
  doc: 'The shot sets its shutter time and has no meter reading, and by the light that is expected the picture comes out far too bright or too dark, even with the ± of the estimate. Set another time, aperture, ISO or filter, or write what the meter says as `metered`. Set the threshold `light-difference` to allow more. Stars are left out.',
  check(analysis, report) {
    const allowed = analysis.thresholds['light-difference'];
    for (const shot of shotsOf(analysis)) {
      const { exposure, visit, startMs } = shot;
      const estimate = statedEstimate(shot);
      if (estimate === undefined || exposure === undefined) continue;
      if (visit.at === undefined || startMs === undefined) continue;
      const { differenceStops, spreadStops, expectedSeconds } = estimate;
      if (Math.abs(differenceStops) <= spreadStops + allowed) continue;
      const bright = differenceStops > 0;
      const asked = askedTime(expectedSeconds, shot.gear);
      report(
        timePlace(shot),
        `${settingName(exposure.setting)} is about ${formatStops(Math.abs(differenceStops))} too ${bright ? 'bright' : 'dark'} for the light that is expected at ${timeAt(startMs, visit.at)}, ± ${figure(spreadStops, 1)}: that asks for about ${asked}. Set that, take ${bright ? 'more' : 'less'} filter, or write what the meter says as \`metered\`.`,
        {
          related: also(startPlace(shot), 'The start.'),
          facts: {
            seconds: exposure.setting.seconds,
            expectedSeconds,
            differenceStops,
            spreadStops,
            open: true,
            mends: written([
              mendShot(analysis, shot.shot, `Set ${asked}, by the light that is expected`, {
                shutter: asked,
              }),
            ]),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
