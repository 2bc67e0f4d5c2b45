/**
 * A point on the earth, WGS 84. Latitude north +, longitude east +, both in degrees.
 * The elevation counts above sea level; it is never a height above the visible horizon.
 */
export interface Place {
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationMetres?: number;
}
