import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moonPosition, sunPosition, sunSemidiameterDegrees } from '../../server/sky/bodies.ts';
import { type Sighting, skyDay } from '../../server/sky/events.ts';
import { apparentAltitudeDegrees } from '../../server/sky/refraction.ts';
import { crossings, monotoneSamples } from '../../server/sky/scan.ts';
import { type Skyline, skyline, visibleIntervals } from '../../server/sky/skyline.ts';
import { zoneClock } from '../../server/sky/zones.ts';

const MINUTE_MS = 60_000;
const place = { latitude: 54.43, longitude: -2.61 };
const date = { year: 2027, month: 3, day: 20 };
const clock = zoneClock('Europe/London');
const { startMs, endMs } = clock.day(date);

function points(...pairs: [number, number][]): Skyline {
  return skyline(pairs.map(([azimuthDegrees, altitudeDegrees]) => ({ azimuthDegrees, altitudeDegrees })));
}

function timesOf(sighting: Sighting): readonly number[] {
  return sighting.kind === 'at' ? [sighting.instantMs, ...sighting.others] : [];
}

/** The same question answered the slow way: by looking every ten seconds. */
function sunUpSteps(over: Skyline, semidiameter: number): boolean[] {
  return Array.from({ length: (endMs - startMs) / 10_000 }, (_, index) => {
    const seen = sunPosition(startMs + index * 10_000, place);
    const limb = apparentAltitudeDegrees(seen.altitudeDegrees + semidiameter);
    return limb >= over.altitudeDegrees(seen.azimuthDegrees);
  });
}

