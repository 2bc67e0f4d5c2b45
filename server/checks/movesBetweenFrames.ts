import type { Rule } from '../analysis.ts';
import { also, headOf } from './related.ts';
import { shotsOf } from './shots.ts';

/** Looks in which one frame differs from the next. Silky water and mist look alike in each and merge well. */
const differs: ReadonlyMap<string, string> = new Map([
  ['frozen', 'The drops'],
  ['textured', 'The strands of the water'],
  ['cloud streaks', 'The streaks of the clouds'],
  ['star points', 'The stars'],
  ['star trails', 'The trails'],
]);

/** Common practice, no source. */
export const movesBetweenFrames: Rule = {
  code: 'effect/moves-between-frames',
  severity: 'hint',
  doc: 'In a bracket, textured or frozen water, clouds and stars stand elsewhere in each frame, so that merging gives ghosts. Merge only the parts that stand still and take what moves from one frame, or use a graduated filter.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { bracket, effect } = shot.shot;
      const what = effect === undefined ? undefined : differs.get(effect.value);
      if (bracket === undefined || what === undefined || (bracket.frames?.value ?? 1) < 2) continue;
      report(
        bracket.frames ?? headOf(bracket),
        `${what} stand elsewhere in each frame of this bracket. Take them from one frame when merging, or use a graduated filter instead.`,
        { related: also(effect, 'The effect.'), facts: {} },
      );
    }
  },
};
