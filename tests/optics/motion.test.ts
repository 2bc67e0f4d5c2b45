import { describe, expect, it } from 'vitest';
import { cloudStreak, secondsForPixels, streak } from '../../server/optics/motion.ts';
import { shakeRisks, windLimit } from '../../server/optics/shake.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('motion_blur', 4, (input) => {
  const seconds = numberOf(input.time_s);
  const pitchMicrometres = 'pixel_um' in input ? numberOf(input.pixel_um) : 4.3;
  const screen = { focal: numberOf(input.focal_mm), pitchMicrometres, sideMillimetres: 36 };
  if ('wind_m_s' in input) {
    const clouds = {
      windMetresPerSecond: numberOf(input.wind_m_s),
      heightMetres: numberOf(input.cloud_height_m),
      elevationDegrees: numberOf(input.elevation_deg),
      seconds,
    };
    const { degreesPerSecond, sweptDegrees } = cloudStreak(clouds, screen);
    return { angular_speed_deg_s: degreesPerSecond, angle_swept_deg: sweptDegrees };
  }
  const water = {
    speedMetresPerSecond: numberOf(input.speed_m_s),
    distanceMetres: numberOf(input.distance_m),
    seconds,
  };
  const { millimetres, pixels } = streak(water, screen);
  return { blur_mm: millimetres, blur_px: pixels };
});

const screen = { focal: 24, pitchMicrometres: 4.36, sideMillimetres: 36 };

describe('a streak', () => {
  const water = { speedMetresPerSecond: 1, distanceMetres: 10, seconds: 15 };

  it('runs through the whole frame in 15 s at 24 mm and 1 m/s in 10 m', () => {
    expect(streak(water, screen)).toMatchObject({ millimetres: 36, share: 1 });
  });

  it('is half as long at 30° to the line of sight, and a point along it', () => {
    expect(streak({ ...water, angleDegrees: 30 }, screen).millimetres).toBeCloseTo(18, 9);
    expect(streak({ ...water, angleDegrees: 0 }, screen).millimetres).toBe(0);
  });

  it('takes the time that its length asks for', () => {
    const seconds = secondsForPixels(200, water, screen);
    expect(streak({ ...water, seconds }, screen).pixels).toBeCloseTo(200, 9);
  });
});

describe('clouds', () => {
  it('move as things at their distance do', () => {
    const clouds = { windMetresPerSecond: 12, heightMetres: 1000, elevationDegrees: 30, seconds: 20 };
    const same = streak({ speedMetresPerSecond: 12, distanceMetres: 2000, seconds: 20 }, screen);
    expect(cloudStreak(clouds, screen).millimetres).toBeCloseTo(same.millimetres, 9);
    expect(cloudStreak({ ...clouds, elevationDegrees: 0 }, screen).pixels).toBe(0);
  });
});

describe('shake', () => {
  const calm = { seconds: 4, equivalentFocal: 24 };

  it('is named by what causes it', () => {
    const input = { ...calm, windMetresPerSecond: 10, remoteRelease: false };
    const factors = (ground: string) => shakeRisks({ ...input, ground }).map(({ factor }) => factor);
    expect(factors('footbridge')).toEqual(['ground moves', 'wind', 'hand on the release']);
    expect(factors('sand')).toEqual(['wind', 'ground sinks', 'hand on the release']);
    expect(factors('wall')).toEqual(['wind', 'wall', 'hand on the release']);
    expect(factors('rock')).toEqual(['wind', 'hand on the release']);
  });

  it('is none on firm ground in calm air, nor in a short exposure', () => {
    expect(shakeRisks({ ...calm, ground: 'rock', windMetresPerSecond: 3 })).toEqual([]);
    expect(shakeRisks({ seconds: 1 / 500, equivalentFocal: 24, ground: 'footbridge' })).toEqual([]);
  });

  it('shows a weak stand only where something pulls at the camera (common practice, no source)', () => {
    const weak = { ...calm, ground: 'wall', neededHeight: 1.6, tripodHeight: 1.75 };
    const factors = (more: object) => shakeRisks({ ...weak, ...more }).map(({ factor }) => factor);
    expect(factors({})).toEqual([]);
    // Half of 8 m/s at 24 mm.
    expect(factors({ windMetresPerSecond: 4 })).toEqual(['wall', 'tripod full out']);
    expect(factors({ windMetresPerSecond: 3.9 })).toEqual([]);
    expect(factors({ equivalentFocal: 100 })).toEqual(['wall', 'tripod full out']);
    expect(factors({ equivalentFocal: 100, neededHeight: 1.5 })).toEqual(['wall']);
    expect(factors({ equivalentFocal: 200, longLensFrom: 135 })).toEqual([
      'wall',
      'tripod full out',
      'long lens',
    ]);
  });

  it('comes sooner with a longer lens (common practice, no source)', () => {
    expect(windLimit(24)).toBe(8);
    expect(windLimit(16)).toBe(8);
    expect(windLimit(96)).toBe(4);
  });
});
