import type { Checkable, Rule } from '../analysis.ts';
import { usualPolarizerLoss } from '../exposure/stack.ts';
import { formatStops } from '../quantities/stops.ts';
import { mendFixes } from './mends.ts';
import { darkSkyDegrees, polarizersOf, skyEffect, takeOff } from './polarizers.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/**
 * Skylight is polarized at right angles to the sun, P = 0.8 · sin²γ / (1 + cos²γ), and hardly near the sun or opposite to
 * it; under cloud and in the dark not at all. What it can darken is −log2(1 − P) stops. Sources: server/optics/polarizer.ts.
 * Reflections on water and wet rock are another matter, so this is a hint.
 */
export const polarizerIdle: Rule = {
  code: 'filter/polarizer-idle',
  severity: 'hint',
  doc: 'On the sky the polarizer has nothing to do: the sun stands behind the camera or ahead of it, the sky is overcast, or it is dark. It costs its stops all the same; keep it only for reflections. Threshold: `weak-polarizer`.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const [use] = polarizersOf(shot);
      if (use === undefined || shot.shot.effect?.value === 'mirror') continue;
      const why = whyIdle(analysis, shot);
      if (why === undefined) continue;
      const loss = use.filter.measured?.value ?? use.filter.loss?.value ?? usualPolarizerLoss;
      report(
        use.use,
        `On the sky this polarizer has nothing to do: ${why}. It costs ${formatStops(loss)}; keep it only for reflections.`,
        { facts: { lossStops: loss, mends: takeOff(analysis, shot, use) } },
      );
    }
  },
  fixes: mendFixes,
};

function whyIdle(analysis: Checkable, shot: ShotOfDay): string | undefined {
  const { light } = shot;
  if (light === undefined) return undefined;
  if (light.sun.altitudeDegrees < darkSkyDegrees) {
    return `the sun is ${Math.round(-light.sun.altitudeDegrees)}° below the horizon`;
  }
  if (light.overcast) return `the forecast says ${Math.round((light.cloudShare ?? 1) * 100)} % cloud`;
  const sky = skyEffect(analysis, shot);
  if (
    sky === undefined ||
    light.direction === undefined ||
    sky.strongestStops >= analysis.thresholds['weak-polarizer']
  )
    return undefined;
  const ahead = light.direction.angleFromAxisDegrees < 90;
  return `the sun stands ${ahead ? 'ahead' : 'behind the camera'}, and it darkens the sky by ${sky.strongestStops.toFixed(1)} stop at most`;
}
