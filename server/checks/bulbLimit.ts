import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { formatStops } from '../quantities/stops.ts';
import { also } from './related.ts';
import { isBeyondDoubt, shotsOf, timePlace } from './shots.ts';

/** The longest bulb exposure that the kit states for the body. */
export const bulbLimit: Rule = {
  code: 'exposure/bulb-limit',
  severity: 'error',
  doc: 'The exposure is longer than the body can hold its shutter open. Take less filter, a wider aperture, more ISO, or several shorter frames.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { exposure, gear } = shot;
      if (exposure?.setting.kind !== 'bulb' || exposure.setting.overLimitStops === undefined) continue;
      if (gear.bulb === undefined || gear.bulb === 'none') continue;
      const { seconds, text, overLimitStops } = exposure.setting;
      if (!isBeyondDoubt(exposure, overLimitStops)) continue;
      report(
        timePlace(shot),
        `${text} is longer than the ${formatDuration(gear.bulb.longestSeconds)} that the body holds its shutter open: ${formatStops(overLimitStops)} too long. Take that much less filter, open the aperture or raise the ISO.`,
        {
          related: also(gear.body?.bulb, 'The limit of the body.'),
          facts: { seconds, limitSeconds: gear.bulb.longestSeconds, overLimitStops },
        },
      );
    }
  },
};
