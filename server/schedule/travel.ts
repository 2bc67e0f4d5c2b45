import type { Spot, Walk } from '../plan/fields.ts';

/** Level walking, in metres per second: 5 km/h. Source: W. W. Naismith, Scottish Mountaineering Club Journal, 1892 (3 miles an hour), as rounded in metric use; from memory. */
export const walkingMetresPerSecond = 5000 / 3600;
/** An hour for each 600 m of climb. Same source (an hour for 2,000 feet). */
export const climbMetresPerSecond = 600 / 3600;

/** How long the walk takes each way, in seconds. */
export interface WalkTime {
  readonly thereSeconds: number;
  readonly backSeconds: number;
  /** Whether it was worked out by Naismith's rule rather than stated. */
  readonly estimated: boolean;
}

/**
 * The walk to a spot and back: as stated, else by Naismith's rule times a factor for load, dark and ground. The way
 * back counts without climb. Undefined when a part of the walk is written and cannot be read; zero without a walk.
 */
export function walkTime(spot: Spot, factor: number): WalkTime | undefined {
  if (spot.self.broken.has('walk')) return undefined;
  const walk: Walk | undefined = spot.walk;
  if (walk === undefined) return { thereSeconds: 0, backSeconds: 0, estimated: false };
  if (walk.time !== undefined)
    return { thereSeconds: walk.time.value, backSeconds: walk.time.value, estimated: false };
  if (walk.self.broken.size > 0 || walk.distance === undefined) return undefined;
  const level = walk.distance.value / walkingMetresPerSecond;
  const climb = (walk.climb?.value ?? 0) / climbMetresPerSecond;
  return { thereSeconds: (level + climb) * factor, backSeconds: level * factor, estimated: true };
}
