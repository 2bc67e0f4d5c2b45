import lookUp from '@photostructure/tz-lookup';
import { RADIANS, within180 } from './angles.ts';
import type { Place } from './place.ts';
import { type ZoneClock, zoneClock } from './zones.ts';

/** How far the looked-up borders may be wrong: near 69° N 29° E the map is out by 28 km. A zone this near is not ruled out. */
const DOUBT_KM = 30;
const KM_PER_DEGREE = 111.2;

/** The time zone at a place by a simplified map, the more doubtful the nearer a border is. Latitude -90 to 90. */
export function zoneAt(latitude: number, longitude: number): string {
  return lookUp(Math.max(-90, Math.min(90, latitude)), within180(longitude));
}

/** A zone and its offset from UTC at the instant in question. */
export interface ZoneOffset {
  readonly zone: string;
  readonly offsetSeconds: number;
}

/**
 * The zones on land within about 30 km, the looked-up one first. Those of the open sea are left out unless the place
 * itself lies in one: they follow the meridians, not the coast.
 */
export function zonesNear(place: Place): readonly string[] {
  const zones = new Set([zoneAt(place.latitude, place.longitude)]);
  const eastShrink = Math.max(0.01, Math.cos(RADIANS * place.latitude));
  for (const distance of [DOUBT_KM / 3, (2 * DOUBT_KM) / 3, DOUBT_KM]) {
    for (let bearing = 0; bearing < 360; bearing += 45) {
      const north = (distance * Math.cos(RADIANS * bearing)) / KM_PER_DEGREE;
      const east = (distance * Math.sin(RADIANS * bearing)) / KM_PER_DEGREE / eastShrink;
      const zone = zoneAt(place.latitude + north, place.longitude + east);
      if (!zone.startsWith('Etc/')) {
        zones.add(zone);
      }
    }
  }
  return [...zones];
}

/**
 * When the zone was looked up: the zones within about 30 km whose clocks show another time at that instant, so that the
 * plan had better name its zone. Undefined when there is no doubt.
 */
export function zoneUncertainty(
  place: Place,
  instantMs: number,
  clockOf: (zone: string) => ZoneClock = zoneClock,
):
  | { readonly zone: string; readonly offsetSeconds: number; readonly others: readonly ZoneOffset[] }
  | undefined {
  const [own, ...near] = offsets(zonesNear(place), instantMs, clockOf);
  if (own === undefined) {
    return undefined;
  }
  const others = near.filter((other) => other.offsetSeconds !== own.offsetSeconds);
  return others.length === 0 ? undefined : { ...own, others };
}

/**
 * When the zone was given: what the coordinates say, if no zone within about 30 km shows the same time at that instant.
 * Undefined when they agree. The given zone stands either way.
 */
export function zonesDisagree(
  place: Place,
  zone: string,
  instantMs: number,
  clockOf: (zone: string) => ZoneClock = zoneClock,
): { readonly given: ZoneOffset; readonly lookedUp: ZoneOffset } | undefined {
  const given = { zone, offsetSeconds: clockOf(zone).offsetSeconds(instantMs) };
  const here = zoneAt(place.latitude, place.longitude);
  if (here === zone || clockOf(here).offsetSeconds(instantMs) === given.offsetSeconds) {
    return undefined;
  }
  const near = offsets(zonesNear(place), instantMs, clockOf);
  const lookedUp = near[0];
  if (lookedUp === undefined || near.some((other) => other.offsetSeconds === given.offsetSeconds)) {
    return undefined;
  }
  return { given, lookedUp };
}

function offsets(
  zones: readonly string[],
  instantMs: number,
  clockOf: (zone: string) => ZoneClock,
): ZoneOffset[] {
  return zones.map((zone) => ({ zone, offsetSeconds: clockOf(zone).offsetSeconds(instantMs) }));
}
