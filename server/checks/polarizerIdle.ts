import type { Checkable, Rule } from '../analysis.ts';
import { usualPolarizerLoss } from '../exposure/stack.ts';
import { formatStops } from '../quantities/stops.ts';
import { isLookOfWater, waterOf } from '../schedule/effects.ts';
import { figure } from './figures.ts';
import { mendFixes } from './mends.ts';
import {
  darkSkyDegrees,
  polarizersOf,
  skyEffect,
  skyOutside,
  takenText,
  takeOff,
  waterOfFrame,
} from './polarizers.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/**
 * Skylight is polarized at right angles to the sun, P = 0.8 · sin²γ / (1 + cos²γ), and hardly near the sun or opposite to
 * it; under cloud and in the dark not at all. What it can darken is −log2(1 − P) stops. Sources: server/optics/polarizer.ts.
 * Glare on water and wet rock is polarized under any sky (Fresnel), and there the filter is not idle.
 */
export const polarizerIdle: Rule = {
  code: 'filter/polarizer-idle',
  severity: 'hint',
  doc: 'On the sky the polarizer has nothing to do: the sun stands behind the camera or ahead of it, the sky is overcast, or it is dark. It costs its stops all the same; keep it only for reflections and glare. Silent where the plan has water whose glare it can take, under cloud too, and where no sky is in the frame. Threshold: `weak-polarizer`.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const [use] = polarizersOf(shot);
      if (use === undefined || shot.shot.effect?.value === 'mirror') continue;
      const water = onWater(analysis, shot);
      // Without sky and without water in the plan, it is leaves or wet stones that it is meant for.
      if (water === 'useful' || (water === 'none' && skyOutside(shot))) continue;
      const why = whyIdle(analysis, shot);
      if (why === undefined) continue;
      const loss = use.filter.measured?.value ?? use.filter.loss?.value ?? usualPolarizerLoss;
      report(
        use.use,
        `${skyOutside(shot) ? 'In this frame' : 'On the sky'} this polarizer has nothing to do: ${why}.${water === 'none' ? '' : ` Of the reflection on the water it can take ${water}.`} It costs ${formatStops(loss)}; keep it only for glare on water, wet rock or leaves.`,
        // Whether there is glare to take, the photographer sees: no fix goes without asking.
        { facts: { lossStops: loss, open: true, mends: takeOff(analysis, shot, use) } },
      );
    }
  },
  fixes: mendFixes,
};

/** Water over stones: their wet faces lean in all directions, and some suit the filter in any frame. */
const overStones: ReadonlySet<string> = new Set(['river', 'cascade', 'waterfall', 'spillway']);

/** What the filter can do to the water of a shot: useful, else how little it can take at best; none without water. */
function onWater({ thresholds }: Checkable, shot: ShotOfDay): string {
  const { spot } = shot.visit;
  // Water that cannot be read may be water over stones.
  if (spot.self.broken.has('water') || shot.shot.self.broken.has('water')) return 'useful';
  const water = waterOf(shot.shot, spot);
  const here = water !== undefined && water.state?.value !== 'dry';
  if (!here && !isLookOfWater(shot.shot.effect?.value)) return 'none';
  if (here && overStones.has(water.kind?.value ?? '')) return 'useful';
  const frame = waterOfFrame(shot);
  if (frame === null) return 'none';
  if (frame === undefined || frame.strongest.removableStops >= thresholds['weak-polarizer']) return 'useful';
  const taken = takenText(frame.strongest);
  return taken === 'nothing' ? taken : `${taken} at most`;
}

function whyIdle(analysis: Checkable, shot: ShotOfDay): string | undefined {
  const { light } = shot;
  if (light === undefined) return undefined;
  if (skyOutside(shot)) return 'no sky is in it';
  if (light.sun.altitudeDegrees < darkSkyDegrees) {
    return `the sun is ${Math.round(-light.sun.altitudeDegrees)}° below the horizon`;
  }
  const clouds = `the forecast says ${Math.round((light.cloudShare ?? 1) * 100)} % cloud`;
  if (light.overcast) return clouds;
  const weak = analysis.thresholds['weak-polarizer'];
  const sky = skyEffect(analysis, shot);
  if (sky === undefined || light.direction === undefined || sky.strongestStops >= weak) return undefined;
  const darkens = `it darkens the sky by ${figure(sky.strongestStops, 2)} stop at most`;
  const clear = skyEffect(analysis, shot, 0)?.strongestStops ?? 0;
  if (clear >= weak) return `${clouds}, and ${darkens}`;
  const ahead = light.direction.angleFromAxisDegrees < 90;
  return `the sun stands ${ahead ? 'ahead' : 'behind the camera'}, and ${darkens}`;
}
