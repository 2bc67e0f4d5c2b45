import { RADIANS } from './angles.ts';

/**
 * How bright one place of the sky is against the light that the whole of it throws on level ground: ISO 15469:2004 (CIE
 * S 011), coefficients from memory. The sun itself is not in it.
 *
 * Clear, type 12 (after R. Kittler): L ∝ φ(Z)·f(χ), χ from the sun, Z from the zenith, with φ = 1 − exp(−0.32 / cos Z) and
 * f = 1 + 10·(exp(−3χ) − exp(−3π/2)) + 0.45·cos²χ. Overcast, type 16 (after P. Moon and D. E. Spencer, 1942):
 * L = Lz·(1 + 2·sin h) / 3, which throws E = 7π/9 · Lz.
 */
export type StandardSky = 'clear' | 'overcast';

/** A place of the sky, in degrees. */
export interface SkyPlace {
  readonly altitudeDegrees: number;
  /** From the sun, along the horizon. */
  readonly azimuthFromSunDegrees: number;
}

/** Luminance of the clear sky, in units that cancel. */
function clearSky(place: SkyPlace, sunAltitudeDegrees: number): number {
  const height = RADIANS * place.altitudeDegrees;
  const sun = RADIANS * sunAltitudeDegrees;
  const cosine =
    Math.sin(height) * Math.sin(sun) +
    Math.cos(height) * Math.cos(sun) * Math.cos(RADIANS * place.azimuthFromSunDegrees);
  const apart = Math.acos(Math.min(1, Math.max(-1, cosine)));
  const gradation = 1 - Math.exp(-0.32 / Math.max(Math.sin(height), 0.01));
  const scattering = 1 + 10 * (Math.exp(-3 * apart) - Math.exp(-1.5 * Math.PI)) + 0.45 * cosine ** 2;
  return gradation * scattering;
}

/** Steps of the sum over the half of the sky on one side of the sun, in altitude and in azimuth. */
const [rows, columns] = [24, 36];

/**
 * Luminance of a place of the sky, in cd/m², for each lux that the sky without the sun throws on level ground. The sun's
 * altitude counts as 0° when it is below the horizon, for which there is no standard.
 */
export function skyLuminancePerLux(sky: StandardSky, place: SkyPlace, sunAltitudeDegrees: number): number {
  if (sky === 'overcast')
    return ((9 / (7 * Math.PI)) * (1 + 2 * Math.sin(RADIANS * place.altitudeDegrees))) / 3;
  const sun = Math.max(sunAltitudeDegrees, 0);
  let lux = 0;
  for (let row = 0; row < rows; row += 1) {
    const altitudeDegrees = ((row + 0.5) * 90) / rows;
    const height = RADIANS * altitudeDegrees;
    const weight = Math.sin(height) * Math.cos(height);
    for (let column = 0; column < columns; column += 1) {
      const azimuthFromSunDegrees = ((column + 0.5) * 180) / columns;
      lux += weight * clearSky({ altitudeDegrees, azimuthFromSunDegrees }, sun);
    }
  }
  // Both sides of the sun: twice the sum, times the area of one step.
  const step = (Math.PI / 2 / rows) * (Math.PI / columns);
  return clearSky(place, sun) / (2 * lux * step);
}

/** A reflected-light meter's constant (ISO 2720: K = 12.5) for ISO 100: cd/m² at EV 0. */
export const LUMINANCE_AT_EV_0 = 12.5 / 100;

/** Exposure value at ISO 100 of a luminance in cd/m², as a spot meter reads it. */
export function ev100OfLuminance(luminance: number): number {
  return Math.log2(luminance / LUMINANCE_AT_EV_0);
}
