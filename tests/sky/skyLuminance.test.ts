import { describe, expect, test } from 'vitest';
import { ev100OfLuminance, skyLuminancePerLux } from '../../server/sky/skyLuminance.ts';

const radians = (degrees: number) => (degrees * Math.PI) / 180;

describe('the standard sky (ISO 15469:2004)', () => {
  test('overcast, is three times as bright overhead as at the horizon', () => {
    // P. Moon and D. E. Spencer, Illumination from a non-uniform sky, 1942: 1 : 3, and E = 7π/9 · Lz.
    const at = (altitudeDegrees: number) =>
      skyLuminancePerLux('overcast', { altitudeDegrees, azimuthFromSunDegrees: 70 }, 40);
    expect(at(90)).toBeCloseTo(9 / (7 * Math.PI), 9);
    expect(at(90) / at(0)).toBeCloseTo(3, 9);
  });

  // R. Kittler 1967, the clear sky of CIE 22 (1973), in its own form with 0.91 and 0.27385; from memory.
  const kittler = (altitude: number, azimuth: number, sun: number) => {
    const apart = (h: number) =>
      Math.acos(
        Math.sin(radians(h)) * Math.sin(radians(sun)) +
          Math.cos(radians(h)) * Math.cos(radians(sun)) * Math.cos(radians(azimuth)),
      );
    const glow = (x: number) => 0.91 + 10 * Math.exp(-3 * x) + 0.45 * Math.cos(x) ** 2;
    const zenith = 0.27385 * glow(radians(90 - sun));
    return (glow(apart(altitude)) * (1 - Math.exp(-0.32 / Math.sin(radians(altitude))))) / zenith;
  };
  test.each([
    [10, 0, 30],
    [10, 90, 30],
    [10, 180, 30],
    [45, 60, 60],
    [5, 20, 5],
  ])(
    'clear, at %s° and %s° from a sun at %s°, against the zenith, is that of Kittler',
    (altitude, azimuth, sun) => {
      const at = (altitudeDegrees: number) =>
        skyLuminancePerLux('clear', { altitudeDegrees, azimuthFromSunDegrees: azimuth }, sun);
      expect(at(altitude) / at(90) / kittler(altitude, azimuth, sun)).toBeCloseTo(1, 2);
    },
  );

  test.each(['clear', 'overcast'] as const)('%s, adds up to the light on level ground', (sky) => {
    // Another sum, over the whole circle: ∫ L sin h dΩ must give back one lux for each lux.
    let lux = 0;
    for (let altitude = 1; altitude < 90; altitude += 2)
      for (let azimuth = 5; azimuth < 360; azimuth += 10)
        lux +=
          skyLuminancePerLux(sky, { altitudeDegrees: altitude, azimuthFromSunDegrees: azimuth }, 35) *
          Math.sin(radians(altitude)) *
          Math.cos(radians(altitude)) *
          radians(2) *
          radians(10);
    expect(lux).toBeCloseTo(1, 1);
    expect(Math.abs(lux - 1)).toBeLessThan(0.02);
  });
});

test('a spot meter reads log2(L · S / K) with K = 12.5 (ISO 2720)', () => {
  // 4000 cd/m² at ISO 100: log2(32 000) = 14.97.
  expect(ev100OfLuminance(4000)).toBeCloseTo(14.966, 3);
});
