import type { Rule } from '../analysis.ts';
import { brewsterDegrees, type WaterInFrame } from '../optics/water.ts';
import { figure } from './figures.ts';
import { mendFixes } from './mends.ts';
import { polarizersOf, takenText, takeOff, waterOfFrame } from './polarizers.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';

/**
 * A reflection on water is polarized along the surface, and that is what a polarizer takes: log2(mean / p) stops, all of
 * it at 36.9° to the water, nothing at grazing. Source: server/optics/water.ts (Fresnel; Brewster).
 */
export const polarizerAgainstMirror: Rule = {
  code: 'filter/polarizer-against-mirror',
  severity: 'warning',
  doc: 'The shot wants the reflection on the water, and a polarizer takes it away: all of it at 37° to the water, hardly any far off, so that a wide frame comes out uneven. Take it off, or turn it until the reflection is strongest. The message says how much goes where; silent below the threshold `mirror-loss`, as with a long lens near the horizontal.',
  check(analysis, report) {
    const most = analysis.thresholds['mirror-loss'];
    for (const shot of shotsOf(analysis)) {
      const [use] = polarizersOf(shot);
      const { effect } = shot.shot;
      if (use === undefined || effect?.value !== 'mirror') continue;
      const water = waterOfFrame(shot);
      if (water === null || (water !== undefined && water.strongest.removableStops < most)) continue;
      report(
        use.use,
        `This shot wants the reflection. ${water === undefined ? unknownFrame : inFrame(water)} Take it off, or turn it until the reflection is strongest.`,
        {
          related: also(effect, 'The effect.'),
          facts: {
            ...(water === undefined ? {} : lossOf(water)),
            mends: takeOff(analysis, shot, use),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

const unknownFrame = `A polarizer can take it away, all of it at ${figure(90 - brewsterDegrees())}° to the water and hardly any far off.`;

/** More of a difference than this across the frame is seen at once. */
const unevenStops = 1;

function inFrame({ nearest, axis, farthest, strongest }: WaterInFrame): string {
  const onAxis =
    axis === null
      ? ''
      : `${takenText(axis)} on the lens axis (${figure(axis.grazingDegrees, 1)}° to the water), `;
  const far = `${takenText(farthest)} at the far edge`;
  const near = `${takenText(nearest)} at the bottom edge (${figure(nearest.grazingDegrees, 1)}°)`;
  const [near1, far1, most] = [nearest, farthest, strongest].map(({ removableStops }) => removableStops) as [
    number,
    number,
    number,
  ];
  const comesOut =
    near1 > far1 + unevenStops
      ? ' The mirror stays far off and goes near the camera.'
      : far1 > near1 + unevenStops
        ? ' The mirror goes far off and stays near the camera.'
        : most > Math.max(near1, far1) + unevenStops
          ? ' The mirror goes in a band between them.'
          : '';
  return `Of that a polarizer can take ${onAxis}${far} and ${near}.${comesOut}`;
}

/** Stops of the reflection that can go; what is taken away wholly has no number of stops. */
function lossOf({ nearest, axis, farthest, strongest }: WaterInFrame) {
  const stops = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    bottomEdgeStops: stops(nearest.removableStops),
    axisStops: axis === null ? null : stops(axis.removableStops),
    farEdgeStops: stops(farthest.removableStops),
    strongestShare: strongest.removableShare,
  };
}
