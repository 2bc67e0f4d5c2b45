import type { Rule } from '../analysis.ts';
import { type ShakeFactor, weakStandFocal } from '../optics/shake.ts';
import { shotShake } from '../schedule/shake.ts';
import { uncapitalized } from '../text/sentence.ts';
import { figure, settingName } from './figures.ts';
import { also } from './related.ts';
import { shotsOf, timePlace } from './shots.ts';

/** From this time on somebody walks by, or a wave comes. Common practice, no source. */
const longSeconds = 10;
/** What blurs by itself in a long exposure or at a long focal length; the rest is worth a thought. */
const grave: ReadonlySet<ShakeFactor> = new Set<ShakeFactor>(['ground moves', 'wind']);
/** What lies in the stance of the spot. */
const ofStance: ReadonlySet<ShakeFactor> = new Set<ShakeFactor>(['ground moves', 'ground sinks', 'wall']);

/**
 * Ground, wind, height of the tripod and focal length against time. Factors to think of, no forecast of blur: common
 * practice, no source.
 */
export const shake: Rule = {
  code: 'focus/shake',
  severity: 'warning',
  doc: 'A long exposure on a footbridge, a pier, sand or in the water, or in wind above the threshold `shake-wind` (less for longer lenses), can come out blurred. Wait for a quiet moment, stand elsewhere, stay low. A hint for short exposures with short lenses, for sand, and for what adds to it: a wall or a tripod nearly full out with a long lens or in some wind, a lens from `shake-focal` on, a hand on the release.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { spot, at } = shot.visit;
      const found = shotShake(shot, spot, at, plan, analysis.bag, analysis.thresholds);
      if (found === undefined || shot.exposure === undefined) continue;
      const { seconds, equivalentFocalMillimetres: focal } = found;
      const risks = found.risks.filter(({ factor }) => factor !== 'ground sinks' || seconds >= longSeconds);
      const [first, ...more] = risks.map(({ text }) => text);
      if (first === undefined) continue;
      const long = seconds >= longSeconds || focal >= weakStandFocal;
      const { stance } = spot;
      report(
        timePlace(shot),
        [
          `${settingName(shot.exposure.setting)} at ${figure(shot.gear.focalMillimetres ?? focal)} mm: ${uncapitalized(first)}`,
          ...more,
        ].join(' '),
        {
          severity: long && risks.some(({ factor }) => grave.has(factor)) ? 'warning' : 'hint',
          related: [
            ...(risks.some(({ factor }) => ofStance.has(factor))
              ? also(stance?.on, 'What the tripod stands on.')
              : []),
            ...(risks.some(({ factor }) => factor === 'tripod full out')
              ? also(stance?.heightNeeded, 'How high the camera must be.')
              : []),
          ],
          facts: {
            factors: risks.map(({ factor }) => factor),
            seconds,
            equivalentFocalMillimetres: focal,
          },
        },
      );
    }
  },
};
