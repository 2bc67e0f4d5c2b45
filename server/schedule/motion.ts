import { type CloudStreak, cloudStreak, type Streak, streak } from '../optics/motion.ts';
import type { PlanModel, Spot } from '../plan/fields.ts';
import type { DayShot } from './day.ts';
import { waterOf } from './effects.ts';
import { forecastAt } from './light.ts';
import type { SpotPlace } from './place.ts';
import { screenOf } from './screen.ts';

/** How far the water runs, and what that was worked out from. SI units. */
export interface WaterStreak extends Streak {
  readonly speedMetresPerSecond: number;
  readonly distanceMetres: number;
  readonly seconds: number;
}

/**
 * How far the water runs over the sensor during one frame, by `speed` and `distance` of the water. The speed is that
 * across the view. Undefined while one of speed, distance, time, focal length, sensor and pixels is not known.
 */
export function shotStreak({ shot, gear, exposure }: DayShot, spot: Spot): WaterStreak | undefined {
  const water = waterOf(shot, spot);
  const speedMetresPerSecond = water?.speed?.value;
  const distanceMetres = water?.distance?.value;
  const seconds = exposure?.setting.seconds;
  if (speedMetresPerSecond === undefined || distanceMetres === undefined || seconds === undefined)
    return undefined;
  const screen = screenOf(gear);
  if (screen === undefined || distanceMetres <= 0) return undefined;
  const motion = { speedMetresPerSecond, distanceMetres, seconds };
  return { ...streak(motion, screen), ...motion };
}

/** How far the clouds run, and what that was worked out from. SI units and degrees. */
export interface ShotCloudStreak extends CloudStreak {
  readonly windMetresPerSecond: number;
  readonly heightMetres: number;
  readonly elevationDegrees: number;
}

/** How high above the horizon clouds stand in a usual frame. Common practice, no source. */
const usualElevationDegrees = 20;

/**
 * How far clouds run over the sensor during one frame, by the forecast's wind aloft and cloud base, if they cross the
 * view. Undefined while one of them, time, focal length, sensor or pixels is not known.
 */
export function shotCloudStreak(
  { gear, exposure, startMs }: DayShot,
  at: SpotPlace | undefined,
  plan: PlanModel,
): ShotCloudStreak | undefined {
  const seconds = exposure?.setting.seconds;
  const screen = screenOf(gear);
  if (at === undefined || startMs === undefined || seconds === undefined || screen === undefined)
    return undefined;
  const hour = forecastAt(startMs, at, plan);
  const windMetresPerSecond = hour?.windAloft?.value;
  const heightMetres = hour?.cloudBase?.value;
  if (windMetresPerSecond === undefined || heightMetres === undefined || heightMetres <= 0) return undefined;
  const clouds = { windMetresPerSecond, heightMetres, elevationDegrees: usualElevationDegrees };
  return { ...cloudStreak({ ...clouds, seconds }, screen), ...clouds };
}
