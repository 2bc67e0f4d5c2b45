import { type Direction, degrees, radians } from './sphere.ts';

/** The radius of the primary rainbow around the antisolar point, for water drops in red light (R. Descartes 1637). */
export const rainbowDegrees = 42;

export interface Rainbow {
  /** The antisolar point, its middle; it lies below the horizon by as much as the sun stands above. */
  readonly centre: Direction;
  /** How high its top stands above the horizontal. */
  readonly topAltitude: number;
  /** From its middle to each foot on the compass, where it meets the horizontal. */
  readonly footDegrees: number;
}

/** The point opposite the sun. */
export function antisolarPoint(sun: Direction): Direction {
  return { azimuth: (((sun.azimuth + 180) % 360) + 360) % 360, altitude: -sun.altitude };
}

/**
 * Where a rainbow stands when rain or spray is there to make it; null when the sun is below the horizon or so high that
 * the whole bow is below level ground (spray seen from above can still show it). The foot follows from the circle on the
 * sphere: cos r = cos(altitude of the middle) · cos(azimuth difference) at the horizontal.
 */
export function rainbow(sun: Direction): Rainbow | null {
  if (sun.altitude < 0 || sun.altitude >= rainbowDegrees) return null;
  const foot = Math.cos(radians(rainbowDegrees)) / Math.cos(radians(sun.altitude));
  return {
    centre: antisolarPoint(sun),
    topAltitude: rainbowDegrees - sun.altitude,
    footDegrees: degrees(Math.acos(foot)),
  };
}
