import type { Spot } from '../plan/fields.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { Value } from '../plan/table.ts';
import { formatClock } from '../quantities/clock.ts';
import { formatDuration } from '../quantities/duration.ts';
import { clockText } from '../schedule/localTime.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { civilMs } from '../sky/civil.ts';

const minuteMs = 60_000;
const dayMs = 86_400_000;

/** Less than this does not show on a clock and is not worth a word. */
export const unnoticedMs = 30_000;

/** The local time at a spot: `05:40`, with the day when it is not the plan's. */
export function timeAt(instantMs: number, at: SpotPlace): string {
  return clockText(instantMs, at.clock, at.date);
}

/** How far one instant lies behind another, as their clock times show it: `25 min`. */
export function lateness(fromMs: number, toMs: number): string {
  const minutes = Math.round(toMs / minuteMs) - Math.round(fromMs / minuteMs);
  return formatDuration(Math.max(minutes, 1) * 60);
}

/** A whole minute at a spot as a plan writes it, `05:40`, `00:10 next day` or `23:30 previous day`; undefined for any other day. */
export function writtenTime(
  instantMs: number,
  at: SpotPlace,
  rounding: 'up' | 'down' = 'up',
): string | undefined {
  const minutes = instantMs / minuteMs;
  const whole = (rounding === 'up' ? Math.ceil(minutes - 1e-6) : Math.floor(minutes + 1e-6)) * minuteMs;
  const dayOffset = Math.round((civilMs(at.clock.date(whole)) - civilMs(at.date)) / dayMs);
  if (Math.abs(dayOffset) > 1) return undefined;
  const local = new Date(whole + at.clock.offsetSeconds(whole) * 1000);
  return formatClock({ hour: local.getUTCHours(), minute: local.getUTCMinutes(), second: 0, dayOffset });
}

/** An id for people. */
export function idOf(thing: { readonly id?: Value<string> }, otherwise: string): string {
  return thing.id?.value ?? otherwise;
}

export function spotName(spot: Spot, index: number): string {
  return spot.id?.value ?? `spot ${index + 1}`;
}

export function shotName(shot: Shot, index: number): string {
  return shot.id?.value ?? `shot ${index + 1}`;
}
