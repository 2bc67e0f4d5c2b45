import type { Checkable } from '../analysis.ts';
import {
  cloudedPolarization,
  darkeningStops,
  degreeOfPolarization,
  skyEvenness,
} from '../optics/polarizer.ts';
import { horizonInFrame } from '../optics/view.ts';
import { type PolarizedReflection, type WaterInFrame, waterInFrame } from '../optics/water.ts';
import type { FilterUse } from '../schedule/gear.ts';
import { cameraOf } from '../schedule/light.ts';
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

/**
 * The sky as the forecast has it; undefined while light or facing is not known, when the sky is dark, and when none of it
 * is in the frame. `cloudShare` takes the place of the forecast's.
 */
export function skyEffect(
  { memory }: Checkable,
  { light }: ShotOfDay,
  cloudShare = light?.cloudShare,
): SkyEffect | undefined {
  if (light?.direction === undefined || light.sun.altitudeDegrees < darkSkyDegrees) return undefined;
  const strength = cloudedPolarization(cloudShare);
  if (light.camera === undefined) {
    // Without a frame, the middle of the picture stands for it.
    const { angleFromAxisDegrees } = light.direction;
    return { strongestStops: darkeningStops(degreeOfPolarization(angleFromAxisDegrees, strength)) };
  }
  const { camera } = light;
  const sun = { azimuth: light.sun.azimuthDegrees, altitude: light.sun.altitudeDegrees };
  const { facing, tilt, focal, sensor } = camera;
  const key = [sun.azimuth, sun.altitude, facing, tilt, focal, sensor.width, sensor.height, strength].join(
    ' ',
  );
  const sky = memory.sky.once(`evenness ${key}`, () => skyEvenness(sun, camera, strength));
  if (sky === null) return undefined;
  const { strongestStops, weakestStops, differenceStops, strongestAt } = sky;
  return { strongestStops, weakestStops, unevenStops: differenceStops, strongestAt };
}

/** Whether the frame is known and shows nothing above the horizontal. */
export function skyOutside({ light }: ShotOfDay): boolean {
  return light?.camera !== undefined && horizonInFrame(light.camera) >= 0.5;
}

/**
 * What a polarizer can do to level water in the frame; null when the frame shows nothing below the horizontal, undefined
 * while focal length or sensor is not known. Where the lens points on the compass makes no difference to it.
 */
export function waterOfFrame({ shot, gear, facing }: ShotOfDay): WaterInFrame | null | undefined {
  if (shot.self.broken.has('tilt')) return undefined;
  const camera = cameraOf(
    gear,
    facing ?? { degrees: 0, tiltDegrees: shot.tilt?.value ?? 0, source: 'stated' },
  );
  return camera === undefined ? undefined : waterInFrame(camera);
}

/** More than this is the end of a reflection for any eye; beyond the other, the number says nothing any more. */
const [nearlyAllStops, allStops] = [5, 10];

/** How much of a reflection goes: `0.1 stop`, `6.1 stops, nearly all`, `nothing`. */
export function takenText({ removableStops: stops }: PolarizedReflection): string {
  if (stops > allStops) return 'all';
  if (stops < 0.05) return 'nothing';
  const all = stops > nearlyAllStops ? ', nearly all,' : '';
  return `${stops.toFixed(1)} ${stops < 1.05 ? 'stop' : 'stops'}${all}`;
}

/** The mend that takes a filter off a shot. */
export function takeOff(analysis: Checkable, { shot }: ShotOfDay, use: FilterUse): readonly Fact[] {
  const kept = (shot.filters ?? []).filter((other) => other !== use.use).map(({ value }) => value);
  return written([
    mendShot(analysis, shot, `Take ${use.use.value} off`, { filters: `[${kept.join(', ')}]` }),
  ]);
}
