import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { formatStops } from '../quantities/stops.ts';
import { heldSetting } from '../schedule/drift.ts';
import { also } from './related.ts';
import { limitAdvice, pastLimit, shotsOf, timePlace } from './shots.ts';

/** Below this a difference is told as a time: in stops it would read as none. */
const leastStops = 0.1;

/**
 * The longest bulb exposure that the kit states for the body, against the time that is really held: that which collects
 * the planned light while it changes.
 */
export const bulbLimit: Rule = {
  code: 'exposure/bulb-limit',
  severity: 'error',
  doc: 'The exposure is longer than the body can hold its shutter open. Take less filter, a wider aperture, more ISO, or several shorter frames. Where filters or meter leave it open whether the limit is passed, it is a hint.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { exposure, gear } = shot;
      if (exposure === undefined || gear.bulb === undefined || gear.bulb === 'none') continue;
      const held = heldSetting(exposure, analysis.thresholds.drift);
      if (held.kind !== 'bulb' || held.overLimitStops === undefined) continue;
      const { seconds, text, overLimitStops } = held;
      const severity = pastLimit(exposure, overLimitStops);
      if (severity === undefined) continue;
      const { longestSeconds } = gear.bulb;
      const limit = formatDuration(longestSeconds);
      const past =
        overLimitStops < leastStops
          ? formatDuration(seconds - Math.floor(longestSeconds))
          : formatStops(overLimitStops);
      const drifted =
        seconds === exposure.setting.seconds ? '' : ', as the light changes while the shutter is open,';
      report(
        timePlace(shot),
        `${text}${drifted} is longer than the ${limit} that the body holds its shutter open: ${past} too long. ${limitAdvice(severity, limit, 'Take that much less filter, open the aperture or raise the ISO.')}`,
        {
          severity,
          related: also(gear.body?.bulb, 'The limit of the body.'),
          facts: { seconds, limitSeconds: longestSeconds, overLimitStops },
        },
      );
    }
  },
};
