import type { CivilDate } from '../quantities/date.ts';
import { formatDate } from '../quantities/date.ts';
import { type Declination, magneticDeclination } from '../sky/declination.ts';
import { type SkyDay, type SkyOptions, skyDay } from '../sky/events.ts';
import type { Place } from '../sky/place.ts';
import { zoneAt } from '../sky/zoneLookup.ts';
import { type ZoneClock, zoneClock } from '../sky/zones.ts';
import { type ZoneUncertainty, zoneDoubt } from './zone.ts';

/**
 * What costs time to find and does not change: clocks of zones, skies of days. The caller keeps it with a document and
 * drops it when the document is closed; nothing in it depends on the text, so it may be shared or thrown away at will.
 */
export interface Memory {
  clockOf(zone: string): ZoneClock;
  zoneOf(place: Place): string;
  doubtOf(place: Place, zone: string, given: boolean, instantMs: number): ZoneUncertainty | undefined;
  skyOf(place: Place, date: CivilDate, clock: ZoneClock, options: SkyOptions, optionsKey: string): SkyDay;
  declinationOf(place: Place, date: CivilDate): Declination;
  /** Anything else that is a function of its key alone. */
  once<T>(key: string, find: () => T): T;
}

/** How many results are kept: enough for a plan of a thousand shots. */
const kept = 10_000;

export function createMemory(): Memory {
  const results = new Map<string, unknown>();

  function once<T>(key: string, find: () => T): T {
    if (results.has(key)) {
      const found = results.get(key) as T;
      // Last used, last dropped.
      results.delete(key);
      results.set(key, found);
      return found;
    }
    const found = find();
    results.set(key, found);
    if (results.size > kept) {
      const oldest = results.keys().next();
      if (oldest.done !== true) results.delete(oldest.value);
    }
    return found;
  }

  const clockOf = (zone: string) => once(`clock ${zone}`, () => zoneClock(zone));
  return {
    once,
    clockOf,
    zoneOf: (place) => once(`zone ${where(place)}`, () => zoneAt(place.latitude, place.longitude)),
    doubtOf: (place, zone, given, instantMs) =>
      once(`doubt ${where(place)} ${zone} ${given} ${Math.floor(instantMs / 86_400_000)}`, () =>
        zoneDoubt(place, zone, given, instantMs, clockOf),
      ),
    skyOf: (place, date, clock, options, optionsKey) =>
      once(`sky ${where(place)} ${formatDate(date)} ${clock.zone} ${optionsKey}`, () =>
        skyDay(place, date, clock, options),
      ),
    declinationOf: (place, date) =>
      once(`declination ${where(place)} ${formatDate(date)}`, () => magneticDeclination(place, date)),
  };
}

function where({ latitude, longitude, elevationMetres }: Place): string {
  return `${latitude} ${longitude} ${elevationMetres ?? ''}`;
}
