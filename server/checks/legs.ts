import type { Checkable } from '../analysis.ts';
import type { DaySpot } from '../schedule/day.ts';
import { geodesic } from '../sky/geodesy.ts';
import type { Place as MapPlace } from '../sky/place.ts';
import type { Place } from '../text/span.ts';

/** The way from one place of the plan to the next one. */
export interface Leg {
  readonly visit: DaySpot;
  readonly index: number;
  /** Where the coordinates of the place before stand. */
  readonly from: Place;
  /** Along the straight line on the ellipsoid. */
  readonly distanceMetres: number;
  /** What may lie between where one stands and the car, at both ends. */
  readonly walkedMetres: number;
}

/** Every leg of which both ends are known. Distances are remembered between edits. */
export function legsOf({ plan, day, memory }: Checkable): readonly Leg[] {
  const { from } = plan?.model.start ?? {};
  return (day?.spots ?? []).flatMap((visit, index) => {
    const before = day?.spots[index - 1];
    const origin = index === 0 ? from : before?.spot.at;
    const target = visit.spot.at;
    if (origin === undefined || target === undefined || walkUnknown(visit)) return [];
    const distanceMetres = memory.sky.once(`leg ${key(origin.value)} ${key(target.value)}`, () =>
      geodesic(origin.value, target.value),
    ).distanceMetres;
    const walkedMetres = (before === undefined ? 0 : walkedTo(before)) + walkedTo(visit);
    return [{ visit, index, from: origin, distanceMetres, walkedMetres }];
  });
}

/** A walk of which only the time is stated says nothing of its length; level ground at 5 km/h bounds it. */
function walkedTo({ spot }: DaySpot): number {
  const { distance, time } = spot.walk ?? {};
  return distance?.value ?? ((time?.value ?? 0) * 5000) / 3600;
}

function walkUnknown({ spot }: DaySpot): boolean {
  return spot.self.broken.has('walk') || (spot.walk?.self.broken.size ?? 0) > 0;
}

function key({ latitude, longitude }: MapPlace): string {
  return `${latitude} ${longitude}`;
}
