import type { Dial } from './dial.ts';
import { type SequenceOptions, type SequenceTime, sequenceTime } from './sequence.ts';
import { type Bulb, type ShutterSetting, shutterSetting } from './setting.ts';

/** What decides how many frames a bracket needs; all in stops. */
export interface BracketNeed {
  /** From the darkest to the brightest part of the scene that must keep its detail. */
  readonly sceneStops: number;
  /** What the sensor or film holds in one frame. */
  readonly rangeStops: number;
  /** From one frame to the next. */
  readonly stepStops: number;
}

/**
 * How many frames cover the scene: 1 + ceil((scene − range) / step), and one when a single frame holds it all. This is
 * the definition of the project; others keep a reserve of overlap or round up to an odd count.
 */
export function bracketFrames({ sceneStops, rangeStops, stepStops }: BracketNeed): number {
  const missing = sceneStops - rangeStops;
  return missing <= 0 ? 1 : 1 + Math.ceil(missing / stepStops - 1e-9);
}

export interface BracketFrame {
  /** From the middle of the bracket; negative is darker. */
  readonly offsetStops: number;
  readonly wantedSeconds: number;
  readonly setting: ShutterSetting;
}

export interface Bracket extends SequenceTime {
  /** From the shortest to the longest time. */
  readonly frames: readonly BracketFrame[];
}

/**
 * The shutter times of a bracket, spread evenly about its middle: with an even number of frames none has the middle time
 * itself. The total counts the times that the settings really keep.
 */
export function bracket(
  plan: {
    readonly middleSeconds: number;
    readonly frames: number;
    readonly stepStops: number;
    readonly dial: Dial;
    readonly bulb?: Bulb;
  },
  options: SequenceOptions = {},
): Bracket {
  const { middleSeconds, stepStops, dial, bulb } = plan;
  const frames = Array.from({ length: plan.frames }, (_, place) => {
    const offsetStops = (place - (plan.frames - 1) / 2) * stepStops;
    const wantedSeconds = middleSeconds * 2 ** offsetStops;
    return { offsetStops, wantedSeconds, setting: shutterSetting(wantedSeconds, dial, bulb) };
  });
  const exposures = frames.map(({ setting }) => setting.seconds);
  return { frames, ...sequenceTime(exposures, options) };
}

/**
 * The graduated filter that brings the sky down to `keepStops` above the foreground; 0 when it needs none. Exposure values
 * at the same ISO. The stop that stays keeps the sky brighter than what it lights: common practice, no source.
 */
export function graduatedStrength(scene: {
  readonly skyEv: number;
  readonly foregroundEv: number;
  readonly keepStops?: number | undefined;
}): number {
  return Math.max(0, scene.skyEv - scene.foregroundEv - (scene.keepStops ?? 1));
}
