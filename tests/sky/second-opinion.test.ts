import * as astronomy from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import type { CivilDate } from '../../server/quantities/date.ts';
import type { EventName } from '../../server/quantities/events.ts';
import { moonPosition, sunDistanceAu, sunPosition } from '../../server/sky/bodies.ts';
import { civilDate, daysLater } from '../../server/sky/civil.ts';
import { type Sighting, skyDay } from '../../server/sky/events.ts';
import type { Place } from '../../server/sky/place.ts';
import { zoneClock } from '../../server/sky/zones.ts';

/*
 * The same questions put to astronomy-engine 2.1.19 (MIT), whose positions rest on other series (truncated VSOP87 with
 * nutation by IAU 2000B, and a moon after Montenbruck and Pfleger) and whose rise and set are found by another search.
 */

const rad = Math.PI / 180;
const utc = zoneClock('UTC');

/** Numbers from 0 to 1 that are the same in every run: a linear congruential generator. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Places evenly over latitude, so that a quarter lies beyond 65°, and instants from 1950 to 2100. */
function cases(count: number, seed: number): { place: Place; instantMs: number }[] {
  const next = numbers(seed);
  const from = Date.UTC(1950, 0, 1);
  const to = Date.UTC(2100, 0, 1);
  return Array.from({ length: count }, () => ({
    place: { latitude: next() * 179.8 - 89.9, longitude: next() * 360 - 180 },
    instantMs: Math.floor(from + next() * (to - from)),
  }));
}

function theirs(
  body: astronomy.Body,
  instantMs: number,
  place: Place,
): { altitude: number; azimuth: number } {
  const observer = new astronomy.Observer(place.latitude, place.longitude, 0);
  const at = new Date(instantMs);
  const equator = astronomy.Equator(body, at, observer, true, true);
  return astronomy.Horizon(at, observer, equator.ra, equator.dec);
}

function turn(a: number, b: number): number {
  const rest = Math.abs(a - b) % 360;
  return Math.min(rest, 360 - rest);
}

describe('positions beside those of astronomy-engine, 1950 to 2100', () => {
  it.each([
    // The two keep different guesses of delta T for the future, worth 0.001° of the sun.
    ['sun', astronomy.Body.Sun, sunPosition, 0.002],
    // Both series of the moon are abridged; 10 arc-seconds are 0.003°.
    ['moon', astronomy.Body.Moon, moonPosition, 0.006],
  ] as const)('%s', (_, body, ours, tolerance) => {
    const all = cases(3000, 20_260_610);
    expect(all.filter(({ place }) => Math.abs(place.latitude) > 65).length).toBeGreaterThan(700);
    for (const { place, instantMs } of all) {
      const seen = ours(instantMs, place);
      const other = theirs(body, instantMs, place);
      const what = `${place.latitude}, ${place.longitude} ${new Date(instantMs).toISOString()}`;
      expect(Math.abs(seen.altitudeDegrees - other.altitude), what).toBeLessThan(tolerance);
      const off = turn(seen.azimuthDegrees, other.azimuth) * Math.cos(other.altitude * rad);
      expect(off, what).toBeLessThan(tolerance);
    }
  });

  it('distance and light of the moon, distance of the sun', () => {
    for (const { place, instantMs } of cases(500, 7)) {
      const at = new Date(instantMs);
      const moon = moonPosition(instantMs, place);
      const light = astronomy.Illumination(astronomy.Body.Moon, at);
      const vector = astronomy.GeoMoon(at);
      expect(Math.abs(moon.distanceKm - vector.Length() * astronomy.KM_PER_AU)).toBeLessThan(60);
      expect(Math.abs(moon.illuminatedFraction - light.phase_fraction)).toBeLessThan(0.0005);
      expect(turn(moon.elongationDegrees, astronomy.MoonPhase(at))).toBeLessThan(0.02);
      const sun = astronomy.GeoVector(astronomy.Body.Sun, at, true);
      expect(Math.abs(sunDistanceAu(instantMs) - sun.Length())).toBeLessThan(0.00003);
    }
  });
});

