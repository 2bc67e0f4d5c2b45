import type { Rule } from '../analysis.ts';
import { formatStops } from '../quantities/stops.ts';
import { also } from './related.ts';
import { limitAdvice, pastLimit, shotsOf, timePlace } from './shots.ts';

/** The shutter cannot be faster than the shortest position of its dial. */
export const shorterThanDial: Rule = {
  code: 'exposure/shorter-than-dial',
  severity: 'error',
  doc: 'The shutter time is shorter than the dial allows: the picture comes out too bright. Take more filter, a smaller aperture or less ISO.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { exposure } = shot;
      if (exposure?.setting.kind !== 'dial' || exposure.setting.reach !== 'shorter') continue;
      const { setting } = exposure;
      const severity = pastLimit(exposure, Math.abs(setting.residualStops));
      if (severity === undefined || shot.gear.body?.shutter === undefined) continue;
      report(
        timePlace(shot),
        `The dial ends at ${setting.label}, which is ${formatStops(Math.abs(setting.residualStops))} too bright. ${limitAdvice(severity, setting.label, 'Take that much more filter, close the aperture or lower the ISO.')}`,
        {
          severity,
          related: also(shot.gear.body.shutter, 'The shutter of the body.'),
          facts: { residualStops: setting.residualStops },
        },
      );
    }
  },
};
