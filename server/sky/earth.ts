import { RADIANS } from './angles.ts';

const DAY_MS = 86_400_000;
const J2000_MS = Date.UTC(2000, 0, 1, 12);
const DAYS_PER_CENTURY = 36_525;

/**
 * Terrestrial minus universal time in seconds at the start of the year. To 2025 observed (IERS, values from memory,
 * good to a second); later years are a guess that cannot be tested yet. A minute of error moves the sun by 0.0007°.
 */
const DELTA_T_YEARS = new Float64Array([
  1900, 1920, 1940, 1950, 1960, 1970, 1980, 1990, 2000, 2005, 2010, 2015, 2020, 2025, 2050, 2100,
]);
const DELTA_T_SECONDS = new Float64Array([
  -2.8, 21.2, 24.3, 29.1, 33.2, 40.2, 50.5, 56.9, 63.8, 64.7, 66.1, 67.6, 69.4, 69.1, 75, 105,
]);

/** Terrestrial minus universal time, in seconds, interpolated; constant before 1900 and after 2100. */
export function deltaTSeconds(instantMs: number): number {
  const year = 2000 + (instantMs - J2000_MS) / (365.25 * DAY_MS);
  const last = DELTA_T_YEARS.length - 1;
  let right = 1;
  while (right < last && (DELTA_T_YEARS[right] as number) < year) {
    right++;
  }
  const from = DELTA_T_YEARS[right - 1] as number;
  const to = DELTA_T_YEARS[right] as number;
  const share = Math.max(0, Math.min(1, (year - from) / (to - from)));
  const atFrom = DELTA_T_SECONDS[right - 1] as number;
  return atFrom + ((DELTA_T_SECONDS[right] as number) - atFrom) * share;
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
