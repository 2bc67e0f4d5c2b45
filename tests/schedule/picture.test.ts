import { describe, expect, test } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import type { DayShot, DaySpot } from '../../server/schedule/day.ts';
import { shotCloudStreak, shotStreak } from '../../server/schedule/motion.ts';
import type { SpotPlace } from '../../server/schedule/place.ts';
import { sceneRange, shotBracket } from '../../server/schedule/scene.ts';
import { shotShake } from '../../server/schedule/shake.ts';
import { shotMoon, starLimits, trailArc } from '../../server/schedule/stars.ts';
import { bodiesBehind, subjectView } from '../../server/schedule/subject.ts';
import { analysed } from '../support/check.ts';

/** Pixels of 36 mm / 8256 = 4.36 µm; the body of the small kit holds twelve stops. */
function shotOf(
  shot: string,
  { spot = '', forecast = '', date = '2027-03-20', at = '54.4301, -2.6102' } = {},
): { analysis: Analysis; visit: DaySpot; at: SpotPlace; shot: DayShot } {
  const analysis = analysed(`plan: A day
date: ${date}
timezone: Europe/London
kit: ../kit/field-bag.shootkit.yaml
${forecast}spots:
  - id: a
    at: ${at}
    arrive: 05:00
${spot}    shots:
      - id: b
${shot}`);
  const visit = analysis.day?.spots[0] as DaySpot;
  return { analysis, visit, at: visit.at as SpotPlace, shot: visit.shots[0] as DayShot };
}

describe('The subject', () => {
  const tower = `        subject: { at: "54.4301, -2.5602", height: 100 m, elevation: 300 m }
        lens: wide @ 24 mm
        facing: 90°
        start: 06:00
`;

  test('stands in the frame by bearing, distance, height and size', () => {
    const { shot, visit, at, analysis } = shotOf(tower, { spot: '    elevation: 200 m\n' });
    const view = subjectView(shot, visit.spot, at, analysis.memory.sky);
    // 0.05° of longitude at this latitude on WGS 84: N·cos φ·Δλ with N = 6392.3 km: 3244 m.
    expect(view?.distanceMetres).toBeCloseTo(3244, -1);
    expect(view?.bearingDegrees).toBeCloseTo(90, 0);
    expect(view?.footDegrees).toBeCloseTo((Math.atan(100 / 3244) * 180) / Math.PI, 2);
    expect(view?.topDegrees).toBeCloseTo((Math.atan(200 / 3244) * 180) / Math.PI, 2);
    // 24 mm · 100 m / 3244 m = 0.74 mm of 24 mm, in 5504 pixels: 170.
    expect(view?.size?.millimetres).toBeCloseTo(0.74, 2);
    expect(view?.size?.pixels).toBeCloseTo(169.7, 0);
    expect(view?.inFrame).toBe(true);
  });

  test('is not known without a distance', () => {
    const { shot, visit, at, analysis } = shotOf('        subject: { height: 10 m }\n        start: 06:00\n');
    expect(subjectView(shot, visit.spot, at, analysis.memory.sky)).toBeUndefined();
  });

  test('has sun and moon in line once a day at most', () => {
    const { shot, visit, at, analysis } = shotOf(tower);
    const view = subjectView(shot, visit.spot, at, analysis.memory.sky);
    const passages = bodiesBehind(view as NonNullable<typeof view>, at, analysis.memory.sky);
    const suns = passages.filter(({ body }) => body === 'sun');
    // On the equinox the sun rises almost due east: in line within half an hour of sunrise, 06:13 UT.
    expect(suns).toHaveLength(1);
    const rise = Date.UTC(2027, 2, 20, 6, 13);
    expect(Math.abs((suns[0]?.atMs as number) - rise)).toBeLessThan(30 * 60_000);
    expect(suns[0]?.behind).toBe(true);
  });
});

