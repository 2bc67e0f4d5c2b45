import { type Bracket, bracket, bracketFrames, graduatedStrength } from '../exposure/bracket.ts';
import type { DayShot } from './day.ts';
import { type FilterUse, stackPart } from './gear.ts';
import { present } from './present.ts';

/** A scene against what the body holds. All in stops. */
export interface SceneRange {
  /** From the darkest part that shall show something to the brightest. */
  readonly sceneStops: number;
  /** How much brighter the sky is than the foreground, where both were metered. */
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

/** The scene of a shot; undefined without a `scene` that says how bright it is. */
export function sceneRange({ shot, gear }: DayShot): SceneRange | undefined {
  const { scene } = shot;
  if (scene === undefined || scene.self.broken.size > 0 || shot.self.broken.has('bracket')) return undefined;
  const sky = scene.sky?.value;
  const foreground = scene.foreground?.value;
  const difference = sky === undefined || foreground === undefined ? undefined : sky - foreground;
  const sceneStops = scene.range?.value ?? (difference === undefined ? undefined : Math.abs(difference));
  if (sceneStops === undefined) return undefined;
  const keepStops = scene.keep?.value ?? 1;
  const bodyStops = gear.body?.range?.value;
  const graduatedStops = gear.filters.reduce((sum, use) => sum + graduatedOf(use), 0);
  const stepStops = Math.abs(shot.bracket?.step?.value ?? 1);
  const bracketStops = ((shot.bracket?.frames?.value ?? 1) - 1) * stepStops;
  const left = Math.max(sceneStops - graduatedStops, 0);
  const missingStops = bodyStops === undefined ? undefined : Math.max(left - bodyStops, 0);
  const wantedGraduatedStops =
    sky !== undefined && foreground !== undefined
      ? graduatedStrength({ skyEv: sky, foregroundEv: foreground, keepStops })
      : bodyStops === undefined
        ? undefined
        : Math.max(sceneStops - bodyStops, 0);
  return present({
    sceneStops,
    skyOverForegroundStops: difference,
    keepStops,
    bodyStops,
    graduatedStops,
    missingStops,
    wantedGraduatedStops,
    bracketStops,
    stepStops,
    framesNeeded:
      bodyStops === undefined || stepStops === 0
        ? undefined
        : bracketFrames({ sceneStops: left, rangeStops: bodyStops, stepStops }),
  });
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
