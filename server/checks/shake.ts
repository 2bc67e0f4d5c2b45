import type { Rule } from '../analysis.ts';
import { shotShake } from '../schedule/shake.ts';
import { figure, settingName } from './figures.ts';
import { also } from './related.ts';
import { shotsOf, timePlace } from './shots.ts';

/** From this focal length on, as on 36 × 24 mm, a swing shows at once. Common practice, no source. */
const longFocal = 70;
/** From this time on somebody walks by, or a wave comes. Common practice, no source. */
const longSeconds = 10;

/** Ground and wind against time and focal length. Factors to think of, no forecast of blur: common practice, no source. */
export const shake: Rule = {
  code: 'focus/shake',
  severity: 'warning',
  doc: 'A long exposure on a footbridge, a pier, sand or in the water, or in wind above the threshold `shake-wind` (less for longer lenses), can come out blurred. Wait for a quiet moment, stand elsewhere, stay low. A hint for short exposures with short lenses and for sand.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { spot, at } = shot.visit;
      if (spot.stance?.on === undefined && plan.forecast === undefined) continue;
      const found = shotShake(shot, spot, at, plan, analysis.thresholds);
      if (found === undefined || shot.exposure === undefined) continue;
      const { seconds, equivalentFocalMillimetres: focal } = found;
      for (const { factor, text } of found.risks) {
        const grave = factor !== 'ground sinks' && (seconds >= longSeconds || focal >= longFocal);
        if (factor === 'ground sinks' && seconds < longSeconds) continue;
        report(
          timePlace(shot),
          `${settingName(shot.exposure.setting)} at ${figure(shot.gear.focalMillimetres ?? focal)} mm: ${text.charAt(0).toLowerCase()}${text.slice(1)}`,
          {
            severity: grave ? 'warning' : 'hint',
            related: factor === 'wind' ? [] : also(spot.stance?.on, 'What the tripod stands on.'),
            facts: { factor, seconds, equivalentFocalMillimetres: focal },
          },
        );
      }
    }
  },
};
