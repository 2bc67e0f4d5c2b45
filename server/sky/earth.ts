import { RADIANS } from './angles.ts';

const DAY_MS = 86_400_000;
const J2000_MS = Date.UTC(2000, 0, 1, 12);
const DAYS_PER_CENTURY = 36_525;

/**
 * Terrestrial minus universal time in seconds at the start of the year. To 2025 observed (IERS, values from memory,
 * good to a second); later years are a guess that cannot be tested yet. A minute of error moves the sun by 0.0007°.
 */
const DELTA_T: readonly (readonly [year: number, seconds: number])[] = [
  [1900, -2.8],
  [1920, 21.2],
  [1940, 24.3],
  [1950, 29.1],
  [1960, 33.2],
  [1970, 40.2],
  [1980, 50.5],
  [1990, 56.9],
  [2000, 63.8],
  [2005, 64.7],
  [2010, 66.1],
  [2015, 67.6],
  [2020, 69.4],
  [2025, 69.1],
  [2050, 75],
  [2100, 105],
];

/** Terrestrial minus universal time, in seconds, interpolated; constant before 1900 and after 2100. */
export function deltaTSeconds(instantMs: number): number {
  const year = 2000 + (instantMs - J2000_MS) / (365.25 * DAY_MS);
  let [earlierYear, earlier] = DELTA_T[0] as readonly [number, number];
  for (const [laterYear, later] of DELTA_T) {
    if (year < laterYear) {
      return year <= earlierYear
        ? earlier
        : earlier + ((later - earlier) * (year - earlierYear)) / (laterYear - earlierYear);
    }
    [earlierYear, earlier] = [laterYear, later];
  }
  return earlier;
}

/** Days of universal time since 2000-01-01 12:00. */
export function daysSince2000(instantMs: number): number {
  return (instantMs - J2000_MS) / DAY_MS;
}

/** Julian centuries of terrestrial time since 2000-01-01 12:00. */
export function centuriesSince2000(instantMs: number): number {
  return (daysSince2000(instantMs) + deltaTSeconds(instantMs) / 86_400) / DAYS_PER_CENTURY;
}

/** How the earth's axis stands, in radians. */
export interface Orientation {
  /** Nutation in longitude. */
  readonly nutation: number;
  /** True obliquity of the ecliptic. */
  readonly obliquity: number;
}

/**
 * Nutation and true obliquity. J. Meeus, Astronomical Algorithms, 2nd ed. 1998, chapter 22: the largest terms of
 * table 22.A, good to 0.1 arc-second in longitude; mean obliquity by formula 22.2.
 */
export function orientation(centuries: number): Orientation {
  const t = centuries;
  const node = RADIANS * (125.04452 - 1934.136261 * t);
  const sun = RADIANS * (280.4665 + 36000.7698 * t);
  const moon = RADIANS * (218.3165 + 481267.8813 * t);
  const sunAnomaly = RADIANS * (357.52772 + 35999.05034 * t);
  const moonAnomaly = RADIANS * (134.96298 + 477198.867398 * t);
  const nutationSeconds =
    -(17.1996 + 0.01742 * t) * Math.sin(node) -
    1.3187 * Math.sin(2 * sun) -
    0.2274 * Math.sin(2 * moon) +
    0.2062 * Math.sin(2 * node) +
    0.1426 * Math.sin(sunAnomaly) +
    0.0712 * Math.sin(moonAnomaly) -
    0.0517 * Math.sin(2 * sun + sunAnomaly) -
    0.0386 * Math.sin(2 * moon - node) -
    0.0301 * Math.sin(2 * moon + moonAnomaly);
  const obliquitySeconds =
    9.2025 * Math.cos(node) +
    0.5736 * Math.cos(2 * sun) +
    0.0977 * Math.cos(2 * moon) -
    0.0895 * Math.cos(2 * node);
  const meanObliquity = 23.4392911 - t * (0.0130042 + t * (0.00000016 - t * 0.000000504));
  return {
    nutation: RADIANS * (nutationSeconds / 3600),
    obliquity: RADIANS * (meanObliquity + obliquitySeconds / 3600),
  };
}

/** Greenwich mean sidereal time in radians, not reduced to one turn. Meeus, formula 12.4. */
export function meanSiderealTime(instantMs: number): number {
  const days = daysSince2000(instantMs);
  const t = days / DAYS_PER_CENTURY;
  return RADIANS * (280.46061837 + 360.98564736629 * days + 0.000387933 * t * t);
}
