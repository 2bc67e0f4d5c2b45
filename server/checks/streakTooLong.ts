import type { Rule } from '../analysis.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { shotStreak } from '../schedule/motion.ts';
import { figure, settingName } from './figures.ts';
import { also } from './related.ts';
import { shotsOf, timePlace } from './shots.ts';

/**
 * How far the water runs over the sensor while the shutter is open: focal · speed · time / distance, by similar
 * triangles. Frozen: the threshold `frozen-streak` in pixels; textured: `textured-streak` as a share of the width.
 */
export const streakTooLong: Rule = {
  code: 'effect/streak-too-long',
  severity: 'hint',
  doc: 'By the speed and distance that the plan gives, the water runs further over the sensor than the effect allows. The thresholds are `frozen-streak` in pixels and `textured-streak` as a share of the width. Take a shorter time.',
  check(analysis, report) {
    const limits = analysis.thresholds;
    for (const shot of shotsOf(analysis)) {
      const effect = shot.shot.effect;
      if (effect?.value !== 'frozen' && effect?.value !== 'textured') continue;
      const streak = shotStreak(shot, shot.visit.spot);
      if (streak === undefined || shot.exposure === undefined) continue;
      const frozen = effect.value === 'frozen';
      const [found, allowed] = frozen
        ? [streak.pixels, limits['frozen-streak']]
        : [streak.share, limits['textured-streak']];
      if (found <= allowed) continue;
      const longest = (streak.seconds * allowed) / found;
      const ran = frozen
        ? `${figure(streak.pixels, streak.pixels < 10 ? 1 : 0)} pixels`
        : `${figure(streak.share * 100)} % of the width of the frame`;
      report(
        timePlace(shot),
        `In ${settingName(shot.exposure.setting)} the water runs over ${ran}: too far to look ${effect.value}. ${formatShutter(longest)} or less keeps it below ${frozen ? `${figure(allowed, 1)} pixels` : `${figure(allowed * 100)} %`}.`,
        {
          related: also(effect, 'The effect.'),
          facts: {
            seconds: streak.seconds,
            pixels: streak.pixels,
            share: streak.share,
            longestSeconds: longest,
          },
        },
      );
    }
  },
};
