import type { Checkable, Rule } from '../analysis.ts';
import { markingGraceStops } from '../exposure/dial.ts';
import { shotStreak, type WaterStreak } from '../schedule/motion.ts';
import { shotRange } from '../schedule/solutions.ts';
import { capitalized } from '../text/sentence.ts';
import { figure, settingName } from './figures.ts';
import { mendFixes } from './mends.ts';
import { also } from './related.ts';
import { type ShotOfDay, shotsOf, timePlace } from './shots.ts';
import { stopsOff, waysInto } from './shotWays.ts';

/**
 * How far the water runs over the sensor while the shutter is open: focal · speed · time / distance, by similar
 * triangles. Frozen: the threshold `frozen-streak` in pixels; textured: `textured-streak` as a share of the width. Silent
 * where the time lies outside the range of the effect: that is said by the rule for the range, with this limit.
 */
export const streakTooLong: Rule = {
  code: 'effect/streak-too-long',
  severity: 'hint',
  doc: 'By the speed and distance that the plan gives, the water runs further over the sensor than the effect allows, though the time is one that custom takes for it. The thresholds are `frozen-streak` in pixels and `textured-streak` as a share of the width. Take a shorter time.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const effect = shot.shot.effect;
      const limit = streakLimit(analysis, shot);
      if (effect === undefined || limit === undefined || !limit.isExceeded || shot.exposure === undefined)
        continue;
      const range = analysis.plan && shotRange(shot.shot, shot.visit.spot, analysis.plan.model);
      if (range !== undefined && stopsOff(shot, range) > markingGraceStops) continue;
      const { streak } = limit;
      const ran =
        effect.value === 'frozen'
          ? `${figure(streak.pixels, streak.pixels < 10 ? 1 : 0)} pixels`
          : `${figure(streak.share * 100)} % of the width of the frame`;
      const ways = waysInto(analysis, shot, {
        shortest: Math.min(range?.shortest ?? 0, limit.longestSeconds),
        longest: limit.longestSeconds,
      });
      report(
        timePlace(shot),
        `In ${settingName(shot.exposure.setting)} the water runs over ${ran} at this speed and distance: too far to look ${effect.value}. ${capitalized(limit.words)}.${shot.exposure.input === undefined ? '' : ` ${ways.sentence}`}`,
        {
          related: also(effect, 'The effect.'),
          facts: {
            seconds: streak.seconds,
            pixels: streak.pixels,
            share: streak.share,
            longestSeconds: limit.longestSeconds,
            mends: ways.mends,
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

/** How long the shutter may be open for the water to run no further than its effect allows. */
export interface StreakLimit {
  readonly streak: WaterStreak;
  readonly longestSeconds: number;
  readonly isExceeded: boolean;
  /** `1/5000 s or less keeps it below 2 pixels`, by what the dial has. */
  readonly words: string;
}

/** Undefined for other effects than frozen and textured, and while speed, distance or lens are not known. */
export function streakLimit({ thresholds }: Checkable, shot: ShotOfDay): StreakLimit | undefined {
  const effect = shot.shot.effect?.value;
  if (effect !== 'frozen' && effect !== 'textured') return undefined;
  const streak = shotStreak(shot, shot.visit.spot);
  if (streak === undefined) return undefined;
  const [found, allowed] =
    effect === 'frozen'
      ? [streak.pixels, thresholds['frozen-streak']]
      : [streak.share, thresholds['textured-streak']];
  if (found <= 0) return undefined;
  const longestSeconds = (streak.seconds * allowed) / found;
  const { dial } = shot.gear;
  const set = dial.positions.find(({ seconds }) => seconds <= longestSeconds * 2 ** markingGraceStops);
  const keeps = `keeps it below ${effect === 'frozen' ? `${figure(allowed, 1)} pixels` : `${figure(allowed * 100)} %`}`;
  return {
    streak,
    longestSeconds,
    isExceeded: found > allowed,
    words:
      set === undefined
        ? `even ${dial.shortest.label} s, where the dial ends, is too long: go further back, or take a shorter lens`
        : `${set.label} s or less ${keeps}`,
  };
}
