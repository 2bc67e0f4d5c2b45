import { type Bracket, bracket, bracketFrames, graduatedStrength } from '../exposure/bracket.ts';
import { beyondBodyStops } from '../exposure/setting.ts';
import type { DayShot } from './day.ts';
import { type FilterUse, stackPart } from './gear.ts';
import type { Memory } from './memory.ts';
import type { SpotPlace } from './place.ts';
import { present } from './present.ts';
import { type SceneLight, sceneLight } from './sceneLight.ts';
import type { Thresholds } from './thresholds.ts';

/** A scene against what the body holds. All in stops. */
export interface SceneRange {
  /** From the darkest part that shall show something to the brightest. */
  readonly sceneStops: number;
  /** Where that is the difference of an estimate: good to about plus or minus so many stops; 0 when stated or metered. */
  readonly spreadStops: number;
  /** Sky and foreground, metered or estimated; absent when neither can be said. */
  readonly light?: SceneLight;
  /** How much brighter the sky is than the foreground, by the meter, or by the estimate where the range rests on it. */
  readonly skyOverForegroundStops?: number;
  readonly keepStops: number;
  /** What the body holds in one frame; absent when the kit does not say. */
  readonly bodyStops?: number;
  /** What mounted graduated filters take from the sky. */
  readonly graduatedStops: number;
  /** How much of the scene still falls outside one frame; 0 when it fits. */
  readonly missingStops?: number;
  /** The graduated filter that would do instead: difference less what the sky keeps, or what is missing. */
  readonly wantedGraduatedStops?: number;
  /** What the shot's own bracket adds: (frames − 1) · step. */
  readonly bracketStops: number;
  /** The step of the bracket, the plan's or one stop. */
  readonly stepStops: number;
  /** How many frames would hold the scene. */
  readonly framesNeeded?: number;
}

/** The scene of a shot; undefined without a `scene`, or when it cannot be said how bright it is. */
export function sceneRange(
  dayShot: DayShot,
  at: SpotPlace | undefined,
  thresholds: Thresholds,
  memory: Memory,
): SceneRange | undefined {
  const { shot, gear } = dayShot;
  const { scene } = shot;
  if (scene === undefined || scene.self.broken.size > 0 || shot.self.broken.has('bracket')) return undefined;
  const light = sceneLight(dayShot, at, thresholds, memory);
  const stated = scene.range?.value;
  // A stated range is not mixed with an estimate: only what was metered goes with it.
  const difference =
    stated !== undefined && light?.estimate !== undefined ? undefined : light?.differenceStops;
  const sceneStops = stated ?? (difference === undefined ? undefined : Math.abs(difference));
  if (sceneStops === undefined) return undefined;
  const keepStops = scene.keep?.value ?? 1;
  const bodyStops = gear.body?.range?.value;
  const graduatedStops = gear.filters.reduce((sum, use) => sum + graduatedOf(use), 0);
  const stepStops = Math.abs(shot.bracket?.step?.value ?? 1);
  const bracketStops = ((shot.bracket?.frames?.value ?? 1) - 1) * stepStops;
  const left = Math.max(sceneStops - graduatedStops, 0);
  const missingStops = bodyStops === undefined ? undefined : Math.max(left - bodyStops, 0);
  const wantedGraduatedStops =
    difference !== undefined
      ? graduatedStrength({ skyEv: difference, foregroundEv: 0, keepStops })
      : bodyStops === undefined
        ? undefined
        : Math.max(sceneStops - bodyStops, 0);
  return present({
    sceneStops,
    spreadStops: stated === undefined ? (light?.spreadStops ?? 0) : 0,
    light,
    skyOverForegroundStops: difference,
    keepStops,
    bodyStops,
    graduatedStops,
    missingStops,
    wantedGraduatedStops,
    bracketStops,
    stepStops,
    framesNeeded: framesFor(sceneStops - graduatedStops, bodyStops, stepStops),
  });
}

/** How many frames hold the scene behind so many stops of graduated filter. */
export function framesWith(range: SceneRange, graduatedStops: number): number | undefined {
  return framesFor(range.sceneStops - graduatedStops, range.bodyStops, range.stepStops);
}

function framesFor(sceneStops: number, bodyStops: number | undefined, stepStops: number): number | undefined {
  if (bodyStops === undefined || stepStops === 0) return undefined;
  return bracketFrames({ sceneStops: Math.max(sceneStops, 0), rangeStops: bodyStops, stepStops });
}

/** A way to hold a scene: so many stops of graduated filter in all, and so many frames. */
export interface SceneWay {
  readonly graduatedStops: number;
  readonly frames: number;
  /** Whether the filter is the strongest that is to be had, and not as strong as wanted. */
  readonly strongest: boolean;
}

/**
 * With a graduated filter: as strong as wanted and as is to be had, and what it leaves to frames; undefined when the
 * mounted one is as strong already.
 */
export function wayWithFilter(range: SceneRange, strongestStops: number): SceneWay | undefined {
  const { wantedGraduatedStops: wanted, graduatedStops } = range;
  if (wanted === undefined) return undefined;
  const strength = Math.min(wanted, strongestStops);
  const frames = framesWith(range, strength);
  if (frames === undefined || strength <= graduatedStops) return undefined;
  return { graduatedStops: strength, frames, strongest: strength < wanted };
}

/** With a graduated filter that makes up for what a bracket of the shot leaves out; undefined when there is none so strong. */
export function wayWithBracket(range: SceneRange, strongestStops: number): SceneWay | undefined {
  const { missingStops, graduatedStops, bracketStops, stepStops, skyOverForegroundStops } = range;
  if (missingStops === undefined || stepStops === 0 || missingStops <= bracketStops) return undefined;
  const strength = graduatedStops + missingStops - bracketStops;
  const most =
    skyOverForegroundStops === undefined
      ? strongestStops
      : Math.min(strongestStops, skyOverForegroundStops - range.keepStops);
  if (strength > most) return undefined;
  return { graduatedStops: strength, frames: 1 + Math.round(bracketStops / stepStops), strongest: false };
}

/** What a graduated filter takes from the sky, in stops; 0 for any other filter. */
export function graduatedOf({ filter }: FilterUse): number {
  if (filter.kind?.value !== 'graduated') return 0;
  const part = stackPart(filter);
  return part?.measuredStops ?? part?.labelStops ?? 0;
}

const aHair = 1 + 1e-9;

/** The frames of a bracket of a shot, its own or another, with what the dial can set; undefined without an exposure. */
export function shotBracket(
  { shot, gear, exposure }: DayShot,
  wanted: { readonly frames?: number; readonly stepStops?: number } = {},
): Bracket | undefined {
  if (exposure === undefined) return undefined;
  const frames = wanted.frames ?? shot.bracket?.frames?.value ?? 1;
  const stepStops = wanted.stepStops ?? Math.abs(shot.bracket?.step?.value ?? 1);
  // Half a step lies between two positions of the dial: a hair more, and all frames go to the same side.
  const middleSeconds = aHair * (exposure.filtered?.correctedSeconds ?? exposure.setting.seconds);
  return bracket(
    { middleSeconds, frames: Math.min(frames, 99), stepStops, dial: gear.dial, bulb: gear.bulb },
    { noiseReduction: gear.noiseReduction, gapSeconds: shot.gap?.value ?? 0 },
  );
}

/** How far the longest frame of a bracket lies beyond what the body can hold its shutter open, in stops; 0 when it can. */
export function bracketBeyondStops({ frames }: Bracket): number {
  const longest = frames.at(-1)?.setting;
  return longest === undefined ? 0 : beyondBodyStops(longest);
}
