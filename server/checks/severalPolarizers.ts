import type { Rule } from '../analysis.ts';
import { mendFixes } from './mends.ts';
import { polarizersOf, takeOff } from './polarizers.ts';
import { shotsOf } from './shots.ts';

/** Two polarizers pass cos²θ of the light between them (Malus): from almost all to almost nothing. */
export const severalPolarizers: Rule = {
  code: 'filter/several-polarizers',
  severity: 'warning',
  doc: 'Two polarizers on one lens pass anything from most of the light to almost none, as they are turned: their stops do not add up. Take one off.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const second = polarizersOf(shot)[1];
      if (second === undefined) continue;
      report(
        second.use,
        'A second polarizer: together they take anything from a little to almost all light, as they are turned, so no time can be relied on. Take one off.',
        { facts: { mends: takeOff(analysis, shot, second) } },
      );
    }
  },
  fixes: mendFixes,
};
