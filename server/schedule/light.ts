import { type LightDirection, lightDirection } from '../optics/direction.ts';
import type { Camera } from '../optics/view.ts';
import type { ForecastHour, PlanModel } from '../plan/fields.ts';
import { type BodyPosition, sunPosition } from '../sky/bodies.ts';
import { type ExpectedLight, expectedLight, type LightOptions } from '../sky/light.ts';
import type { DayInput } from './day.ts';
import type { Facing } from './facing.ts';
import type { Gear } from './gear.ts';
import type { SpotPlace } from './place.ts';
import { present } from './present.ts';

/** The light on a shot when its first frame begins. Angles in degrees. */
export interface ShotLight {
  readonly atMs: number;
  readonly sun: BodyPosition;
  /** Whether the sun stands above the level horizon (upper limb, refraction included). */
  readonly sunUp: boolean;
  /** Whether it is up, but behind the skyline. */
  readonly sunBehindSkyline: boolean;
  /** From the hour of the forecast that holds; absent without a forecast. */
  readonly cloudShare?: number;
  readonly overcast: boolean;
  /** Absent while it is not known where the lens points. */
  readonly direction?: LightDirection;
  /** Lens and sensor as they are held; absent while one of facing, focal length and sensor is not known. */
  readonly camera?: Camera;
  /** Absent while the skyline cannot be read: without the land it would be a guess. */
  readonly expected?: ExpectedLight;
}

/** Above this the sun is up: its upper edge above a level horizon, with mean refraction; altitude without air. */
export const sunUpDegrees = -0.8333;

/** The light on a shot that starts at `startMs`. */
export function shotLight(
  startMs: number,
  at: SpotPlace,
  { plan, thresholds, memory }: DayInput,
  shot: { readonly gear: Gear; readonly facing?: Facing },
): ShotLight {
  const { gear, facing } = shot;
  const sun = sunPosition(startMs, at.place);
  const sunUp = sun.altitudeDegrees > sunUpDegrees;
  const land = at.skyline?.altitudeDegrees(sun.azimuthDegrees) ?? 0;
  const cloudShare = forecastAt(startMs, at, plan)?.cloud?.value;
  const camera = cameraOf(gear, facing);
  const direction =
    facing === undefined
      ? undefined
      : lightDirection({
          sunAzimuth: sun.azimuthDegrees,
          sunAltitude: sun.apparentAltitudeDegrees,
          facing: facing.degrees,
          tilt: facing.tiltDegrees,
          focal: camera?.focal,
          sensor: camera?.sensor,
        });
  return present({
    atMs: startMs,
    sun,
    sunUp,
    sunBehindSkyline: sunUp && at.skyline !== undefined && sun.apparentAltitudeDegrees < land,
    cloudShare,
    overcast: cloudShare !== undefined && cloudShare >= thresholds.overcast,
    direction,
    camera,
    expected: at.skylineKnown
      ? memory.once(`expected ${at.key} ${startMs} ${cloudShare}`, () =>
          expectedLight({ instantMs: startMs, place: at.place, ...lightOptions(startMs, at, plan) }),
        )
      : undefined,
  });
}

/** What is known of clouds and land at an instant, for the light model. */
export function lightOptions(instantMs: number, at: SpotPlace, plan: PlanModel): LightOptions {
  return present({ cloudShare: forecastAt(instantMs, at, plan)?.cloud?.value, skyline: at.skyline });
}

/** The hour of the forecast that holds at an instant: the last that has begun, for three hours at most. */
export function forecastAt(instantMs: number, at: SpotPlace, plan: PlanModel): ForecastHour | undefined {
  let best: { readonly hour: ForecastHour; readonly ms: number } | undefined;
  for (const hour of plan.forecast?.hours ?? []) {
    const ms = hour.at === undefined ? undefined : at.instantOf(hour.at.value);
    if (ms === undefined || ms > instantMs || instantMs - ms > 3 * 3_600_000) continue;
    if (best === undefined || ms >= best.ms) best = { hour, ms };
  }
  return best?.hour;
}

/** The camera in the frame's terms. */
export function cameraOf(gear: Gear, facing: Facing | undefined): Camera | undefined {
  const { focalMillimetres: focal, sensor } = gear;
  if (facing === undefined || focal === undefined || sensor === undefined) return undefined;
  return { facing: facing.degrees, tilt: facing.tiltDegrees, focal, sensor };
}