describe('a skyline', () => {
  it('runs straight between its directions and around through north', () => {
    const land = points([90, 6], [135, 9], [180, 4]);
    expect(land.altitudeDegrees(90)).toBeCloseTo(6, 12);
    expect(land.altitudeDegrees(112.5)).toBeCloseTo(7.5, 12);
    expect(land.altitudeDegrees(180)).toBeCloseTo(4, 12);
    // From south (4°) through west and north to east (6°): 270° of turn.
    expect(land.altitudeDegrees(0)).toBeCloseTo(4 + (2 * 180) / 270, 12);
    expect(land.altitudeDegrees(360)).toBeCloseTo(land.altitudeDegrees(0), 12);
    expect(land.altitudeDegrees(-90)).toBeCloseTo(land.altitudeDegrees(270), 12);
    expect(land.altitudeDegrees(450)).toBeCloseTo(6, 12);
  });

  it('is level without a direction, and a ring with one', () => {
    expect(points().altitudeDegrees(123)).toBe(0);
    expect(points([200, 7]).altitudeDegrees(20)).toBeCloseTo(7, 12);
    expect(points([90, 2], [90, 8], [450, 5]).altitudeDegrees(90)).toBeCloseTo(8, 12);
  });

  it('stays between its lowest and highest direction', () => {
    const pair = fc.tuple(
      fc.double({ min: -720, max: 720, noNaN: true }),
      fc.double({ min: -5, max: 60, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(pair, { minLength: 1, maxLength: 12 }),
        fc.double({ min: -720, max: 720, noNaN: true }),
        (pairs, azimuth) => {
          const height = points(...pairs).altitudeDegrees(azimuth);
          const altitudes = pairs.map(([, altitude]) => altitude);
          expect(height).toBeGreaterThanOrEqual(Math.min(...altitudes) - 1e-9);
          expect(height).toBeLessThanOrEqual(Math.max(...altitudes) + 1e-9);
        },
      ),
    );
  });
});

describe('the sun over the skyline', () => {
  const land: readonly (readonly [string, Skyline])[] = [
    ['level', points()],
    ['the head of a valley', points([90, 6], [135, 9], [180, 4])],
    ['a tower of one degree', points([139, 3], [139.5, 30], [140, 3])],
    [
      'a broken ridge',
      points([80, 2], [95, 14], [100, 4], [120, 22], [126, 6], [150, 34], [158, 10], [240, 12], [250, 3]),
    ],
    ['a wall', points([0, 70])],
    ['a sea horizon below the eye', points([0, -0.4])],
  ];

  it.each(land)('%s: the spells are those found by looking every ten seconds', (_, over) => {
    const spells = visibleIntervals('sun', place, startMs, endMs, over);
    const semidiameter = sunSemidiameterDegrees((startMs + endMs) / 2);
    const steps = sunUpSteps(over, semidiameter);
    const edges = steps.flatMap((up, index) =>
      index > 0 && up !== steps[index - 1] ? [startMs + index * 10_000] : [],
    );
    const found = spells.flatMap((spell) => [spell.startMs, spell.endMs]);
    expect(found).toHaveLength(edges.length);
    found.forEach((ms, index) => {
      const edge = edges[index] as number;
      expect(edge - ms).toBeGreaterThanOrEqual(-1);
      expect(edge - ms).toBeLessThanOrEqual(10_001);
    });
  });

  it.each(land.slice(0, 4))('%s: the events are the edges of the spells', (_, over) => {
    const day = skyDay(place, date, clock, { skyline: over });
    const spells = visibleIntervals('sun', place, startMs, endMs, over);
    expect(timesOf(day.event('sun clears skyline'))).toEqual(spells.map((spell) => spell.startMs));
    expect(timesOf(day.event('sun leaves skyline'))).toEqual(spells.map((spell) => spell.endMs));
  });

  it('comes near sunrise and sunset over a level horizon: the two refractions differ by 5 minutes of arc', () => {
    const day = skyDay(place, date, clock, { skyline: points() });
    const [clears, sunrise] = [day.event('sun clears skyline'), day.event('sunrise')].map(
      (sighting) => timesOf(sighting)[0] as number,
    ) as [number, number];
    expect(Math.abs(clears - sunrise)).toBeLessThan(MINUTE_MS);
  });

  it('says so when it never clears a wall, by how much', () => {
    const day = skyDay(place, date, clock, { skyline: points([0, 70]) });
    const clears = day.event('sun clears skyline');
    expect(clears).toMatchObject({ kind: 'never' });
    expect(clears.kind === 'never' && clears.reason).toMatch(
      /^the sun stays behind the skyline all day \(at best 3\d\.\d° under it\)$/,
    );
    expect(visibleIntervals('sun', place, startMs, endMs, points([0, 70]))).toEqual([]);
  });

  it('is seen all of a polar day', () => {
    const from = Date.UTC(2026, 5, 21);
    const to = from + 86_400_000;
    const north = { latitude: 78, longitude: 15 };
    expect(visibleIntervals('sun', north, from, to, points())).toEqual([{ startMs: from, endMs: to }]);
    expect(visibleIntervals('sun', north, to, from, points())).toEqual([]);
  });
});

describe('the moon over the skyline', () => {
  it('is where its position puts it', () => {
    const over = points([90, 10], [200, 3], [300, 12]);
    const spells = visibleIntervals('moon', place, startMs, endMs, over);
    expect(spells.length).toBeGreaterThan(0);
    for (let ms = startMs; ms < endMs; ms += 5 * MINUTE_MS) {
      const moon = moonPosition(ms, place);
      const limb = apparentAltitudeDegrees(moon.altitudeDegrees + moon.semidiameterDegrees);
      const clearance = limb - over.altitudeDegrees(moon.azimuthDegrees);
      const inside = spells.some((spell) => spell.startMs <= ms && ms < spell.endMs);
      // Within a minute of an edge either answer will do.
      if (Math.abs(clearance) > 0.25) expect(inside, new Date(ms).toISOString()).toBe(clearance > 0);
    }
    const day = skyDay(place, date, clock, { skyline: over });
    const inDay = [
      ...timesOf(day.event('moon clears skyline')),
      ...timesOf(day.event('moon leaves skyline')),
    ];
    expect(inDay.length).toBeGreaterThan(0);
  });
});

describe('the search for crossings', () => {
  it('finds every crossing of a wave, also the ones that hardly reach the level', () => {
    const period = 86_400_000;
    const wave = (ms: number) => Math.sin((2 * Math.PI * ms) / period);
    const nodes = Array.from({ length: 25 }, (_, hour) => (hour * period) / 24);
    const samples = monotoneSamples(wave, nodes);
    for (const level of [-0.9999999, -0.5, 0.25, 0.99, 0.9999999]) {
      const found = crossings(wave, samples, level);
      expect(found, `${level}`).toHaveLength(2);
      for (const { instantMs } of found) {
        // A millisecond of time is 7e-8 of the wave.
        expect(wave(instantMs)).toBeCloseTo(level, 6);
      }
    }
    expect(crossings(wave, samples, 1.0000001)).toEqual([]);
  });

  it('keeps to the last of a millisecond where the curve is steep, and finds the crossing at a kink', () => {
    const step = (ms: number) => (ms < 1_234_567.4 ? -1 : 1) * Math.sqrt(Math.abs(ms - 1_234_567.4));
    const found = crossings(step, monotoneSamples(step, [0, 5_000_000]), 0);
    expect(found.map(({ instantMs }) => instantMs)).toEqual([1_234_567]);
  });
});
