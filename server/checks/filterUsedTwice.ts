import type { Rule } from '../analysis.ts';
import { mendFixes } from './mends.ts';
import { takeOff } from './polarizers.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';

/** An id stands for one thing in the bag, and that can be on the lens once. */
export const filterUsedTwice: Rule = {
  code: 'filter/used-twice',
  severity: 'error',
  doc: 'A shot names one filter of the kit twice, so that its stops count twice. Take one out, or give a second filter of that strength an id of its own in the kit.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const first = new Map<string, (typeof shot.gear.filters)[number]>();
      for (const use of shot.gear.filters) {
        const id = use.use.value;
        const before = first.get(id);
        if (before === undefined) first.set(id, use);
        // Of two polarizers another rule speaks, whether they are one or two.
        if (before === undefined || use.filter.kind?.value === 'polarizer') continue;
        report(
          use.use,
          `${id} stands here twice, and the kit has one: its stops count twice. Take one out, or give a second one an id of its own in the kit.`,
          { related: also(before.use, 'Here already.'), facts: { mends: takeOff(analysis, shot, use) } },
        );
      }
    }
  },
  fixes: mendFixes,
};
