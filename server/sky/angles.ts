/** Radians in one degree. */
export const RADIANS = Math.PI / 180;

/** A full turn in radians. */
export const TURN = 2 * Math.PI;

/** The angle brought to 0 <= x < 360. */
export function from0To360(degrees: number): number {
  const rest = degrees % 360;
  const turned = rest < 0 ? rest + 360 : rest + 0;
  // A negative angle too small to matter is rounded up to the full turn.
  return turned === 360 ? 0 : turned;
}

/** The angle brought to -180 < x <= 180. */
export function within180(degrees: number): number {
  const rest = from0To360(degrees);
  return rest > 180 ? rest - 360 : rest;
}
