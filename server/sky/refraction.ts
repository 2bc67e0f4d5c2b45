import { RADIANS } from './angles.ts';

/** Refraction at the horizon by convention of rise and set, in degrees: 34 arc-minutes. */
export const HORIZON_REFRACTION_DEGREES = 34 / 60;

/**
 * Refraction in arc-minutes for an apparent altitude, at 1010 hPa and 10 °C.
 * G. G. Bennett, Journal of Navigation 35 (1982), as in Meeus, Astronomical Algorithms, 2nd ed. 1998, formula 16.3.
 */
export function bennettArcminutes(apparentAltitudeDegrees: number): number {
  const h = apparentAltitudeDegrees;
  return 1 / Math.tan(RADIANS * (h + 7.31 / (h + 4.4)));
}

/**
 * Refraction in arc-minutes for a true (airless) altitude, at 1010 hPa and 10 °C; above about -1°.
 * T. Saemundsson, Sky and Telescope 72 (1986), as in Meeus, formula 16.4.
 */
export function saemundssonArcminutes(trueAltitudeDegrees: number): number {
  const h = trueAltitudeDegrees;
  return 1.02 / Math.tan(RADIANS * (h + 10.3 / (h + 5.11)));
}

/** The altitude below which the formula means nothing; from there refraction fades to nothing at the nadir. */
const LOWEST_DEGREES = -1;

/**
 * Where a body of the given airless altitude seems to stand, in degrees. Below -1° no line of sight is left to measure;
 * the refraction of -1° then fades out linearly, so that the result is continuous and always rises with the altitude.
 */
export function apparentAltitudeDegrees(airlessAltitudeDegrees: number): number {
  const h = airlessAltitudeDegrees;
  if (h >= LOWEST_DEGREES) {
    return h + saemundssonArcminutes(h) / 60;
  }
  return h + ((saemundssonArcminutes(LOWEST_DEGREES) / 60) * (90 + h)) / (90 + LOWEST_DEGREES);
}

/** Dip of the sea horizon with usual refraction, in degrees, for an eye above the sea. Nautical Almanac: 1.76' √h. */
export function dipDegrees(eyeHeightMetres: number): number {
  return (1.76 * Math.sqrt(Math.max(0, eyeHeightMetres))) / 60;
}

/** Mean radius of the earth in metres (IUGG). */
const EARTH_RADIUS_METRES = 6_371_008.8;

/** Dip without air, in degrees: the angle at the centre of the earth to the horizon. */
export function geometricDipDegrees(eyeHeightMetres: number): number {
  const height = Math.max(0, eyeHeightMetres);
  return Math.acos(EARTH_RADIUS_METRES / (EARTH_RADIUS_METRES + height)) / RADIANS;
}

/** Distance to the sea horizon with usual refraction, in metres: 3.86 km √h. Common practice; factor from memory. */
export function horizonDistanceMetres(eyeHeightMetres: number): number {
  return 3860 * Math.sqrt(Math.max(0, eyeHeightMetres));
}

/** Distance to the sea horizon without air, in metres. */
export function geometricHorizonDistanceMetres(eyeHeightMetres: number): number {
  const height = Math.max(0, eyeHeightMetres);
  return Math.sqrt(height * (2 * EARTH_RADIUS_METRES + height));
}
