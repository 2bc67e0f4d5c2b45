import type { Checkable, Rule } from '../analysis.ts';
import type { Solution } from '../exposure/solver.ts';
import type { PlanModel } from '../plan/fields.ts';
import { aperture } from '../quantities/aperture.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { formatStops } from '../quantities/stops.ts';
import { type EffectRange, effectTable, lookAt, waterOf } from '../schedule/effects.ts';
import { pitchOf } from '../schedule/screen.ts';
import { shotRange, shotSolutions } from '../schedule/solutions.ts';
import type { Fact } from '../text/finding.ts';
import { onWater, settingName } from './figures.ts';
import { mendFixes } from './mends.ts';
import { mendShot, written } from './shotEdits.ts';
import { type ShotOfDay, shotsOf, timePlace } from './shots.ts';

/** Markings are rounded names: a range up to 30 s includes the 32 s that the dial keeps at 30. A tenth of a stop. */
const graceStops = 0.1;

/** How many ways are offered. */
const most = 3;

/**
 * The planned time against the range of the effect on that water; common practice, no source, and a plan sets its own
 * ranges under `effects`. An estimated time counts only when it is off by more than its ±.
 */
export const outsideRange: Rule = {
  code: 'effect/outside-range',
  severity: 'warning',
  doc: 'The planned shutter time does not give the wanted effect on this water. The message says what it will look like instead, and the fixes are what the filters, the apertures and the speeds in the kit can do about it. The ranges are common practice; set your own under `effects`.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { exposure, visit } = shot;
      const { effect } = shot.shot;
      if (exposure === undefined || effect === undefined || !counts(shot)) continue;
      const range = shotRange(shot.shot, visit.spot, plan);
      if (range === undefined) continue;
      const { seconds } = exposure.setting;
      const off = stopsOutside(seconds, range);
      const estimated = exposure.basis === 'expected';
      const spread = estimated ? (exposure.input?.spreadStops ?? 0) + (exposure.lightSpreadStops ?? 0) : 0;
      if (Math.abs(off) <= graceStops + spread) continue;
      const solutions = shotSolutions(shot, visit.spot, plan, analysis.bag, analysis.memory.sky);
      const planned = `${estimated ? 'About ' : ''}${settingName(exposure.setting)}`;
      report(
        estimated ? effect : timePlace(shot),
        `${planned} is ${formatStops(Math.abs(off))} too ${off > 0 ? 'long' : 'short'} for “${effect.value}”${waterName(shot)} (${rangeName(range)}).${instead(shot, seconds, plan)} ${wayOut(solutions)}`,
        {
          severity: estimated ? 'hint' : 'warning',
          facts: {
            effect: effect.value,
            seconds,
            shortestSeconds: range.shortest,
            longestSeconds: Number.isFinite(range.longest) ? range.longest : null,
            stopsOutside: off,
            mends: mends(analysis, shot, solutions),
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

/** How many stops too long (positive) or too short. */
function stopsOutside(seconds: number, { shortest, longest }: EffectRange): number {
  if (seconds > longest) return Math.log2(seconds / longest);
  return seconds < shortest ? -Math.log2(shortest / seconds) : 0;
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
function instead({ shot, visit }: ShotOfDay, seconds: number, plan: PlanModel): string {
  const effect = shot.effect?.value;
  if (effect === 'mirror') {
    return seconds < 20
      ? ' Ripples will show in the reflection.'
      : ' The sky may move too far in the reflection.';
  }
  const ofWater = effect === 'frozen' || effect === 'textured' || effect === 'silky' || effect === 'mist';
  const look = ofWater ? lookAt(seconds, waterOf(shot, visit.spot)?.kind?.value, plan) : undefined;
  if (look === undefined || look === effect) return '';
  return look === 'mist' ? ' It will turn to mist.' : ` It will look ${look}.`;
}

function wayOut(solutions: readonly Solution[]): string {
  const best = solutions[0];
  if (best === undefined)
    return 'Nothing in the kit reaches that: bring another filter, or shoot in other light.';
  if (best.kind === 'averaging') {
    return `No single exposure reaches that with this kit; average ${best.frames} frames of ${settingName(best.setting)} (\`frames: ${best.frames}\`).`;
  }
  return `${sentence(best)}.`;
}

/** `Use nd6: 13 s at f/14`. */
function sentence({ filters, setting, fNumber, iso }: Solution, withIso = false): string {
  const stack = filters.length === 0 ? 'no filter' : filters.join(' + ');
  return `Use ${stack}: ${settingName(setting)} at ${aperture.format(fNumber)}${withIso ? `, ISO ${iso}` : ''}`;
}

function mends(analysis: Checkable, shot: ShotOfDay, solutions: readonly Solution[]): readonly Fact[] {
  const { gear, exposure } = shot;
  // A stated time goes before all that filters do: it must go, and taking a line away is for the author.
  if (shot.shot.shutter !== undefined) return [];
  const now = gear.filters.map(({ use }) => use.value);
  const singles = solutions.filter(({ kind }) => kind === 'single').slice(0, most);
  return written(
    singles.map((solution) => {
      const { filters, fNumber, iso } = solution;
      const stays = filters.length === now.length && filters.every((id) => now.includes(id));
      return mendShot(analysis, shot.shot, sentence(solution, iso !== gear.iso), {
        ...(stays ? {} : { filters: `[${filters.join(', ')}]` }),
        ...(fNumber === exposure?.input?.fNumber ? {} : { aperture: aperture.format(fNumber) }),
        ...(iso === gear.iso ? {} : { iso: String(iso) }),
      });
    }),
  );
}
