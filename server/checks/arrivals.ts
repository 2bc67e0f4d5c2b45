import type { Day, DayShot, DaySpot } from '../schedule/day.ts';
import { present } from '../schedule/present.ts';
import { forgetsNextDay } from './nextDay.ts';
import { unnoticedMs } from './wording.ts';

/** A stated arrival that the day before it does not allow. */
export interface Missed {
  readonly visit: DaySpot;
  readonly index: number;
  readonly before?: DaySpot;
  readonly earliestMs: number;
  readonly arriveMs: number;
  /** The shot of the spot before without which the arrival would be kept. */
  readonly culprit?: { readonly shot: DayShot; readonly place: number };
}

/** Every stated arrival that comes before the earliest possible one. */
export function missedArrivals(day: Day | undefined): readonly Missed[] {
  return (day?.spots ?? []).flatMap((visit, index) => {
    const { spot, earliestMs, arriveMs } = visit;
    if (spot.arrive === undefined || earliestMs === undefined || arriveMs === undefined) return [];
    if (earliestMs - arriveMs <= unnoticedMs) return [];
    const before = (day as Day).spots[index - 1];
    if (forgetsNextDay(spot.arrive, arriveMs, index === 0 ? day?.leaveMs : before?.leaveMs)) return [];
    const culprit = before === undefined ? undefined : culpritOf(before, earliestMs - arriveMs);
    return [present({ visit, index, before, earliestMs, arriveMs, culprit })];
  });
}

/** The shot that ends last, if one could leave in time without the shots. */
function culpritOf({ readyMs, doneMs, shots }: DaySpot, lateMs: number): Missed['culprit'] {
  if (readyMs === undefined || doneMs === undefined || readyMs > doneMs - lateMs) return undefined;
  const place = shots.findLastIndex(({ endMs }) => endMs === doneMs);
  const shot = shots[place];
  return shot === undefined ? undefined : { shot, place };
}
