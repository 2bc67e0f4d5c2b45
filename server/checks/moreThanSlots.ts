import type { Rule } from '../analysis.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';

/** A holder takes as many square filters as it has slots; filters that screw on the lens need none. */
export const moreThanSlots: Rule = {
  code: 'filter/more-than-slots',
  severity: 'error',
  doc: 'A shot takes more square filters than the holder has slots. Leave one out, or take a stronger one instead of two.',
  check(analysis, report) {
    const slots = analysis.bag.holder?.slots;
    if (slots === undefined) return;
    for (const { gear } of shotsOf(analysis)) {
      const square = gear.filters.filter(({ filter }) => filter.slot !== undefined);
      const extra = square[slots.value];
      if (extra === undefined) continue;
      const have = slots.value === 1 ? 'one slot' : `${slots.value} slots`;
      report(
        extra.use,
        `The holder has ${have}, and this shot takes ${square.length} square filters. Leave ${square.length - slots.value} out.`,
        {
          related: also(slots, 'The slots of the holder.'),
          facts: { slots: slots.value, filters: square.length },
        },
      );
    }
  },
};
