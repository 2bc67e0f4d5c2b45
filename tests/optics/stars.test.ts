import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  declinationOf,
  declinationsInFrame,
  fiveHundredSeconds,
  npfSeconds,
  npfSimpleSeconds,
  pixelSeconds,
  trailArcDegrees,
  trailLengthDegrees,
  trailPixels,
} from '../../server/optics/stars.ts';
import { type Camera, directionInFrame } from '../../server/optics/view.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('stars', 7, (input) => {
  const given = (name: string, otherwise = 0) => (name in input ? numberOf(input[name]) : otherwise);
  const view = {
    focal: given('focal_mm'),
    pitchMicrometres: given('pixel_um'),
    declination: given('declination_deg'),
  };
  switch (input.rule) {
    case '500':
      return { time_s: fiveHundredSeconds(view.focal, given('crop')) };
    case 'npf_simple':
      return { time_s: npfSimpleSeconds(view, given('f_number')) };
    case 'npf_full':
      return { time_s: npfSeconds(view, given('f_number'), given('k')) };
    case 'pixel':
      return { time_s: pixelSeconds(view, given('pixels')) };
    default:
      return { arc_deg: trailArcDegrees(given('time_s')) };
  }
});

describe('25 s of stars at 24 mm, f/2.8, 4.3 µm', () => {
  const view = { focal: 24, pitchMicrometres: 4.3 };

  it('draw lines of ten pixels, over every rule', () => {
    expect(trailPixels(view, 25)).toBeCloseTo(25 / 2.457, 1);
    expect(25).toBeGreaterThan(fiveHundredSeconds(24));
    expect(25).toBeGreaterThan(2 * npfSimpleSeconds(view, 2.8));
    expect(25).toBeGreaterThan(5 * npfSeconds(view, 2.8));
  });

  it('draw half of it at declination 60° and nothing at the pole', () => {
    expect(trailPixels({ ...view, declination: 60 }, 25)).toBeCloseTo(trailPixels(view, 25) / 2, 9);
    expect(trailPixels({ ...view, declination: 90 }, 25)).toBeCloseTo(0, 9);
    expect(trailLengthDegrees(3600, 60)).toBeCloseTo(15.041 / 2, 3);
  });
});

it('the sky turns once in a sidereal day of 86164.1 s', () => {
  expect(trailArcDegrees(86_164.1)).toBeCloseTo(360, 3);
});

describe('declination in the frame', () => {
  const sensor = { width: 36, height: 24 };

  it('is the latitude overhead, 90 − latitude on the horizon north, and its negative south', () => {
    expect(declinationOf(0, 90, 54)).toBeCloseTo(54, 9);
    expect(declinationOf(180, 0, 54)).toBeCloseTo(-36, 9);
    expect(declinationOf(0, 0, 54)).toBeCloseTo(36, 9);
    expect(declinationOf(90, 0, 54)).toBeCloseTo(0, 9);
    expect(declinationOf(0, 54, 54)).toBeCloseTo(90, 4);
  });

  it('reaches the pole where it stands in the frame', () => {
    const north: Camera = { facing: 0, tilt: 50, focal: 24, sensor };
    expect(declinationsInFrame(north, 54)?.highest).toBe(90);
    expect(declinationsInFrame({ ...north, facing: 180 }, -54)?.lowest).toBe(-90);
    expect(declinationsInFrame({ ...north, facing: 180 }, 54)?.highest).toBeLessThan(90);
  });

  it('looks at no ground', () => {
    expect(declinationsInFrame({ facing: 90, tilt: -60, focal: 24, sensor }, 54)).toBeNull();
    // Straight south, level: from the horizon at −36° upwards.
    expect(declinationsInFrame({ facing: 180, tilt: 0, focal: 24, sensor }, 54)?.lowest).toBeCloseTo(-36, 1);
  });

  it('encloses every place in the frame, and the fastest star is the nearest to the equator', () => {
    const share = fc.double({ min: -0.5, max: 0.5, noNaN: true });
    const latitude = fc.double({ min: -80, max: 80, noNaN: true });
    const facing = fc.double({ min: 0, max: 360, noNaN: true });
    fc.assert(
      fc.property(
        share,
        share,
        latitude,
        facing,
        fc.double({ min: -10, max: 60, noNaN: true }),
        (x, y, south, azimuth, tilt) => {
          const camera: Camera = { facing: azimuth, tilt, focal: 20, sensor };
          const direction = directionInFrame({ x, y }, camera);
          if (direction.altitude < 0) return;
          const range = declinationsInFrame(camera, south);
          const declination = declinationOf(direction.azimuth, direction.altitude, south);
          // A place between two samples of the edge can stick out a little.
          expect(declination).toBeGreaterThan((range?.lowest ?? 91) - 0.1);
          expect(declination).toBeLessThan((range?.highest ?? -91) + 0.1);
          expect(Math.abs(declination)).toBeGreaterThan(Math.abs(range?.fastest ?? 91) - 0.1);
        },
      ),
    );
  });
});
