import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lightDirection } from '../../server/optics/direction.ts';
import {
  cloudedPolarization,
  darkeningStops,
  degreeOfPolarization,
  malus,
  rotationRangeStops,
  scatteringAngle,
  skyEvenness,
} from '../../server/optics/polarizer.ts';
import { antisolarPoint, rainbow } from '../../server/optics/rainbow.ts';
import { angleBetween } from '../../server/optics/sphere.ts';
import { directionInFrame } from '../../server/optics/view.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('sky_polarization', 10, (input) => {
  if ('gamma_deg' in input) {
    const polarization = degreeOfPolarization(numberOf(input.gamma_deg), numberOf(input.Pmax));
    return {
      P: polarization,
      sky_darkening_stops: darkeningStops(polarization),
      rotation_range_stops: rotationRangeStops(polarization),
    };
  }
  const sun = { azimuth: numberOf(input.sun_azimuth_deg), altitude: numberOf(input.sun_altitude_deg) };
  const view = { azimuth: numberOf(input.view_azimuth_deg), altitude: numberOf(input.view_altitude_deg) };
  const gamma = scatteringAngle(sun, view);
  return { gamma_deg: gamma, P_single_scattering: degreeOfPolarization(gamma, 1) };
});

const sensor = { width: 36, height: 24 };

describe('the polarized sky', () => {
  it('loses polarization with the share of cloud', () => {
    // Half of it open: 0.4 of 0.8, −log2(0.6) = 0.74 stop. Common practice, no source.
    expect(darkeningStops(degreeOfPolarization(90, cloudedPolarization(0.5)))).toBeCloseTo(0.737, 3);
    expect(cloudedPolarization()).toBe(0.8);
    expect(cloudedPolarization(1)).toBe(0);
  });

  it('has no polarization towards the sun and away from it, and the most at a right angle', () => {
    expect(degreeOfPolarization(0)).toBe(0);
    expect(degreeOfPolarization(180)).toBeCloseTo(0, 12);
    expect(degreeOfPolarization(90)).toBeCloseTo(0.8, 12);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 180, noNaN: true }), (gamma) => {
        expect(degreeOfPolarization(gamma)).toBeLessThanOrEqual(0.8 + 1e-12);
        expect(degreeOfPolarization(180 - gamma)).toBeCloseTo(degreeOfPolarization(gamma), 9);
      }),
    );
  });

  it('passes all, half and none of polarized light by the cosine squared (Malus)', () => {
    expect([0, 45, 90].map(malus).map((share) => Math.round(share * 1e9) / 1e9)).toEqual([1, 0.5, 0]);
  });

  it('conserves light: what a filter passes at two crossed turns is all there is', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 90, noNaN: true }), (turn) => {
        expect(malus(turn) + malus(turn + 90)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('is darkest in the middle of the frame with the sun at the side, and more uneven with a wider lens', () => {
    const sun = { azimuth: 90, altitude: 0 };
    const across = (focal: number) => skyEvenness(sun, { facing: 0, tilt: 5, focal, sensor });
    const [wide, normal, long] = [across(16), across(50), across(200)];
    expect(wide?.strongestAt).toBeCloseTo(0, 9);
    expect(wide?.strongestStops).toBeCloseTo(darkeningStops(0.8), 2);
    // At the edge of 16 mm the view is 48° off: γ = 42°, P = 0.8·sin²/(1 + cos²) = 0.23 on the horizon itself.
    expect(wide?.differenceStops).toBeGreaterThan(1.5);
    expect(normal?.differenceStops).toBeLessThan(wide?.differenceStops ?? 0);
    expect(long?.differenceStops).toBeLessThan(0.1);
  });

  it('is as uneven as Rayleigh says along the horizon', () => {
    // Nearly level row: a flat, tall-less sensor keeps it on the horizon, where the filter's axis is the same everywhere.
    const row = skyEvenness(
      { azimuth: 90, altitude: 0 },
      { facing: 0, tilt: 0, focal: 16, sensor: { width: 36, height: 1e-6 } },
    );
    const edge = (Math.atan(18 / 16) * 180) / Math.PI;
    const weakest = darkeningStops(degreeOfPolarization(90 - edge));
    expect(row?.weakestStops).toBeCloseTo(weakest, 6);
    expect(row?.differenceStops).toBeCloseTo(darkeningStops(0.8) - weakest, 6);
  });

  it('is darkest to one side when the sun stands obliquely ahead', () => {
    const row = skyEvenness({ azimuth: 120, altitude: 10 }, { facing: 0, tilt: 10, focal: 20, sensor });
    // A right angle from azimuth 120 is azimuth 30, to the right of the middle.
    expect(row?.strongestAt).toBeGreaterThan(0.2);
    expect(row?.strongestAzimuth).toBeGreaterThan(20);
    expect(row?.strongestAzimuth).toBeLessThan(40);
  });

  it('looks at the sky only', () => {
    const sun = { azimuth: 90, altitude: 20 };
    expect(skyEvenness(sun, { facing: 0, tilt: -60, focal: 24, sensor })).toBeNull();
    expect(skyEvenness(sun, { facing: 0, tilt: -10, focal: 24, sensor })?.rowAltitude).toBeGreaterThan(0);
  });

  it('loses its darkening where the polarization lies across the axis of the filter', () => {
    // With the sun overhead all skylight is polarized along the horizontal. A camera tilted up by t draws the horizontal
    // at azimuth A from its facing at an angle of atan(tan A · sin t), and A to the left the other way round: the filter
    // that suits the left edge is off by twice that at the right edge, where the polarization is as strong.
    const [sun, tilt] = [{ azimuth: 0, altitude: 90 }, 40];
    const camera = { facing: 0, tilt, focal: 16, sensor };
    const row = skyEvenness(sun, camera);
    const edge = directionInFrame({ x: 0.5, y: 0 }, camera);
    const off = 2 * Math.atan(Math.tan((edge.azimuth * Math.PI) / 180) * Math.sin((tilt * Math.PI) / 180));
    const polarization = degreeOfPolarization(90 - edge.altitude);
    expect(row?.strongestAt).toBe(-0.5);
    expect(row?.strongestStops).toBeCloseTo(darkeningStops(polarization), 9);
    expect(row?.weakestStops).toBeCloseTo(darkeningStops(polarization * Math.cos(2 * off)), 9);
  });
});

