import { from0To360, RADIANS, within180 } from './angles.ts';
import {
  geocentricMoon,
  geocentricSun,
  moonSemidiameter,
  observer,
  sunSemidiameterDegrees,
  topocentric,
} from './bodies.ts';
import type { Place } from './place.ts';
import { apparentAltitudeDegrees } from './refraction.ts';
import { crossings, monotoneSamples, type Sample } from './scan.ts';

const STEP_MS = 1_800_000;

/** How high the land stands all around a spot. */
export interface Skyline {
  /** Its altitude in a direction; degrees, azimuth clockwise from true north. */
  altitudeDegrees(azimuthDegrees: number): number;
  /** The azimuths at which it bends, rising from 0 to 360. */
  readonly bendsDegrees: readonly number[];
}

/** One measured direction of a skyline. */
export interface SkylinePoint {
  readonly azimuthDegrees: number;
  readonly altitudeDegrees: number;
}

/**
 * A skyline that runs straight from one given direction to the next, all around. One point: the same height everywhere.
 * None: a level horizon. Of two altitudes in one direction, the higher counts.
 */
export function skyline(points: readonly SkylinePoint[]): Skyline {
  const heights = new Map<number, number>();
  for (const { azimuthDegrees, altitudeDegrees } of points) {
    const azimuth = from0To360(azimuthDegrees);
    heights.set(azimuth, Math.max(heights.get(azimuth) ?? -90, altitudeDegrees));
  }
  const sorted = [...heights].sort(([a], [b]) => a - b);
  const first = sorted[0];
  const last = sorted.at(-1);
  if (first === undefined || last === undefined) {
    return { altitudeDegrees: () => 0, bendsDegrees: [] };
  }
  const around = [[last[0] - 360, last[1]] as const, ...sorted, [first[0] + 360, first[1]] as const];
  return {
    bendsDegrees: sorted.map(([azimuth]) => azimuth),
    altitudeDegrees: (azimuthDegrees) => {
      const azimuth = from0To360(azimuthDegrees);
      const right = around.findIndex(([at]) => at > azimuth);
      const [rightAt, rightHeight] = around[right] ?? first;
      const [leftAt, leftHeight] = around[right - 1] ?? last;
      return leftHeight + ((rightHeight - leftHeight) * (azimuth - leftAt)) / (rightAt - leftAt);
    },
  };
}

/** The sun or the moon. */
export type Body = 'sun' | 'moon';

/** From `startMs` to `endMs`. */
export interface Interval {
  readonly startMs: number;
  readonly endMs: number;
}

/** How far the upper limb stands above the skyline, in degrees as seen, and the samples between which it only rises or falls. */
export interface Clearance {
  at(instantMs: number): number;
  readonly samples: readonly Sample[];
}

/** Follows the upper limb of a body, with usual refraction, over the skyline. */
export function clearance(body: Body, place: Place, fromMs: number, toMs: number, over: Skyline): Clearance {
  const from = observer(place);
  const sunSemidiameter = sunSemidiameterDegrees((fromMs + toMs) / 2);
  const upperLimb = (instantMs: number): { altitude: number; azimuth: number } => {
    const seen = topocentric(body === 'sun' ? geocentricSun(instantMs) : geocentricMoon(instantMs), from);
    const semidiameter = body === 'sun' ? sunSemidiameter : moonSemidiameter(seen.distance) / RADIANS;
    return {
      altitude: apparentAltitudeDegrees(seen.altitude / RADIANS + semidiameter),
      azimuth: seen.azimuth / RADIANS,
    };
  };
  const at = (instantMs: number): number => {
    const limb = upperLimb(instantMs);
    return limb.altitude - over.altitudeDegrees(limb.azimuth);
  };
  const steps = nodes(fromMs, toMs, STEP_MS);
  const bends = bendTimes((instantMs) => upperLimb(instantMs).azimuth, steps, over.bendsDegrees);
  return {
    at,
    samples: monotoneSamples(
      at,
      [...new Set([...steps, ...bends])].sort((a, b) => a - b),
    ),
  };
}

/** When the body stands above a bend of the skyline: there the height over it has a kink. */
function bendTimes(
  azimuthAt: (instantMs: number) => number,
  steps: readonly number[],
  bendsDegrees: readonly number[],
): number[] {
  const azimuths = steps.map(azimuthAt);
  return bendsDegrees.flatMap((bend) => {
    const beside = (instantMs: number): number => within180(azimuthAt(instantMs) - bend);
    return steps.flatMap((instantMs, index) => {
      const next = steps[index + 1];
      const here = within180((azimuths[index] as number) - bend);
      const there = within180((azimuths[index + 1] ?? bend) - bend);
      // On the far side of the sky the sign changes too, at 180°.
      if (next === undefined || Math.abs(here - there) >= 180) {
        return [];
      }
      const ends = [
        { instantMs, value: here },
        { instantMs: next, value: there },
      ];
      return crossings(beside, ends, 0).map((crossing) => crossing.instantMs);
    });
  });
}

/** Instants from the first to the last, at most `stepMs` apart. */
export function nodes(fromMs: number, toMs: number, stepMs: number): number[] {
  const spaces = Math.max(1, Math.ceil((toMs - fromMs) / stepMs));
  return Array.from({ length: spaces + 1 }, (_, index) => fromMs + ((toMs - fromMs) * index) / spaces);
}

/**
 * When any part of the body can be seen over the skyline, with usual refraction: the spells between `fromMs` and `toMs`,
 * in order. A spell that is cut off by either end begins or ends there.
 */
export function visibleIntervals(
  body: Body,
  place: Place,
  fromMs: number,
  toMs: number,
  over: Skyline,
): readonly Interval[] {
  if (toMs <= fromMs) {
    return [];
  }
  const { at, samples } = clearance(body, place, fromMs, toMs, over);
  const intervals: Interval[] = [];
  let sinceMs = (samples[0]?.value ?? -1) >= 0 ? fromMs : undefined;
  for (const { instantMs, rising } of crossings(at, samples, 0)) {
    if (rising) {
      sinceMs = instantMs;
    } else if (sinceMs !== undefined) {
      intervals.push({ startMs: sinceMs, endMs: instantMs });
      sinceMs = undefined;
    }
  }
  return sinceMs === undefined ? intervals : [...intervals, { startMs: sinceMs, endMs: toMs }];
}