/** One way to find the same event: the other library's search from a start, so many days ahead. */
interface Search {
  readonly name: EventName;
  readonly tolerance: number;
  readonly find: (observer: astronomy.Observer, from: Date, days: number) => astronomy.AstroTime | null;
  /** Their altitude above the level of the event, to judge how fast it is passed. */
  readonly above: (place: Place, instantMs: number) => number;
}

function sunSearch(name: EventName, direction: 1 | -1, level: number): Search {
  return {
    name,
    tolerance: 0.003,
    find: (observer, from, days) =>
      astronomy.SearchAltitude(astronomy.Body.Sun, observer, direction, from, days, level),
    above: (place, instantMs) => theirs(astronomy.Body.Sun, instantMs, place).altitude - level,
  };
}

function moonSearch(name: EventName, direction: 1 | -1): Search {
  return {
    name,
    tolerance: 0.008,
    find: (observer, from, days) =>
      astronomy.SearchRiseSet(astronomy.Body.Moon, observer, direction, from, days),
    above: (place, instantMs) => {
      const observer = new astronomy.Observer(place.latitude, place.longitude, 0);
      const { dist } = astronomy.Equator(astronomy.Body.Moon, new Date(instantMs), observer, true, true);
      const semidiameter = Math.asin(1737.4 / (dist * astronomy.KM_PER_AU)) / rad;
      return theirs(astronomy.Body.Moon, instantMs, place).altitude + semidiameter + 34 / 60;
    },
  };
}

const searches: readonly Search[] = [
  sunSearch('sunrise', 1, -50 / 60),
  sunSearch('sunset', -1, -50 / 60),
  sunSearch('civil dawn', 1, -6),
  sunSearch('civil dusk', -1, -6),
  sunSearch('nautical dawn', 1, -12),
  sunSearch('nautical dusk', -1, -12),
  sunSearch('astronomical dawn', 1, -18),
  sunSearch('astronomical dusk', -1, -18),
  sunSearch('morning golden hour end', 1, 6),
  sunSearch('evening blue hour start', -1, -4),
  moonSearch('moonrise', 1),
  moonSearch('moonset', -1),
];

function timesOf(sighting: Sighting): readonly number[] {
  return sighting.kind === 'at' ? [sighting.instantMs, ...sighting.others] : [];
}

/** All their times between two instants. */
function theirTimes(search: Search, place: Place, startMs: number, endMs: number): number[] {
  const observer = new astronomy.Observer(place.latitude, place.longitude, 0);
  const found: number[] = [];
  let fromMs = startMs;
  while (fromMs < endMs) {
    const time = search.find(observer, new Date(fromMs), (endMs - fromMs) / 86_400_000);
    const atMs = time?.date.getTime();
    if (atMs === undefined || atMs >= endMs) break;
    found.push(atMs);
    fromMs = atMs + 60_000;
  }
  return found;
}

/**
 * Whether an event at this instant can be doubted: within the tolerance of altitude the body may as well miss the level.
 * So it is when its extremum is that near, or when the event lies so close to an end of the day that it may fall outside.
 */
function isGrazing(search: Search, place: Place, atMs: number, startMs: number, endMs: number): boolean {
  const spread = 3_600_000;
  const offsets = Array.from({ length: 121 }, (_, index) => (index / 60 - 1) * spread);
  const values = offsets.map((offset) => search.above(place, atMs + offset));
  const highest = Math.max(...values);
  const lowest = Math.min(...values);
  const slowestPass = Math.min(highest, -lowest);
  const nearEnd = Math.min(Math.abs(atMs - startMs), Math.abs(endMs - atMs)) < 120_000;
  return slowestPass < search.tolerance || nearEnd;
}

