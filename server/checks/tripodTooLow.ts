import type { Rule } from '../analysis.ts';
import { figure } from './figures.ts';
import { also } from './related.ts';

/** The height that the camera must have against that of the tripod with its legs full out. */
export const tripodTooLow: Rule = {
  code: 'kit/tripod-too-low',
  severity: 'warning',
  doc: 'The camera must be higher to see over what is in front than the tripod goes. Bring a higher tripod, or stand elsewhere; standing on railings and walls is no way out.',
  check({ day, bag }, report) {
    const height = bag.kit?.tripod?.height;
    if (height === undefined) return;
    for (const { spot } of day?.spots ?? []) {
      const needed = spot.stance?.heightNeeded;
      if (needed === undefined || needed.value <= height.value + 0.005) continue;
      report(
        needed,
        `The camera must be ${figure(needed.value, 2)} m high here, the tripod reaches ${figure(height.value, 2)} m: ${figure((needed.value - height.value) * 100)} cm too low. Bring a higher one, or find another place; never stand on a railing or a wall for it.`,
        {
          related: also(height, 'The height of the tripod.'),
          facts: { neededMetres: needed.value, tripodMetres: height.value },
        },
      );
    }
  },
};
