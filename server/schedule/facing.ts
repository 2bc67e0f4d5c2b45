import type { PlanModel } from '../plan/fields.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { Bearing } from '../quantities/bearing.ts';
import type { Declination } from '../sky/declination.ts';
import { geodesic } from '../sky/geodesy.ts';
import type { Place } from '../sky/place.ts';
import type { Memory } from './memory.ts';

/** Where a lens points, and how that is known. Degrees, clockwise from true north; tilt up is positive. */
export interface Facing {
  readonly degrees: number;
  readonly tiltDegrees: number;
  readonly source: 'stated' | 'subject';
  /** Present when the bearing was magnetic and has been turned to true north. */
  readonly declination?: Declination;
  readonly subjectDistanceMetres?: number;
}

/** A bearing from true north, and the declination where it was needed. */
export function trueDegrees(
  bearing: Bearing,
  plan: PlanModel,
  place: Place,
  memory: Memory,
): { readonly degrees: number; readonly declination?: Declination } {
  const magnetic =
    bearing.reference === 'magnetic' ||
    (bearing.reference === 'unstated' && plan.bearings?.value === 'magnetic');
  const date = plan.date?.value;
  if (!magnetic || date === undefined) return { degrees: bearing.degrees };
  const declination = memory.declinationOf(place, date);
  return { degrees: (((bearing.degrees + declination.degrees) % 360) + 360) % 360, declination };
}

/** Where a shot faces: as stated, else towards its subject. Undefined when neither is known. */
export function facingOf(shot: Shot, plan: PlanModel, place: Place, memory: Memory): Facing | undefined {
  if (shot.self.broken.has('tilt') || shot.self.broken.has('facing') || plan.self.broken.has('bearings'))
    return undefined;
  const tiltDegrees = shot.tilt?.value ?? 0;
  const target = shot.subject?.at?.value;
  const line =
    target === undefined
      ? undefined
      : memory.once(`line ${place.latitude} ${place.longitude} ${target.latitude} ${target.longitude}`, () =>
          geodesic(place, target),
        );
  // From a place to itself there is no direction.
  const bearing = line !== undefined && line.distanceMetres >= 1 ? line.bearingDegrees : undefined;
  const distance = line?.distanceMetres ?? shot.subject?.distance?.value;
  const far = distance === undefined ? {} : { subjectDistanceMetres: distance };
  if (shot.facing !== undefined) {
    return { ...trueDegrees(shot.facing.value, plan, place, memory), tiltDegrees, source: 'stated', ...far };
  }
  return bearing === undefined ? undefined : { degrees: bearing, tiltDegrees, source: 'subject', ...far };
}
