import type { Rule } from '../analysis.ts';
import { stopsBetween } from '../exposure/apex.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { formatStops } from '../quantities/stops.ts';
import { heldSetting } from '../schedule/drift.ts';
import { also } from './related.ts';
import { limitAdvice, pastLimit, shotsOf, timePlace } from './shots.ts';

/** A body without bulb ends at the longest position of its dial; what is missing is log2(wanted / longest) stops. */
export const beyondDial: Rule = {
  code: 'exposure/beyond-dial',
  severity: 'error',
  doc: 'The shutter time lies beyond the longest position of the dial, and the body has no bulb: the picture comes out too dark. Take less filter, a wider aperture or more ISO.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { exposure, gear } = shot;
      if (exposure === undefined) continue;
      const held = heldSetting(exposure, analysis.thresholds.drift);
      if (held.kind !== 'dial' || held.reach !== 'longer') continue;
      const { seconds, label, residualStops } = held;
      const wanted = shot.shot.shutter?.value ?? seconds * 2 ** -residualStops;
      const short = stopsBetween(seconds, wanted);
      const severity = pastLimit(exposure, short);
      if (severity === undefined) continue;
      report(
        timePlace(shot),
        `${formatShutter(wanted)} lies beyond the dial, which ends at ${label}, and the body has no bulb: ${formatStops(short)} too dark. ${limitAdvice(severity, label, 'Take that much less filter, open the aperture or raise the ISO.')}`,
        {
          severity,
          related: also(gear.body?.bulb ?? gear.body?.shutter, 'The shutter of the body.'),
          facts: { wantedSeconds: wanted, longestSeconds: seconds, shortStops: short },
        },
      );
    }
  },
};
