import { exactFNumber } from '../exposure/dial.ts';
import { radians } from '../optics/sphere.ts';
import {
  type DeclinationRange,
  declinationsInFrame,
  npfSeconds,
  npfSimpleSeconds,
  pixelSeconds,
  trailArcDegrees,
  trailPixels,
} from '../optics/stars.ts';
import { type Camera, projectToFrame } from '../optics/view.ts';
import { type MoonPosition, moonPosition } from '../sky/bodies.ts';
import type { DayShot } from './day.ts';
import type { Memory } from './memory.ts';
import type { SpotPlace } from './place.ts';
import { pitchOf } from './screen.ts';

/** How soon stars draw lines in a frame. Seconds; what a missing aperture or time leaves open is absent. */
export interface StarLimits {
  /** The declinations in the frame; absent while it is not known where the lens points: then 0°, the fastest, is taken. */
  readonly declinations?: DeclinationRange;
  /** The declination that was taken, degrees. */
  readonly declination: number;
  /** In which a star moves by one pixel: geometry, no custom. */
  readonly pixelSeconds: number;
  /** By the short NPF rule, (35·N + 30·p)/(f·cos δ): custom, coefficients from memory. */
  readonly npfSeconds?: number;
  /** By the long NPF rule, for the strictest eye; the same source. */
  readonly strictSeconds?: number;
  /** How many pixels the fastest star moves during the frame. */
  readonly pixels?: number;
}

/** Undefined while focal length, sensor or pixels are not known. */
export function starLimits(
  { gear, light, exposure }: DayShot,
  at: SpotPlace | undefined,
  memory: Memory,
): StarLimits | undefined {
  const pitchMicrometres = pitchOf(gear);
  const { focalMillimetres: focal, fNumber } = gear;
  if (focal === undefined || pitchMicrometres === undefined) return undefined;
  const camera = light?.camera;
  const declinations =
    camera === undefined || at === undefined ? undefined : declinationsOf(camera, at.place.latitude, memory);
  const declination = declinations?.fastest ?? 0;
  const view = { focal, pitchMicrometres, declination };
  const seconds = exposure?.setting.seconds;
  const exact = fNumber === undefined ? undefined : exactFNumber(fNumber);
  return {
    ...(declinations === undefined ? {} : { declinations }),
    declination,
    pixelSeconds: pixelSeconds(view),
    ...(exact === undefined
      ? {}
      : {
          npfSeconds: npfSimpleSeconds(view, exact) / Math.cos(radians(declination)),
          strictSeconds: npfSeconds(view, exact),
        }),
    ...(seconds === undefined ? {} : { pixels: trailPixels(view, seconds) }),
  };
}

function declinationsOf(camera: Camera, latitude: number, memory: Memory): DeclinationRange | undefined {
  const { facing, tilt, focal, sensor } = camera;
  const key = `declinations ${latitude} ${facing} ${tilt} ${focal} ${sensor.width} ${sensor.height}`;
  return memory.once(key, () => declinationsInFrame(camera, latitude) ?? undefined);
}

/** The arc that the trails of all frames together draw around the pole, gaps included, in degrees. */
export function trailArc({ frames }: DayShot): number | undefined {
  return frames === undefined ? undefined : trailArcDegrees(frames.totalSeconds);
}

/** The moon over a shot when it begins. */
export interface ShotMoon extends MoonPosition {
  readonly up: boolean;
  readonly behindSkyline: boolean;
  /** Absent while frame or facing is not known. */
  readonly inFrame?: boolean;
}

/** Undefined while start or place is not known. */
export function shotMoon({ startMs, light }: DayShot, at: SpotPlace | undefined): ShotMoon | undefined {
  if (at === undefined || startMs === undefined) return undefined;
  const moon = moonPosition(startMs, at.place);
  const up = moon.apparentAltitudeDegrees > 0;
  const land = at.skyline?.altitudeDegrees(moon.azimuthDegrees) ?? 0;
  const target = { azimuth: moon.azimuthDegrees, altitude: moon.apparentAltitudeDegrees };
  return {
    ...moon,
    up,
    behindSkyline: up && moon.apparentAltitudeDegrees < land,
    ...(light?.camera === undefined ? {} : { inFrame: projectToFrame(target, light.camera).inFrame }),
  };
}
