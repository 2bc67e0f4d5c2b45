import type { Checkable, Rule } from '../analysis.ts';
import { waterOf } from '../schedule/effects.ts';
import { shotCloudStreak, shotStreak } from '../schedule/motion.ts';
import { shotBracket } from '../schedule/scene.ts';
import { starLimits } from '../schedule/stars.ts';
import { capitalized } from '../text/sentence.ts';
import { figure } from './figures.ts';
import { skyOutside } from './polarizers.ts';
import { also, headOf } from './related.ts';
import { rangeOf, unnoticedStops } from './sceneAdvice.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/** Something that moves while a bracket is taken, and by how many pixels; absent while that is not known. */
interface Mover {
  readonly what: string;
  readonly name: 'water' | 'clouds' | 'stars';
  readonly pixels?: number;
  readonly note?: string;
}

/** Less than this a merge hides. Common practice, no source, as is all that follows. */
const hiddenPixels = 2;
/** Where it is not known how fast clouds go, a bracket done sooner than this is let pass. */
const quickSeconds = 1;
/** Below this altitude of the sun clouds have no shape that would show. */
const darkDegrees = -12;

/**
 * What moves from the middle of the first exposure of a bracket to that of the last: water by its speed and distance,
 * clouds by wind aloft and cloud base (server/optics/motion.ts), stars by the turn of the sky (server/optics/stars.ts).
 * Silky water and mist look alike in each frame and merge well.
 */
export const movesBetweenFrames: Rule = {
  code: 'effect/moves-between-frames',
  severity: 'hint',
  doc: 'In a bracket, water that is not smooth, clouds by the forecast and stars stand elsewhere in each frame, so that merging gives ghosts; where speeds and distances are known, the message says by how much. Merge only the parts that stand still and take what moves from one frame, or use a graduated filter. Silent where the scene fits one frame.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { bracket, effect } = shot.shot;
      if (bracket === undefined || (bracket.frames?.value ?? 1) < 2 || fitsOneFrame(analysis, shot)) continue;
      const seconds = betweenMiddles(shot);
      const movers = [
        water(analysis, shot, seconds),
        clouds(analysis, shot, seconds),
        stars(analysis, shot, seconds),
      ]
        .filter((mover) => mover !== undefined)
        .filter(({ pixels }) => pixels === undefined || pixels >= hiddenPixels);
      if (movers.length === 0) continue;
      const first = movers.map(moverText).join(', and ');
      report(
        bracket.frames ?? headOf(bracket),
        `${capitalized(first)} stand elsewhere in each frame of this bracket. Take ${movers.length > 1 ? 'what moves' : 'them'} from one frame when merging, or use a graduated filter instead.`,
        {
          related: also(effect, 'The effect.'),
          facts: {
            seconds: seconds ?? null,
            movers: movers.map(({ name }) => name),
            pixels: movers.map(({ pixels }) => pixels ?? null),
          },
        },
      );
    }
  },
};

/** Whether the scene is known to fit in one frame: then one of the bracket is chosen, and none are merged. */
function fitsOneFrame(analysis: Checkable, shot: ShotOfDay): boolean {
  const range = shot.shot.scene === undefined ? undefined : rangeOf(analysis, shot);
  return range?.missingStops !== undefined && range.spreadStops === 0 && range.missingStops <= unnoticedStops;
}

function moverText({ what, pixels, note }: Mover): string {
  const moves =
    pixels === undefined
      ? undefined
      : `about ${figure(pixels, pixels < 10 ? 1 : 0)} pixels from the first to the last`;
  const notes = [note, moves].filter((text) => text !== undefined).join('; ');
  return notes === '' ? what : `${what} (${notes})`;
}

/** From the middle of the first exposure to that of the last, in seconds; undefined while the times are not known. */
function betweenMiddles(shot: ShotOfDay): number | undefined {
  const found = shotBracket(shot);
  const first = found?.frames[0]?.setting.seconds;
  const last = found?.frames.at(-1)?.setting.seconds;
  if (found === undefined || first === undefined || last === undefined) return undefined;
  // Of a dark frame after the last one nothing is seen.
  const darkFrame = shot.gear.noiseReduction ? last : 0;
  return Math.max(found.totalSeconds - darkFrame - (first + last) / 2, 0);
}

/** A streak of one frame, as far as it goes in another time. */
function during(
  streak: { readonly pixels: number } | undefined,
  { exposure }: ShotOfDay,
  seconds: number | undefined,
): number | undefined {
  const one = exposure?.setting.seconds;
  if (streak === undefined || seconds === undefined || one === undefined || one <= 0) return undefined;
  return (streak.pixels * seconds) / one;
}

function withPixels(mover: Omit<Mover, 'pixels'>, pixels: number | undefined): Mover {
  return pixels === undefined ? mover : { ...mover, pixels };
}

function water({ thresholds }: Checkable, shot: ShotOfDay, seconds: number | undefined): Mover | undefined {
  const effect = shot.shot.effect?.value;
  const { spot } = shot.visit;
  const state = waterOf(shot.shot, spot)?.state?.value;
  if (state === 'dry' || state === 'frozen') return undefined;
  const streak = shotStreak(shot, spot);
  const pixels = during(streak, shot, seconds);
  if (effect === 'frozen') return withPixels({ what: 'the drops', name: 'water' }, pixels);
  if (effect === 'textured') return withPixels({ what: 'the strands of the water', name: 'water' }, pixels);
  // Without a look that is meant, water that runs on and on in the shortest frame comes out smooth in all of them.
  if (effect !== undefined || streak === undefined || pixels === undefined) return undefined;
  const shortest = shotBracket(shot)?.frames[0]?.setting.seconds ?? 0;
  const share = (streak.share * shortest) / streak.seconds;
  return share >= thresholds['textured-streak']
    ? undefined
    : { what: 'the waves and strands of the water', name: 'water', pixels };
}

function clouds(analysis: Checkable, shot: ShotOfDay, seconds: number | undefined): Mover | undefined {
  const plan = analysis.plan?.model;
  const { light } = shot;
  const streaks = shot.shot.effect?.value === 'cloud streaks';
  const what = streaks ? 'the streaks of the clouds' : 'the clouds';
  const mover = { what, name: 'clouds' as const };
  if (plan === undefined || light?.cloudShare === undefined) return streaks ? mover : undefined;
  if (skyOutside(shot) || light.sun.altitudeDegrees < darkDegrees) return undefined;
  if (light.overcast || light.cloudShare <= analysis.thresholds['clear-sky']) return undefined;
  const pixels = during(shotCloudStreak(shot, shot.visit.at, plan), shot, seconds);
  if (pixels === undefined && !streaks && (seconds ?? 0) < quickSeconds) return undefined;
  return withPixels({ ...mover, note: `${figure(light.cloudShare * 100)} % by the forecast` }, pixels);
}

function stars({ memory }: Checkable, shot: ShotOfDay, seconds: number | undefined): Mover | undefined {
  const effect = shot.shot.effect?.value;
  if (effect !== 'star points' && effect !== 'star trails') return undefined;
  const limits = starLimits(shot, shot.visit.at, memory.sky);
  const pixels = limits === undefined || seconds === undefined ? undefined : seconds / limits.pixelSeconds;
  return withPixels({ what: effect === 'star points' ? 'the stars' : 'the trails', name: 'stars' }, pixels);
}
