import type { DaySpot } from '../schedule/day.ts';

/** How a visit touches the dark, which lasts from civil dusk to civil dawn. */
export type Dark =
  | {
      readonly kind: 'arrives before dawn' | 'leaves after dusk';
      readonly ms: number;
      readonly edgeMs: number;
    }
  /** The sun stays more than six degrees below the horizon all day. */
  | { readonly kind: 'all day' };

/** Undefined for a visit by daylight, or one whose times are not known. */
export function darkOf({ at, arriveMs, leaveMs }: DaySpot): Dark | undefined {
  if (at === undefined || arriveMs === undefined) return undefined;
  const sky = at.sky(0);
  const dawn = sky.event('civil dawn');
  const dusk = sky.event('civil dusk');
  if (dawn.kind === 'at' && arriveMs < dawn.instantMs)
    return { kind: 'arrives before dawn', ms: arriveMs, edgeMs: dawn.instantMs };
  const untilMs = leaveMs ?? arriveMs;
  if (dusk.kind === 'at' && untilMs > dusk.instantMs)
    return { kind: 'leaves after dusk', ms: untilMs, edgeMs: dusk.instantMs };
  return dawn.kind === 'never' && dusk.kind === 'never' && sky.sunRange().highestDegrees < -6
    ? { kind: 'all day' }
    : undefined;
}
