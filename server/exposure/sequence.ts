import { frameSeconds } from './exposure.ts';

/** How long a series of frames takes, in seconds. */
export interface SequenceTime {
  /** With the shutter open: what drains the battery. */
  readonly openSeconds: number;
  /** From the first opening of the shutter until the body is free again: exposures, dark frames and gaps. */
  readonly totalSeconds: number;
}

export interface SequenceOptions {
  readonly noiseReduction?: boolean | undefined;
  /** Between the end of one frame and the start of the next: writing the file, waiting, turning a filter. */
  readonly gapSeconds?: number | undefined;
}

/** The time of a series of frames with the given exposures; there is no gap after the last. */
export function sequenceTime(exposures: readonly number[], options: SequenceOptions = {}): SequenceTime {
  const { noiseReduction = false, gapSeconds = 0 } = options;
  const openSeconds = exposures.reduce((sum, seconds) => sum + seconds, 0);
  const busySeconds = exposures.reduce((sum, seconds) => sum + frameSeconds(seconds, noiseReduction), 0);
  return { openSeconds, totalSeconds: busySeconds + Math.max(exposures.length - 1, 0) * gapSeconds };
}

/** The time of a shot of equal frames. */
export function shotTime(
  exposureSeconds: number,
  frames: number,
  options: SequenceOptions = {},
): SequenceTime {
  const { noiseReduction = false, gapSeconds = 0 } = options;
  return {
    openSeconds: frames * exposureSeconds,
    totalSeconds:
      frames * frameSeconds(exposureSeconds, noiseReduction) + Math.max(frames - 1, 0) * gapSeconds,
  };
}

/** The stops that averaging N equal frames stands for: log2 N, since the motion of all of them adds up. */
export function averagingStops(frames: number): number {
  return Math.log2(frames);
}

/** How many frames of `frameSeconds` must be averaged to cover a wanted time. */
export function framesToAverage(wantedSeconds: number, frameSeconds: number): number {
  return Math.max(1, Math.ceil(wantedSeconds / frameSeconds - 1e-9));
}
