import { describe, expect, test } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import type { DayShot, DaySpot } from '../../server/schedule/day.ts';
import { shotCloudStreak, shotStreak } from '../../server/schedule/motion.ts';
import type { SpotPlace } from '../../server/schedule/place.ts';
import {
  type SceneRange,
  sceneRange,
  shotBracket,
  wayWithBracket,
  wayWithFilter,
} from '../../server/schedule/scene.ts';
import { sceneLight } from '../../server/schedule/sceneLight.ts';
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
    const { bag, thresholds } = windy.analysis;
    const found = shotShake(windy.shot, windy.visit.spot, windy.at, plan, bag, thresholds);
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

describe('Sky and foreground that are not metered', () => {
  const lightOf = (shot: string, more: Parameters<typeof shotOf>[1] = {}) => {
    const found = shotOf(shot, more);
    const { analysis, at } = found;
    return {
      ...found,
      light: sceneLight(found.shot, at, analysis.thresholds, analysis.memory.sky),
    };
  };
  const shot = (scene: string, start: string) => `        facing: 0°
        lens: wide @ 24 mm
        scene: ${scene}
        start: ${start}
`;
  const cloud = (share: string) => ({ forecast: `forecast: { hours: [{ at: 11:00, cloud: ${share} }] }\n` });

  test('are, under a closed sky, as Moon and Spencer and Lambert have them', () => {
    // L = 9E/(7π)·(1 + 2 sin h)/3 against ρE/π with ρ = 0.15: the light itself drops out. The sky of a level frame of
    // 53.1° in height reaches from 0° to 26.6°, its middle stands at 13.3°: log2(0.4092 · 0.4867 · π / 0.15) = 2.06 stops.
    const { light } = lightOf(shot('{ horizon: straight }', '12:00'), cloud('100 %'));
    const share = (9 / 7) * ((1 + 2 * Math.sin((13.2825 * Math.PI) / 180)) / 3);
    expect(light?.differenceStops).toBeCloseTo(Math.log2(share / 0.15), 3);
    expect(light?.differenceStops).toBeCloseTo(2.06, 2);
    // Ground against an incident reading E = 2.5·2^EV (C = 250, K = 12.5, ISO 2720): log2(8·0.15·2.5 / π) = −0.07 stop.
    const expected = light === undefined ? 0 : Math.log2((light.estimate?.groundLux ?? 0) / 2.5);
    expect(light?.foreground.ev100).toBeCloseTo(expected - 0.067, 3);
  });

  test('are marked by their ±, which a reading has not', () => {
    const both = lightOf(shot('{ horizon: straight }', '12:00'), cloud('20 %')).light;
    expect(both?.sky.spreadStops).toBeGreaterThan(0.5);
    expect(both?.foreground.spreadStops).toBeGreaterThan(1);
    expect(both?.spreadStops).toBeGreaterThan(1);
    const metered = lightOf(shot('{ sky: EV 14, foreground: EV 10 }', '12:00')).light;
    expect(metered).toEqual({
      sky: { ev100: 14 },
      foreground: { ev100: 10 },
      differenceStops: 4,
      spreadStops: 0,
    });
  });

  test('go by the other part where that is metered', () => {
    const free = lightOf(shot('{ horizon: straight }', '12:00')).light;
    const { light } = lightOf(shot('{ foreground: EV 11 }', '12:00'));
    expect(light?.foreground).toEqual({ ev100: 11 });
    expect(light?.sky.ev100).toBeCloseTo(11 + (free?.differenceStops ?? Number.NaN), 9);
    expect(light?.sky.spreadStops).toBe(light?.spreadStops);
  });

  test('are brighter by the sun than away from it, and the ground may be set', () => {
    const towards = lightOf(shot('{ horizon: straight }', '17:30').replace('0°', '265°')).light;
    const away = lightOf(shot('{ horizon: straight }', '17:30').replace('0°', '85°')).light;
    expect(towards?.differenceStops).toBeGreaterThan((away?.differenceStops ?? Number.NaN) + 2);
    const { shot: one, at, analysis } = shotOf(shot('{ horizon: straight }', '12:00'));
    const ofGround = (reflectance: number) =>
      sceneLight(
        one,
        at,
        { ...analysis.thresholds, 'foreground-reflectance': reflectance },
        analysis.memory.sky,
      );
    // Half the reflectance, one stop less.
    expect(
      (ofGround(0.1)?.differenceStops ?? Number.NaN) - (ofGround(0.2)?.differenceStops ?? Number.NaN),
    ).toBeCloseTo(1, 9);
  });

  test('are not guessed at in the dark, without sky in the frame, and without a scene', () => {
    expect(lightOf(shot('{ horizon: straight }', '20:00')).light).toBeUndefined();
    expect(lightOf(`${shot('{ horizon: straight }', '12:00')}        tilt: -40°\n`).light).toBeUndefined();
    expect(lightOf('        lens: wide @ 24 mm\n        start: 12:00\n').light).toBeUndefined();
  });
});

describe('The range of a scene', () => {
  const rangeOf = (lines: string) => {
    const { shot, at, analysis } = shotOf(lines);
    return sceneRange(shot, at, analysis.thresholds, analysis.memory.sky);
  };

  test.each([
    // tests/truth/bracketing.yaml: cases 02, 03 and 04 in terms of a body with twelve stops.
    ['{ range: 11 stops }', '1 stop', 0, 1],
    ['{ range: 18 stops }', '1 stop', 6, 7],
    ['{ range: 16 stops }', '1 1/2 stops', 4, 4],
  ])('%s in steps of %s', (scene, step, missing, frames) => {
    const range = rangeOf(`        scene: ${scene}\n        bracket: { frames: 1, step: ${step} }\n`);
    expect(range?.missingStops).toBe(missing);
    expect(range?.framesNeeded).toBe(frames);
  });

  test('by sky and foreground gives the graduated filter', () => {
    const range = rangeOf('        scene: { sky: EV 14, foreground: EV 10.5 }\n');
    expect(range).toMatchObject({ sceneStops: 3.5, wantedGraduatedStops: 2.5 });
  });

  test('is not known while a part of the scene cannot be read', () => {
    expect(rangeOf('        scene: { range: 17 stops, keep: lots }\n')).toBeUndefined();
  });

  test('with more than the strongest filter takes leaves frames', () => {
    // tests/truth/bracketing.yaml gives the count: scene 18 − 4, body 12, steps of 2: 1 + ceil(2 / 2) = 2; without, 4.
    const lines = '        scene: { range: 18 stops }\n        bracket: { frames: 3, step: 2 stops }\n';
    const range = rangeOf(lines) as SceneRange;
    expect(wayWithFilter(range, 4)).toEqual({ graduatedStops: 4, frames: 2, strongest: true });
    expect(wayWithFilter(range, 6)).toEqual({ graduatedStops: 6, frames: 1, strongest: false });
    // Three frames two stops apart add four stops: two are left for a filter.
    expect(wayWithBracket(range, 4)).toEqual({ graduatedStops: 2, frames: 3, strongest: false });
    expect(wayWithBracket(range, 1)).toBeUndefined();
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
