import type { Rule } from '../analysis.ts';
import { markingGraceStops } from '../exposure/dial.ts';
import type { PlanModel } from '../plan/fields.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { formatStops } from '../quantities/stops.ts';
import { heldSetting } from '../schedule/drift.ts';
import { type EffectRange, effectTable, isLookOfWater, lookAt, waterOf } from '../schedule/effects.ts';
import { pitchOf } from '../schedule/screen.ts';
import { averagedFrames, shotRange } from '../schedule/solutions.ts';
import { onWater, settingName } from './figures.ts';
import { mendFixes } from './mends.ts';
import { type ShotOfDay, shotsOf, timePlace } from './shots.ts';
import { stopsOff, waysInto } from './shotWays.ts';
import { streakLimit } from './streakTooLong.ts';

/**
 * The planned time against the range of the effect on that water; common practice, no source, and a plan sets its own
 * ranges under `effects`. A time that is worked out counts only when it is off by more than the ± of its filters, an
 * estimated one by more than that of the light as well. Frames of one shot count as averaged where that gives the effect.
 */
export const outsideRange: Rule = {
  code: 'effect/outside-range',
  severity: 'warning',
  doc: 'The planned shutter time does not give the wanted effect on this water. The message says what it will look like instead, and the fixes are what the filters, the apertures and the speeds in the kit can do about it. Several frames (`frames`) count as averaged. The ranges are common practice; set your own under `effects`.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { exposure, visit } = shot;
      const { effect } = shot.shot;
      if (exposure === undefined || effect === undefined || !counts(shot)) continue;
      const range = shotRange(shot.shot, visit.spot, plan);
      if (range === undefined) continue;
      const off = stopsOff(shot, range);
      if (Math.abs(off) <= markingGraceStops + spreadOf(shot)) continue;
      // What is really held, while the light changes.
      const held = heldSetting(exposure, analysis.thresholds.drift);
      const { seconds } = held;
      const estimated = exposure.basis === 'expected';
      const frames = off < 0 ? averagedFrames(shot) : 1;
      const planned = `${estimated ? 'About ' : ''}${settingName(held)}`;
      const said = frames > 1 ? `${frames} frames of ${settingName(held)}, averaged, are` : `${planned} is`;
      // Water of a known speed may need a shorter time than custom has it.
      const streak = off > 0 ? streakLimit(analysis, shot) : undefined;
      const within = streak !== undefined && streak.longestSeconds < range.longest ? streak : undefined;
      const narrow =
        within === undefined
          ? undefined
          : waysInto(analysis, shot, { shortest: range.shortest, longest: within.longestSeconds });
      const ways = narrow?.found === true ? narrow : waysInto(analysis, shot, range);
      report(
        estimated ? effect : timePlace(shot),
        `${said} ${formatStops(Math.abs(off))} too ${off > 0 ? 'long' : 'short'} for “${effect.value}”${waterName(shot)} (${rangeName(range)}).${instead(shot, off, plan)}${within === undefined ? '' : ` At its speed and distance ${within.words}.`} ${ways.sentence}`,
        {
          severity: estimated ? 'hint' : 'warning',
          facts: {
            effect: effect.value,
            seconds,
            frames,
            shortestSeconds: range.shortest,
            longestSeconds: Number.isFinite(range.longest) ? range.longest : null,
            stopsOutside: off,
            mends: ways.mends,
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

/** Star trails are as long as all frames together, and stars have limits of their own where the lens is known. */
function counts(shot: ShotOfDay): boolean {
  const effect = shot.shot.effect?.value;
  if (effect === 'star trails') return false;
  const { gear } = shot;
  const limited =
    gear.fNumber !== undefined && gear.focalMillimetres !== undefined && pitchOf(gear) !== undefined;
  return effect !== 'star points' || !limited;
}

/** ± stops of a time that is worked out; a stated one is what it is. */
function spreadOf({ exposure }: ShotOfDay): number {
  if (exposure === undefined || exposure.basis === 'stated') return 0;
  return (exposure.input?.spreadStops ?? 0) + (exposure.lightSpreadStops ?? 0);
}

function rangeName({ shortest, longest }: EffectRange): string {
  if (shortest === 0) return `${formatShutter(longest)} or less`;
  if (!Number.isFinite(longest)) return `${formatShutter(shortest)} or more`;
  return `${formatShutter(shortest)} to ${formatShutter(longest)}`;
}

function waterName({ shot, visit }: ShotOfDay): string {
  const kind = waterOf(shot, visit.spot)?.kind?.value;
  const depends = effectTable.some((row) => row.effect === shot.effect?.value && row.water !== undefined);
  return depends ? onWater(kind) : '';
}

/** What the water looks like at that time, where the effect is one of water in motion. */
function instead({ shot, visit, exposure }: ShotOfDay, off: number, plan: PlanModel): string {
  const effect = shot.effect?.value;
  if (effect === 'mirror') {
    return off < 0 ? ' Ripples will show in the reflection.' : ' The sky may move too far in the reflection.';
  }
  const seconds = exposure?.setting.seconds;
  if (!isLookOfWater(effect) || seconds === undefined) return '';
  const look = lookAt(seconds, waterOf(shot, visit.spot)?.kind?.value, plan, effect);
  if (look === undefined) return '';
  return look === 'mist' ? ' It will turn to mist.' : ` It will look ${look}.`;
}
