/**
 * Directions in the horizontal frame: azimuth in degrees clockwise from true north, altitude in degrees above the
 * horizontal; as vectors, x east, y north, z up.
 */

export interface Direction {
  /** Degrees clockwise from true north. */
  readonly azimuth: number;
  /** Degrees above the horizontal. */
  readonly altitude: number;
}

/** East, north, up. */
export type Vector = readonly [number, number, number];

export function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

export function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}

/** The angle brought into −180° (out) to 180° (in). */
export function signedDegrees(angle: number): number {
  const turned = ((angle % 360) + 360) % 360;
  return turned > 180 ? turned - 360 : turned;
}

/** The unit vector of a direction. */
export function vectorOf({ azimuth, altitude }: Direction): Vector {
  const flat = Math.cos(radians(altitude));
  return [flat * Math.sin(radians(azimuth)), flat * Math.cos(radians(azimuth)), Math.sin(radians(altitude))];
}

/** The direction of a vector of any length. */
export function directionOf([east, north, up]: Vector): Direction {
  const azimuth = degrees(Math.atan2(east, north));
  return {
    azimuth: azimuth < 0 ? azimuth + 360 : azimuth,
    altitude: degrees(Math.atan2(up, Math.hypot(east, north))),
  };
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** The vector of length 1 in the same direction. */
export function unit(vector: Vector): Vector {
  const length = Math.sqrt(dot(vector, vector));
  return [vector[0] / length, vector[1] / length, vector[2] / length];
}

/** Perpendicular to both; its length is the sine of the angle between two unit vectors. */
export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** a·x + b·y + c·z, for the axes of a camera. */
export function combine(axes: readonly [Vector, Vector, Vector], parts: Vector): Vector {
  const along = (at: 0 | 1 | 2) => axes[0][at] * parts[0] + axes[1][at] * parts[1] + axes[2][at] * parts[2];
  return [along(0), along(1), along(2)];
}

/** The angle between two directions, 0° to 180°. By the arc tangent, which keeps its digits at 0° and 180°. */
export function angleBetween(a: Direction, b: Direction): number {
  const [u, v] = [vectorOf(a), vectorOf(b)];
  const difference = Math.hypot(u[0] - v[0], u[1] - v[1], u[2] - v[2]);
  const sum = Math.hypot(u[0] + v[0], u[1] + v[1], u[2] + v[2]);
  return 2 * degrees(Math.atan2(difference, sum));
}
