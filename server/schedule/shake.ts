import { type ShakeRisk, shakeRisks, windLimit } from '../optics/shake.ts';
import type { PlanModel, Spot } from '../plan/fields.ts';
import type { DayShot } from './day.ts';
import { forecastAt } from './light.ts';
import type { SpotPlace } from './place.ts';
import type { Thresholds } from './thresholds.ts';

/** What can shake the camera during a shot: only what matters at its time and focal length. */
export interface ShotShake {
  readonly seconds: number;
  /** As if on a frame of 36 × 24 mm. */
  readonly equivalentFocalMillimetres: number;
  readonly risks: readonly ShakeRisk[];
}

/**
 * The wind limit at 24 mm is the threshold `shake-wind`; it falls with the square root of the focal length. Undefined
 * while time, focal length or sensor is not known.
 */
export function shotShake(
  { gear, exposure, startMs }: DayShot,
  spot: Spot,
  at: SpotPlace | undefined,
  plan: PlanModel,
  thresholds: Thresholds,
): ShotShake | undefined {
  const { focalMillimetres: focal, sensor } = gear;
  const seconds = exposure?.setting.seconds;
  if (focal === undefined || sensor === undefined || seconds === undefined) return undefined;
  const equivalentFocal = (focal * Math.hypot(36, 24)) / Math.hypot(sensor.width, sensor.height);
  const wind =
    at === undefined || startMs === undefined ? undefined : forecastAt(startMs, at, plan)?.wind?.value;
  const limit = (thresholds['shake-wind'] / 3.6) * (windLimit(equivalentFocal) / windLimit(24));
  const risks = shakeRisks({ seconds, equivalentFocal, ground: spot.stance?.on?.value });
  if (wind !== undefined && wind >= limit && seconds >= 1 / 5) {
    const text = `Wind of ${kmh(wind)} shakes a tripod at ${Math.round(focal)} mm, from about ${kmh(limit)}: stay low, hang nothing that swings, and shelter it.`;
    return {
      seconds,
      equivalentFocalMillimetres: equivalentFocal,
      risks: [...risks, { factor: 'wind', text }],
    };
  }
  return { seconds, equivalentFocalMillimetres: equivalentFocal, risks };
}

function kmh(metresPerSecond: number): string {
  return `${Math.round(metresPerSecond * 3.6)} km/h`;
}