/** Seconds that the body needs for the tolerance of altitude at this instant. */
function allowedSeconds(search: Search, place: Place, atMs: number): number {
  const step = 20_000;
  const perSecond =
    Math.abs(search.above(place, atMs + step) - search.above(place, atMs - step)) / ((2 * step) / 1000);
  return 1 + search.tolerance / perSecond;
}

describe('events beside those of astronomy-engine', () => {
  it.each(searches.map((search) => [search.name, search] as const))('%s', (_, search) => {
    let compared = 0;
    let grazing = 0;
    let none = 0;
    for (const { place, instantMs } of cases(1000, 1_234_567)) {
      const day = skyDay(place, civilDate(instantMs), utc);
      const ours = timesOf(day.event(search.name));
      const others = theirTimes(search, place, day.startMs, day.endMs);
      const what = `${place.latitude}, ${place.longitude} ${new Date(day.startMs).toISOString()}`;
      if (ours.length === 0 && others.length === 0) none++;
      for (const atMs of ours) {
        const nearest = others.reduce(
          (best, other) => (Math.abs(other - atMs) < Math.abs(best - atMs) ? other : best),
          Number.POSITIVE_INFINITY,
        );
        const off = Math.abs(nearest - atMs) / 1000;
        if (off <= allowedSeconds(search, place, atMs)) {
          compared++;
        } else {
          expect(
            isGrazing(search, place, atMs, day.startMs, day.endMs),
            `${what}: only here, off by ${off} s`,
          ).toBe(true);
          grazing++;
        }
      }
      for (const other of others) {
        const off = Math.min(...ours.map((atMs) => Math.abs(other - atMs) / 1000));
        if (off > allowedSeconds(search, place, other)) {
          expect(
            isGrazing(search, place, other, day.startMs, day.endMs),
            `${what}: only there, off by ${off} s`,
          ).toBe(true);
          grazing++;
        }
      }
    }
    // Grazing passes are rare; were they many, the comparison would say little.
    expect(compared).toBeGreaterThan(400);
    expect(grazing).toBeLessThanOrEqual(5);
    expect(none).toBeGreaterThan(40);
  });

  it('solar noon and the moon’s transit', () => {
    for (const { place, instantMs } of cases(200, 99)) {
      const day = skyDay(place, civilDate(instantMs), utc);
      const observer = new astronomy.Observer(place.latitude, place.longitude, 0);
      for (const [name, body] of [
        ['solar noon', astronomy.Body.Sun],
        ['moon transit', astronomy.Body.Moon],
      ] as const) {
        const found = astronomy
          .SearchHourAngle(body, observer, 0, new Date(day.startMs), 1)
          .time.date.getTime();
        const ours = timesOf(day.event(name));
        if (ours.length === 0) {
          expect(found).toBeGreaterThan(day.endMs - 3000);
        } else {
          expect(Math.abs((ours[0] as number) - found) / 1000, name).toBeLessThan(3);
        }
      }
    }
  });

  it('beyond 65°, day by day through a year: nothing is lost and nothing invented', () => {
    const place = { latitude: 69.65, longitude: 15 };
    const sunrise = searches[0] as Search;
    const moonrise = searches.at(-2) as Search;
    let date: CivilDate = { year: 2026, month: 1, day: 1 };
    for (let index = 0; index < 365; index++, date = daysLater(date, 1)) {
      const day = skyDay(place, date, utc);
      for (const search of [sunrise, moonrise]) {
        const ours = timesOf(day.event(search.name));
        const others = theirTimes(search, place, day.startMs, day.endMs);
        expect(ours.length, `${search.name} on ${JSON.stringify(date)}`).toBe(others.length);
        ours.forEach((atMs, at) => {
          expect(Math.abs(atMs - (others[at] as number)) / 1000).toBeLessThanOrEqual(
            allowedSeconds(search, place, atMs),
          );
        });
      }
    }
  });
});