describe('the light on the subject', () => {
  const facing = 118;
  const lit = (sunAzimuth: number, sunAltitude: number, tilt = 0) =>
    lightDirection({ sunAzimuth, sunAltitude, facing, tilt });

  it('is back-lit towards the sun, front-lit away from it and side-lit between', () => {
    expect(lit(118, 0)).toMatchObject({
      kind: 'back-lit',
      side: 'ahead',
      angleFromAxisDegrees: 0,
      antisolarDegrees: 180,
    });
    expect(lit(298, 0)).toMatchObject({ kind: 'front-lit', side: 'behind' });
    expect(lit(208, 0)).toMatchObject({ kind: 'side-lit', side: 'right' });
    expect(lit(28, 0)).toMatchObject({ kind: 'side-lit', side: 'left' });
    expect(lit(208, 0).angleFromAxisDegrees).toBeCloseTo(90, 9);
  });

  it('changes over at 45° and 135°', () => {
    expect([162, 164, 252, 254].map((azimuth) => lit(azimuth, 0).kind)).toEqual([
      'back-lit',
      'side-lit',
      'side-lit',
      'front-lit',
    ]);
  });

  it('counts altitude and tilt', () => {
    expect(lit(118, 60).kind).toBe('side-lit');
    expect(lit(118, 60).angleFromAxisDegrees).toBeCloseTo(60, 9);
    expect(lit(118, 30, -20).angleFromAxisDegrees).toBeCloseTo(50, 9);
    expect(lit(298, 60).kind).toBe('side-lit');
  });

  it('knows left from right across north', () => {
    const north = (sunAzimuth: number) =>
      lightDirection({ sunAzimuth, sunAltitude: 5, facing: 350, tilt: 0 });
    expect(north(20)).toMatchObject({ side: 'right', bearingFromFacingDegrees: 30 });
    expect(north(320)).toMatchObject({ side: 'left', bearingFromFacingDegrees: -30 });
  });

  it('says whether the sun is in the frame only when it knows the lens', () => {
    const lens = { facing, tilt: 0, focal: 24, sensor };
    expect(lightDirection({ sunAzimuth: 125, sunAltitude: 4, ...lens }).sunInFrame).toBe(true);
    expect(lightDirection({ sunAzimuth: 125, sunAltitude: 40, ...lens }).sunInFrame).toBe(false);
    expect(lit(125, 4)).not.toHaveProperty('sunInFrame');
  });
});

describe('a rainbow', () => {
  it('stands opposite the sun, 42° less the altitude of the sun high', () => {
    expect(antisolarPoint({ azimuth: 250, altitude: 12 })).toEqual({ azimuth: 70, altitude: -12 });
    expect(rainbow({ azimuth: 250, altitude: 12 })?.topAltitude).toBe(30);
  });

  it('is a half circle at sunrise and sunset, and gone from 42°', () => {
    expect(rainbow({ azimuth: 90, altitude: 0 })?.footDegrees).toBeCloseTo(42, 9);
    expect(rainbow({ azimuth: 180, altitude: 42 })).toBeNull();
    expect(rainbow({ azimuth: 90, altitude: -1 })).toBeNull();
  });

  it('has its feet 42° from the antisolar point', () => {
    for (const altitude of [0, 5, 20, 41]) {
      const bow = rainbow({ azimuth: 200, altitude });
      if (!bow) throw new Error(`no rainbow at ${altitude}`);
      const foot = { azimuth: bow.centre.azimuth + bow.footDegrees, altitude: 0 };
      expect(angleBetween(bow.centre, foot)).toBeCloseTo(42, 9);
    }
  });
});
