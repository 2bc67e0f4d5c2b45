import type { CivilDate } from '../quantities/date.ts';
import type { EventName } from '../quantities/events.ts';
import { daysLater } from './civil.ts';
import type { SkyDay } from './events.ts';

/** The first date after `date` on which an event happens, and when. Undefined if there is none within so many days. */
export function nextOccurrence(
  name: EventName,
  date: CivilDate,
  dayOf: (date: CivilDate) => SkyDay,
  withinDays = 200,
): { readonly date: CivilDate; readonly instantMs: number } | undefined {
  return nearest(name, date, dayOf, withinDays, 1);
}

/** The last date before `date` on which an event happened, and when. Undefined if there is none within so many days. */
export function lastOccurrence(
  name: EventName,
  date: CivilDate,
  dayOf: (date: CivilDate) => SkyDay,
  withinDays = 200,
): { readonly date: CivilDate; readonly instantMs: number } | undefined {
  return nearest(name, date, dayOf, withinDays, -1);
}

/**
 * The first and last date of the spell around `date` without the event: "no astronomical night from 20 May to 24 July".
 * An end is missing when the spell reaches further than so many days. Undefined when the event does happen on `date`.
 */
export function spellWithout(
  name: EventName,
  date: CivilDate,
  dayOf: (date: CivilDate) => SkyDay,
  withinDays = 200,
): { readonly first?: CivilDate; readonly last?: CivilDate } | undefined {
  if (dayOf(date).event(name).kind === 'at') {
    return undefined;
  }
  const before = lastOccurrence(name, date, dayOf, withinDays);
  const after = nextOccurrence(name, date, dayOf, withinDays);
  return {
    ...(before && { first: daysLater(before.date, 1) }),
    ...(after && { last: daysLater(after.date, -1) }),
  };
}

function nearest(
  name: EventName,
  date: CivilDate,
  dayOf: (date: CivilDate) => SkyDay,
  withinDays: number,
  direction: 1 | -1,
): { readonly date: CivilDate; readonly instantMs: number } | undefined {
  for (let step = 1; step <= withinDays; step++) {
    const other = daysLater(date, direction * step);
    const sighting = dayOf(other).event(name);
    if (sighting.kind === 'at') {
      return { date: other, instantMs: sighting.instantMs };
    }
  }
  return undefined;
}
