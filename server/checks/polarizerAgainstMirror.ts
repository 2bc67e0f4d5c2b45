import type { Rule } from '../analysis.ts';
import { mendFixes } from './mends.ts';
import { polarizersOf, takeOff } from './polarizers.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';

/** A reflection on water is polarized along the surface, and that is what a polarizer takes (Fresnel; Brewster at 53°). */
export const polarizerAgainstMirror: Rule = {
  code: 'filter/polarizer-against-mirror',
  severity: 'warning',
  doc: 'The shot wants the reflection on the water, and a polarizer takes reflections away. Take it off, or turn it so that the reflection stays.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const [use] = polarizersOf(shot);
      const { effect } = shot.shot;
      if (use === undefined || effect?.value !== 'mirror') continue;
      report(
        use.use,
        'This shot wants the reflection, and a polarizer takes it away. Take it off, or turn it until the reflection is strongest.',
        { related: also(effect, 'The effect.'), facts: { mends: takeOff(analysis, shot, use) } },
      );
    }
  },
  fixes: mendFixes,
};
