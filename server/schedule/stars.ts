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
export function shotMoon(shot: DayShot, at: SpotPlace | undefined): ShotMoon | undefined {
  return at === undefined || shot.startMs === undefined ? undefined : moonAt(shot.startMs, shot, at);
}

/** The moon over a shot's frame at an instant. */
export function moonAt(instantMs: number, { light }: DayShot, at: SpotPlace): ShotMoon {
  const moon = moonPosition(instantMs, at.place);
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

/** A stretch of time, epoch milliseconds. */
export interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
}

/** The moon while a shot lasts, from the first frame to the end of the last: the first stretch of each. */
export interface MoonDuring {
  /** Above the skyline. */
  readonly seen?: Stretch;
  /** Above the skyline and in the frame; absent as well while the frame is not known. */
  readonly inFrame?: Stretch;
}

/** The moon moves by 1.25° in this time: less than a frame of 600 mm is high. */
const moonStepMs = 5 * 60_000;
/** A day of such steps; longer shots are looked at in as many wider ones. */
const mostMoonSteps = 288;

/** Undefined while start or place is not known. A shot whose end is not known counts as its start alone. */
export function moonDuring(shot: DayShot, at: SpotPlace | undefined, memory: Memory): MoonDuring | undefined {
  const { startMs, light } = shot;
  if (at === undefined || startMs === undefined) return undefined;
  const endMs = Math.max(shot.endMs ?? startMs, startMs);
  const { camera } = light ?? {};
  const frame =
    camera === undefined
      ? ''
      : `${camera.facing} ${camera.tilt} ${camera.focal} ${camera.sensor.width} ${camera.sensor.height}`;
  return memory.once(`moon during ${at.key} ${startMs} ${endMs} ${frame}`, () => {
    const seen = ({ up, behindSkyline }: ShotMoon) => up && !behindSkyline;
    const lookFor = (wanted: (moon: ShotMoon) => boolean) =>
      firstStretch(startMs, endMs, (instantMs) => wanted(moonAt(instantMs, shot, at)));
    const whole = lookFor(seen);
    const framed = whole === undefined ? undefined : lookFor((moon) => seen(moon) && moon.inFrame === true);
    return {
      ...(whole === undefined ? {} : { seen: whole }),
      ...(framed === undefined ? {} : { inFrame: framed }),
    };
  });
}

/** The first stretch in which something holds, its ends found to a few seconds. */
function firstStretch(
  startMs: number,
  endMs: number,
  holds: (instantMs: number) => boolean,
): Stretch | undefined {
  const steps = Math.min(Math.max(Math.ceil((endMs - startMs) / moonStepMs), 1), mostMoonSteps);
  let before = startMs;
  let fromMs = holds(startMs) ? startMs : undefined;
  for (let step = 1; step <= steps; step += 1) {
    const instantMs = startMs + ((endMs - startMs) * step) / steps;
    const now = holds(instantMs);
    if (fromMs === undefined && now) fromMs = turn(before, instantMs, holds);
    else if (fromMs !== undefined && !now) return { fromMs, toMs: turn(before, instantMs, holds) };
    before = instantMs;
  }
  return fromMs === undefined ? undefined : { fromMs, toMs: endMs };
}

/** Where it turns, between an instant at which it is one way and another at which it is the other way. */
function turn(firstMs: number, secondMs: number, holds: (instantMs: number) => boolean): number {
  const atFirst = holds(firstMs);
  let [low, high] = [firstMs, secondMs];
  while (high - low > 2000) {
    const middle = (low + high) / 2;
    if (holds(middle) === atFirst) low = middle;
    else high = middle;
  }
  return Math.round((low + high) / 2);
}
