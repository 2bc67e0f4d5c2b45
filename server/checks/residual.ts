import type { Rule } from '../analysis.ts';
import { shotsOf, timePlace } from './shots.ts';

/** The nearest position of the dial is off by at most half a step; on dials with coarse steps that shows. Threshold long-residual. */
export const residual: Rule = {
  code: 'exposure/residual',
  severity: 'hint',
  doc: 'The nearest position of the dial differs from the wanted time by more than the threshold `long-residual`. Make up for it with aperture or ISO.',
  check(analysis, report) {
    const most = analysis.thresholds['long-residual'];
    for (const shot of shotsOf(analysis)) {
      const setting = shot.exposure?.setting;
      if (shot.exposure?.basis !== 'metered' || setting?.kind !== 'dial' || setting.reach !== 'within')
        continue;
      const off = Math.abs(setting.residualStops);
      if (off <= most) continue;
      const amount = `${off.toFixed(1)} stop`;
      report(
        timePlace(shot),
        `The nearest position of the dial, ${setting.label}, comes out ${amount} too ${setting.residualStops > 0 ? 'bright' : 'dark'}. Make up for it with aperture or ISO.`,
        { facts: { residualStops: setting.residualStops } },
      );
    }
  },
};