describe('Motion', () => {
  const spot = '    water: { kind: river, speed: 2 m/s, distance: 10 m }\n';

  test('of water is focal · speed · time / distance', () => {
    const { shot, visit } = shotOf('        lens: wide @ 35 mm\n        shutter: 1 s\n', { spot });
    expect(shotStreak(shot, visit.spot)).toMatchObject({ millimetres: 7, seconds: 1, distanceMetres: 10 });
    expect(shotStreak(shot, visit.spot)?.share).toBeCloseTo(7 / 36, 9);
  });

  test('of clouds needs wind aloft and cloud base', () => {
    const lines = '        lens: wide @ 24 mm\n        shutter: 120 s\n        start: 10:00\n';
    const hour = (more: string) => ({ forecast: `forecast: { hours: [{ at: 09:00${more} }] }\n` });
    const full = shotOf(lines, hour(', cloud-base: 2000 m, wind-aloft: 10 m/s'));
    const plan = full.analysis.plan?.model as NonNullable<Analysis['plan']>['model'];
    // 24 mm · 10 m/s · sin 20° / 2000 m · 120 s = 4.925 mm.
    expect(shotCloudStreak(full.shot, full.at, plan)?.millimetres).toBeCloseTo(4.925, 3);
    const bare = shotOf(lines, hour(''));
    expect(shotCloudStreak(bare.shot, bare.at, bare.analysis.plan?.model as typeof plan)).toBeUndefined();
  });

  test('of the tripod: wind limits fall with the root of the focal length', () => {
    const windy = shotOf('        lens: wide @ 24 mm\n        shutter: 10 s\n        start: 10:00\n', {
      forecast: 'forecast: { hours: [{ at: 09:00, wind: 31 km/h }] }\n',
      spot: '    stance: { on: pier }\n',
    });
    const plan = windy.analysis.plan?.model as NonNullable<Analysis['plan']>['model'];
    const found = shotShake(windy.shot, windy.visit.spot, windy.at, plan, windy.analysis.thresholds);
    expect(found?.risks.map(({ factor }) => factor)).toEqual(['ground moves', 'wind']);
  });
});

describe('Stars', () => {
  test('move by pixels, fastest at the declination in the frame nearest to the equator', () => {
    const { shot, at, analysis } = shotOf(
      '        facing: 180°\n        tilt: 30°\n        lens: wide @ 24 mm\n        aperture: f/4\n        shutter: 20 s\n        start: 23:00\n',
    );
    const limits = starLimits(shot, at, analysis.memory.sky);
    expect(limits?.declination).toBe(0);
    // 4.36 µm / (24 mm · 7.292e-5) = 2.49 s: geometry. The dial's 20 s is 20.16 s: 8.1 pixels.
    expect(limits?.pixelSeconds).toBeCloseTo(2.492, 2);
    expect(limits?.pixels).toBeCloseTo(20.16 / 2.492, 1);
    // (35 · 4 + 30 · 4.36) / 24 = 11.3 s, coefficients from memory.
    expect(limits?.npfSeconds).toBeCloseTo(11.28, 1);
  });

  test('draw arcs of 15.041° an hour over all frames and gaps', () => {
    const { shot } = shotOf('        shutter: 10 min\n        frames: 6\n        gap: 1 s\n');
    expect(trailArc(shot)).toBeCloseTo((15.041 * 3605) / 3600, 3);
  });

  test('have the moon among them or not', () => {
    // Full moon on 2027-03-22 at 10:44 UT, from an almanac: the evening before it stands in the east.
    const { shot, at } = shotOf('        start: 21:00\n', { date: '2027-03-21' });
    const moon = shotMoon(shot, at);
    expect(moon?.up).toBe(true);
    expect(moon?.illuminatedFraction).toBeGreaterThan(0.98);
    expect(moon?.inFrame).toBeUndefined();
  });
});

describe('The range of a scene', () => {
  test.each([
    // tests/truth/bracketing.yaml: cases 02, 03 and 04 in terms of a body with twelve stops.
    ['{ range: 11 stops }', '1 stop', 0, 1],
    ['{ range: 18 stops }', '1 stop', 6, 7],
    ['{ range: 16 stops }', '1 1/2 stops', 4, 4],
  ])('%s in steps of %s', (scene, step, missing, frames) => {
    const { shot } = shotOf(`        scene: ${scene}\n        bracket: { frames: 1, step: ${step} }\n`);
    const range = sceneRange(shot);
    expect(range?.missingStops).toBe(missing);
    expect(range?.framesNeeded).toBe(frames);
  });

  test('by sky and foreground gives the graduated filter', () => {
    const { shot } = shotOf('        scene: { sky: EV 14, foreground: EV 10.5 }\n');
    expect(sceneRange(shot)).toMatchObject({ sceneStops: 3.5, wantedGraduatedStops: 2.5 });
  });

  test('is not known while a part of the scene cannot be read', () => {
    const { shot } = shotOf('        scene: { range: 17 stops, keep: lots }\n');
    expect(sceneRange(shot)).toBeUndefined();
  });

  test('is bracketed by what the dial can set', () => {
    const { shot } = shotOf(
      '        aperture: f/11\n        metered: 1/4 s\n        bracket: { frames: 3, step: 2 stops }\n',
    );
    const labels = shotBracket(shot)?.frames.map(({ setting }) =>
      setting.kind === 'dial' ? setting.label : '',
    );
    expect(labels).toEqual(['1/15 s', '1/4 s', '1 s']);
  });
});
