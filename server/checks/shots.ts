import type { Checkable } from '../analysis.ts';
import type { DayShot, ShotOfDay } from '../schedule/day.ts';
import type { ShotExposure } from '../schedule/frames.ts';
import type { Place } from '../text/span.ts';
import { headOf } from './related.ts';

export type { ShotOfDay };

/** Every shot of the day in order. */
export function shotsOf({ day }: Checkable): readonly ShotOfDay[] {
  return day?.shots ?? [];
}

/** Where something about the time of a shot is shown: the line from which it comes, else the shot. */
export function timePlace({ shot }: DayShot): Place {
  return shot.shutter ?? shot.metered ?? headOf(shot);
}

/** Whether an exposure is so many stops past a limit even if the light that was only expected turns out otherwise. */
export function isBeyondDoubt({ lightSpreadStops = 0 }: ShotExposure, stopsPast: number): boolean {
  return stopsPast > lightSpreadStops;
}
