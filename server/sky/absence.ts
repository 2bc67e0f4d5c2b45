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
  for (let step = 1; step <= withinDays; step += 1) {
    const other = daysLater(date, step);
    const sighting = dayOf(other).event(name);
    if (sighting.kind === 'at') return { date: other, instantMs: sighting.instantMs };
  }
  return undefined;
}

/** The longest stride with which the end of a spell is looked for: the sun of the far north is away for weeks at least. */
const longestStride = 16;

/**
 * The first and last date of the spell around `date` without an event of the sun: "no astronomical night from 20 May to
 * 24 July". An end is missing when the spell reaches further than so many days. Undefined when the event does happen on
 * `date`. Spells and the times between them are taken to last longer than two weeks, or to lie within two of `date`.
 */
export function spellWithout(
  name: EventName,
  date: CivilDate,
  dayOf: (date: CivilDate) => SkyDay,
  withinDays = 200,
): { readonly first?: CivilDate; readonly last?: CivilDate } | undefined {
  const happens = (days: number) => dayOf(daysLater(date, days)).event(name).kind === 'at';
  if (happens(0)) return undefined;
  const first = lastWithout(happens, -1, withinDays);
  const last = lastWithout(happens, 1, withinDays);
  return {
    ...(first === undefined ? {} : { first: daysLater(date, first) }),
    ...(last === undefined ? {} : { last: daysLater(date, last) }),
  };
}

/** How many days away the spell ends in one direction: strides that grow, then halving. */
function lastWithout(
  happens: (days: number) => boolean,
  direction: 1 | -1,
  withinDays: number,
): number | undefined {
  let without = 0;
  let stride = 1;
  while (!happens(direction * (without + stride))) {
    without += stride;
    stride = Math.min(stride * 2, longestStride);
    if (without + stride > withinDays) return undefined;
  }
  for (let half = stride / 2; half >= 1; half /= 2) {
    if (!happens(direction * (without + half))) without += half;
  }
  return direction * without;
}
