import { type CivilDate, formatDate, twoDigits } from '../quantities/date.ts';
import { civilMs } from '../sky/civil.ts';
import type { ZoneClock } from '../sky/zones.ts';

/**
 * Clock times for people, in the zone of a spot. Instants are epoch milliseconds; a time is rounded to the last unit
 * that it shows before its date is taken, so that 23:59:40 becomes 00:00 of the next day and never 24:00.
 */

const DAY_MS = 86_400_000;

/** `06:23`; with the plan's date also `00:12 +1 day`, or `00:12 on 2027-03-23` further off. */
export function clockText(instantMs: number, clock: ZoneClock, date?: CivilDate): string {
  const rounded = Math.round(instantMs / 60_000) * 60_000;
  return timeOfDay(rounded, clock).slice(0, 5) + dayText(rounded, clock, date);
}

/** `06:23:37`; with the plan's date also the day, as `clockText`. */
export function secondsText(instantMs: number, clock: ZoneClock, date?: CivilDate): string {
  const rounded = Math.round(instantMs / 1000) * 1000;
  return timeOfDay(rounded, clock) + dayText(rounded, clock, date);
}

/** `UTC+01:00`, `UTC−03:30`; seconds only where a zone has them. */
export function offsetText(offsetSeconds: number): string {
  const size = Math.abs(offsetSeconds);
  const parts = [Math.floor(size / 3600), Math.floor(size / 60) % 60, size % 60];
  const shown = parts[2] === 0 ? parts.slice(0, 2) : parts;
  return `UTC${offsetSeconds < 0 ? '−' : '+'}${shown.map(twoDigits).join(':')}`;
}

function timeOfDay(instantMs: number, clock: ZoneClock): string {
  const local = instantMs + clock.offsetSeconds(instantMs) * 1000;
  const seconds = Math.round((((local % DAY_MS) + DAY_MS) % DAY_MS) / 1000);
  return [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60].map(twoDigits).join(':');
}

function dayText(instantMs: number, clock: ZoneClock, date: CivilDate | undefined): string {
  if (date === undefined) return '';
  const on = clock.date(instantMs);
  const days = Math.round((civilMs(on) - civilMs(date)) / DAY_MS);
  if (days === 0) return '';
  if (days === 1) return ' +1 day';
  return days === -1 ? ' −1 day' : ` on ${formatDate(on)}`;
}
