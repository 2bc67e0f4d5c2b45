import type { CivilDate } from '../quantities/date.ts';

const DAY_MS = 86_400_000;
const DAYS_IN_400_YEARS = 146_097;

/** A civil date and clock time read as if the zone were UTC, in epoch milliseconds. */
export function civilMs(date: CivilDate, hour = 0, minute = 0, second = 0): number {
  // Date.UTC takes the years 0 to 99 for 1900 to 1999; the calendar repeats every 400 years.
  return (
    Date.UTC(date.year + 400, date.month - 1, date.day, hour, minute, second) - DAYS_IN_400_YEARS * DAY_MS
  );
}

/** The civil date of an instant in UTC; with the offset added, the local one. */
export function civilDate(ms: number): CivilDate {
  const at = new Date(ms);
  return { year: at.getUTCFullYear(), month: at.getUTCMonth() + 1, day: at.getUTCDate() };
}

/** The date so many days later; negative for earlier. */
export function daysLater(date: CivilDate, days: number): CivilDate {
  return civilDate(civilMs(date) + days * DAY_MS);
}
