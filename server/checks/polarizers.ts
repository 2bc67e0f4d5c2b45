import type { Checkable } from '../analysis.ts';
import { darkeningStops, degreeOfPolarization, skyEvenness } from '../optics/polarizer.ts';
import type { FilterUse } from '../schedule/gear.ts';
import type { Fact } from '../text/finding.ts';
import { mendShot, written } from './shotEdits.ts';
import type { ShotOfDay } from './shots.ts';

/** The sky is polarized for as long as the sun lights it: to the end of civil twilight and somewhat longer. */
export const darkSkyDegrees = -6;

/** The polarizers on a shot, in the order of the plan. */
export function polarizersOf({ gear }: ShotOfDay): readonly FilterUse[] {
  return gear.filters.filter(({ filter }) => filter.kind?.value === 'polarizer');
}

/** How much a polarizer can darken the sky in the frame, in stops. */
export interface SkyEffect {
  readonly strongestStops: number;
  /** How much more it darkens one part than another; absent while lens and sensor are not known. */
  readonly unevenStops?: number;
  readonly weakestStops?: number;
  /** Where it is darkest, as a share of the width from the middle. */
  readonly strongestAt?: number;
}

/** Undefined while light or facing is not known, when the sky is dark, and when none of it is in the frame. */
export function skyEffect({ memory }: Checkable, { light }: ShotOfDay): SkyEffect | undefined {
  if (light?.direction === undefined || light.sun.altitudeDegrees < darkSkyDegrees) return undefined;
  if (light.camera === undefined) {
    // Without a frame, the middle of the picture stands for it.
    const { angleFromAxisDegrees } = light.direction;
    return { strongestStops: darkeningStops(degreeOfPolarization(angleFromAxisDegrees)) };
  }
  const { camera } = light;
  const sun = { azimuth: light.sun.azimuthDegrees, altitude: light.sun.altitudeDegrees };
  const { facing, tilt, focal, sensor } = camera;
  const key = [sun.azimuth, sun.altitude, facing, tilt, focal, sensor.width, sensor.height].join(' ');
  const sky = memory.sky.once(`evenness ${key}`, () => skyEvenness(sun, camera));
  if (sky === null) return undefined;
  const { strongestStops, weakestStops, differenceStops, strongestAt } = sky;
  return { strongestStops, weakestStops, unevenStops: differenceStops, strongestAt };
}

/** The mend that takes a filter off a shot. */
export function takeOff(analysis: Checkable, { shot }: ShotOfDay, use: FilterUse): readonly Fact[] {
  const kept = (shot.filters ?? []).filter((other) => other !== use.use).map(({ value }) => value);
  return written([
    mendShot(analysis, shot, `Take ${use.use.value} off`, { filters: `[${kept.join(', ')}]` }),
  ]);
}
