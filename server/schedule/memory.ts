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

/** How many results are kept, at most twice: enough for a plan of a thousand shots. */
const kept = 10_000;

export function createMemory(): Memory {
  let recent = new Map<string, { readonly found: unknown }>();
  let before = new Map<string, { readonly found: unknown }>();

  function once<T>(key: string, find: () => T): T {
    const known = recent.get(key);
    if (known !== undefined) return known.found as T;
    const result = before.get(key) ?? { found: find() };
    // What has not been asked for since the last time that so many were, is dropped.
    if (recent.size >= kept) {
      before = recent;
      recent = new Map();
    }
    recent.set(key, result);
    return result.found as T;
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
