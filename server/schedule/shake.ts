import { type ShakeRisk, shakeRisks } from '../optics/shake.ts';
import { degrees } from '../optics/sphere.ts';
import { equivalentFocal } from '../optics/sunSafety.ts';
import type { Bag } from '../plan/bag.ts';
import type { PlanModel, Spot } from '../plan/fields.ts';
import type { DayShot } from './day.ts';
import { forecastAt } from './light.ts';
import type { SpotPlace } from './place.ts';
import { pitchOf } from './screen.ts';
import type { Thresholds } from './thresholds.ts';

/** What can shake the camera during a shot: only what matters at its time and focal length. */
export interface ShotShake {
  readonly seconds: number;
  /** As if on a frame of 36 × 24 mm. */
  readonly equivalentFocalMillimetres: number;
  readonly risks: readonly ShakeRisk[];
}

/** Whether something is carried that releases the shutter without a hand on the camera; true while that is not known. */
export function releaseCarried({ carried, carriedKnown }: Bag): boolean {
  return !carriedKnown || carried.some((thing) => /release|remote|timer|intervalometer/.test(thing));
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
  bag: Bag,
  thresholds: Thresholds,
): ShotShake | undefined {
  const { focalMillimetres: focal, sensor } = gear;
  const setting = exposure?.setting;
  if (focal === undefined || sensor === undefined || setting === undefined) return undefined;
  const equivalentMillimetres = equivalentFocal({ focal, sensor });
  const wind =
    at === undefined || startMs === undefined ? undefined : forecastAt(startMs, at, plan)?.wind?.value;
  const pitchMicrometres = pitchOf(gear);
  const risks = shakeRisks({
    seconds: setting.seconds,
    equivalentFocal: equivalentMillimetres,
    windMetresPerSecond: wind,
    wideWindLimit: thresholds['shake-wind'] / 3.6,
    ground: spot.stance?.on?.value,
    neededHeight: spot.stance?.heightNeeded?.value,
    tripodHeight: bag.kit?.tripod?.height?.value,
    longLensFrom: thresholds['shake-focal'],
    pixelArcSeconds:
      pitchMicrometres === undefined ? undefined : 3600 * degrees(pitchMicrometres / 1000 / focal),
    // Of bulb without a remote release another rule speaks.
    remoteRelease: setting.kind === 'bulb' || releaseCarried(bag),
  });
  return { seconds: setting.seconds, equivalentFocalMillimetres: equivalentMillimetres, risks };
}
