import type { Rule } from '../analysis.ts';
import { shotCloudStreak } from '../schedule/motion.ts';
import { figure } from './figures.ts';
import { shotsOf } from './shots.ts';

/** Streaks shorter than this share of the width hardly show. Common practice, no source. */
const shortShare = 0.03;

/**
 * Cloud streaks need single clouds that move. The streak is focal · wind · sin(elevation) / height · time, for clouds that
 * cross the view 20° up, with wind aloft and cloud base from the forecast.
 */
export const nothingToStreak: Rule = {
  code: 'effect/nothing-to-streak',
  severity: 'hint',
  doc: 'Cloud streaks are meant, but the forecast has a clear or a closed sky, or clouds that hardly move in that time. Choose another hour or another effect.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { effect } = shot.shot;
      const { light } = shot;
      if (effect?.value !== 'cloud streaks' || light?.cloudShare === undefined) continue;
      const percent = `${figure(light.cloudShare * 100)} %`;
      const facts = { cloudShare: light.cloudShare };
      if (light.overcast) {
        report(effect, `The forecast has ${percent} cloud: a closed sky has no edges that could streak.`, {
          facts,
        });
      } else if (light.cloudShare <= analysis.thresholds['clear-sky']) {
        report(effect, `The forecast has ${percent} cloud: there is nothing that could streak.`, { facts });
      } else {
        const streak = shotCloudStreak(shot, shot.visit.at, plan);
        if (streak === undefined || streak.share >= shortShare) continue;
        report(
          effect,
          `By the wind aloft the clouds run over about ${figure(streak.share * 100, 1)} % of the width: too little for streaks. Expose longer.`,
          { facts: { ...facts, share: streak.share } },
        );
      }
    }
  },
};
