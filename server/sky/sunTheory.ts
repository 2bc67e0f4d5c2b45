import { RADIANS, TURN } from './angles.ts';
import { type Orientation, orientation } from './earth.ts';

/*
 * The earth's path by the theory VSOP87D (P. Bretagnon and G. Francou, Astron. Astrophys. 202, 1988), as printed in
 * J. Meeus, Astronomical Algorithms, 2nd ed. 1998, appendix III, and in NREL/TP-560-34302, table A4.2; the largest
 * terms only. Each row is amplitude, phase and frequency of `amplitude * cos(phase + frequency * t)`, with t in Julian
 * millennia of terrestrial time since 2000. Amplitudes of longitude in 1e-8 rad, of distance in 1e-8 au.
 * What is left out sums up to about 1 arc-second, or 0.0003 degrees.
 */
const LONGITUDE_0 = new Float64Array([
  175347046, 0, 0, 3341656, 4.6692568, 6283.07585, 34894, 4.6261, 12566.1517, 3497, 2.7441, 5753.3849, 3418,
  2.8289, 3.5231, 3136, 3.6277, 77713.7715, 2676, 4.4181, 7860.4194, 2343, 6.1352, 3930.2097, 1324, 0.7425,
  11506.7698, 1273, 2.0371, 529.691, 1199, 1.1096, 1577.3435, 990, 5.233, 5884.927, 902, 2.045, 26.298, 857,
  3.508, 398.149, 780, 1.179, 5223.694, 753, 2.533, 5507.553, 505, 4.583, 18849.228, 492, 4.205, 775.523, 357,
  2.92, 0.067, 317, 5.849, 11790.629, 284, 1.899, 796.298, 271, 0.315, 10977.079, 243, 0.345, 5486.778, 206,
  4.806, 2544.314, 205, 1.869, 5573.143, 202, 2.458, 6069.777, 156, 0.833, 213.299, 132, 3.411, 2942.463, 126,
  1.083, 20.775, 115, 0.645, 0.98, 103, 0.636, 4694.003, 102, 0.976, 15720.839, 102, 4.267, 7.114, 99, 6.21,
  2146.17, 98, 0.68, 155.42, 86, 5.98, 161000.69, 85, 1.3, 6275.96, 85, 3.67, 71430.7, 80, 1.81, 17260.15,
]);
const LONGITUDE_1 = new Float64Array([
  628331966747, 0, 0, 206059, 2.678235, 6283.07585, 4303, 2.6351, 12566.1517, 425, 1.59, 3.523, 119, 5.796,
  26.298, 109, 2.966, 1577.344, 93, 2.59, 18849.23,
]);
const LONGITUDE_2 = new Float64Array([52919, 0, 0, 8720, 1.0721, 6283.0758, 309, 0.867, 12566.152]);
const LONGITUDE_3 = new Float64Array([289, 5.844, 6283.076, 35, 0, 0]);
const DISTANCE_0 = new Float64Array([
  100013989, 0, 0, 1670700, 3.0984635, 6283.07585, 13956, 3.05525, 12566.1517, 3084, 5.1985, 77713.7715, 1628,
  1.1739, 5753.3849, 1576, 2.8469, 7860.4194, 925, 5.453, 11506.77, 542, 4.564, 3930.21, 472, 3.661, 5884.927,
]);
const DISTANCE_1 = new Float64Array([103019, 1.10749, 6283.07585, 1721, 1.0644, 12566.1517]);

function series(rows: Float64Array, t: number): number {
  let sum = 0;
  for (let i = 0; i + 2 < rows.length; i += 3) {
    sum += (rows[i] as number) * Math.cos((rows[i + 1] as number) + (rows[i + 2] as number) * t);
  }
  return sum * 1e-8;
}

/** Where the sun stands as seen from the centre of the earth, with aberration and nutation. */
export interface ApparentSun extends Orientation {
  /** Ecliptic longitude of date in radians, 0 to 2 pi. The latitude is below 1.2 arc-seconds and taken as 0. */
  readonly longitude: number;
  /** Right ascension in radians. */
  readonly rightAscension: number;
  /** Declination in radians. */
  readonly declination: number;
  readonly distanceAu: number;
}

/**
 * The sun's apparent place. Meeus, chapter 25, "higher accuracy", with the correction to the FK5 frame.
 * Within about 1 arc-second from 1900 to 2100.
 */
export function apparentSun(centuries: number): ApparentSun {
  const t = centuries / 10;
  const earth =
    series(LONGITUDE_0, t) +
    t * (series(LONGITUDE_1, t) + t * (series(LONGITUDE_2, t) + t * series(LONGITUDE_3, t)));
  const distanceAu =
    series(DISTANCE_0, t) + t * (series(DISTANCE_1, t) + t * 4359e-8 * Math.cos(5.7846 + 6283.0758 * t));
  const { nutation, obliquity } = orientation(centuries);
  const fk5AndAberrationSeconds = -0.09033 - 20.4898 / distanceAu;
  const unreduced = earth + Math.PI + nutation + (RADIANS * fk5AndAberrationSeconds) / 3600;
  const longitude = unreduced - TURN * Math.floor(unreduced / TURN);
  const sine = Math.sin(longitude);
  return {
    longitude,
    rightAscension: Math.atan2(Math.cos(obliquity) * sine, Math.cos(longitude)),
    declination: Math.asin(Math.sin(obliquity) * sine),
    distanceAu,
    nutation,
    obliquity,
  };
}
