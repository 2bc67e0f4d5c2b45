import type { Checkable } from '../analysis.ts';
import type { DayShot, ShotOfDay } from '../schedule/day.ts';
import type { ShotExposure } from '../schedule/frames.ts';
import type { Severity } from '../text/finding.ts';
import type { Place } from '../text/span.ts';
import { headOf } from './related.ts';

export type { ShotOfDay };

/** Every shot of the day in order. */
export function shotsOf({ day }: Checkable): readonly ShotOfDay[] {
  return day?.shots ?? [];
}

/** Where something about the time of a shot is shown: the line from which it comes, else the shot. */
export function timePlace({ shot }: DayShot): Place {
  return shot.shutter ?? shot.metered ?? headOf(shot);
}

/** A meter does not tell less than this apart; common practice, no source. */
const meterStops = 0.1;

/**
 * Whether an exposure is so many stops past a limit even if filters and expected light turn out as their ± allows. A
 * time that the plan sets has no ±.
 */
export function isBeyondDoubt({ basis, filtered }: ShotExposure, stopsPast: number): boolean {
  if (basis === 'stated' || filtered === undefined) return stopsPast > 0;
  const doubtStops = Math.log2(filtered.correctedSeconds / filtered.shortestSeconds);
  return stopsPast > Math.max(doubtStops, meterStops);
}

/** How grave it is to be so many stops past a limit of the body: within the ± of a reading a hint, of an estimate nothing. */
export function pastLimit(exposure: ShotExposure, stopsPast: number): Severity | undefined {
  if (isBeyondDoubt(exposure, stopsPast)) return 'error';
  return exposure.basis === 'expected' ? undefined : 'hint';
}

/** What to do about it: within the ± the limit itself will do. */
export function limitAdvice(severity: Severity, limit: string, otherwise: string): string {
  return severity === 'hint' ? `That is within the ± of reading and filters: set ${limit}.` : otherwise;
}
