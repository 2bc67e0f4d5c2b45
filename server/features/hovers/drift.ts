import { timeText } from '../../exposure/time-text.ts';
import { formatDuration } from '../../quantities/duration.ts';
import type { ShotExposure } from '../../schedule/frames.ts';
import { decimal, stopsDifference } from '../numbers.ts';

/**
 * What changing light makes of an exposure, beside its plain time. Undefined while it changes by no more than the
 * threshold `drift`, in stops.
 */
export function driftText({ drift, filtered }: ShotExposure, thresholdStops: number): string | undefined {
  if (drift === undefined || filtered === undefined || Math.abs(drift.stops) <= thresholdStops)
    return undefined;
  const { drift: found, stops } = drift;
  const plain = timeText(filtered.correctedSeconds);
  if (found.neverCompletes) {
    return `**Never completes:** the light fades faster than it is collected. Instead of ${plain} in light that stays, ${decimal(100 * found.collectedShare)} % of it is there after ${formatDuration(found.afterSeconds)}. Begin earlier, or take a weaker filter.`;
  }
  const way = stops > 0 ? 'fades' : 'grows';
  return `The light ${way} meanwhile: about **${timeText(found.seconds)}** collects the planned light, against ${plain} if it stayed (${stopsDifference(stops)}; an estimate by the light model).`;
}

/** The same for a hint: a few words. */
export function driftHint({ drift }: ShotExposure, thresholdStops: number): string | undefined {
  if (drift === undefined || Math.abs(drift.stops) <= thresholdStops) return undefined;
  if (drift.drift.neverCompletes) return 'never completes: the light fades';
  return `about ${timeText(drift.drift.seconds)} as the light ${drift.stops > 0 ? 'fades' : 'grows'}`;
}
