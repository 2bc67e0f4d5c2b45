import type { Rule } from '../analysis.ts';
import { formatStops } from '../quantities/stops.ts';
import { askedTime, settingName } from './figures.ts';
import { mendFixes } from './mends.ts';
import { also } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf, timePlace } from './shots.ts';

/**
 * A shutter time that the plan sets beside a meter reading, against the time that reading, filters, aperture and ISO ask
 * for (ISO 2720; with the change of light, where that is known): log2 of their ratio beyond the filters' ± and the
 * threshold `against-meter`.
 */
export const againstMeter: Rule = {
  code: 'exposure/against-meter',
  severity: 'warning',
  doc: 'The shot sets a shutter time, and its meter reading asks for another one through the same filters at the same aperture and ISO. One of them is a slip, unless the picture is meant to be darker or brighter: the threshold `against-meter` says by how much.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { exposure, gear } = shot;
      const asked = exposure?.filtered?.correctedSeconds;
      if (exposure?.basis !== 'stated' || asked === undefined || shot.shot.metered === undefined) continue;
      const drifted = exposure.drift?.drift;
      const times = drifted === undefined || drifted.neverCompletes ? [asked] : [asked, drifted.seconds];
      const differences = times.map((seconds) => Math.log2(exposure.setting.seconds / seconds));
      const difference = differences.reduce((least, one) => (Math.abs(one) < Math.abs(least) ? one : least));
      const allowed = analysis.thresholds['against-meter'] + (gear.stack?.spreadStops ?? 0);
      if (Math.abs(difference) <= allowed) continue;
      const time = askedTime(asked, gear);
      report(
        timePlace(shot),
        `${settingName(exposure.setting)} is ${formatStops(Math.abs(difference))} ${difference > 0 ? 'more' : 'less'} than meter and filters ask for: ${time}. Set that, or read the meter again.`,
        {
          related: also(shot.shot.metered, 'The meter reading.'),
          facts: {
            seconds: exposure.setting.seconds,
            askedSeconds: asked,
            differenceStops: difference,
            mends: written([mendShot(analysis, shot.shot, `Set ${time}, as metered`, { shutter: time })]),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
