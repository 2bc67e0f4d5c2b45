import type { Rule } from '../analysis.ts';
import type { Bag } from '../plan/bag.ts';
import type { Filter } from '../plan/kitFields.ts';
import { threadSize } from '../quantities/length.ts';
import type { Gear } from '../schedule/gear.ts';
import { filterFits } from '../schedule/solutions.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';
import { idOf } from './wording.ts';

/**
 * A screw filter needs the thread of the lens, or a ring between the two; a square filter needs a holder of its width
 * and a ring from holder to lens. What the kit does not state is taken to fit.
 */
export const filterDoesNotFit: Rule = {
  code: 'filter/does-not-fit',
  severity: 'error',
  doc: 'The filter cannot be mounted on this lens: another thread, no holder, another slot, or no ring for the lens. The message says which ring is missing; a ring that is carried is written under `carried` with both diameters.',
  check(analysis, report) {
    const { bag } = analysis;
    for (const { gear } of shotsOf(analysis)) {
      for (const { use, filter } of gear.filters) {
        if (filterFits(filter, gear, bag)) continue;
        const why = reason(filter, gear, bag);
        if (why === undefined) continue;
        report(use, why, {
          related: [
            ...also(filter.slot ?? filter.thread, 'The filter.'),
            ...also(gear.lens?.thread, 'The thread of the lens.'),
          ],
        });
      }
    }
  },
};

function reason(filter: Filter, gear: Gear, bag: Bag): string | undefined {
  const name = idOf(filter, 'This filter');
  const lens = idOf(gear.lens ?? {}, 'the lens');
  const thread = gear.lens?.thread?.value;
  if (filter.slot !== undefined) {
    const { holder } = bag;
    if (bag.kit?.self.broken.has('holder') === true) return undefined;
    const width = threadSize.format(filter.slot.value);
    if (holder === undefined) return `${name} is a square filter of ${width}, and the kit has no holder.`;
    if (holder.slot !== undefined && Math.abs(holder.slot.value - filter.slot.value) > 0.5) {
      return `${name} is ${width} wide, and the holder takes ${threadSize.format(holder.slot.value)}.`;
    }
    const ring = thread === undefined ? 'a ring' : `a ${threadSize.format(thread)} ring`;
    return `The holder has no ring for ${lens}: ${ring} is missing.`;
  }
  if (filter.thread === undefined || thread === undefined) return undefined;
  const [own, wanted] = [filter.thread.value, thread];
  if (hasRing(bag, own, wanted)) return undefined;
  const sizes = `${name} has a thread of ${threadSize.format(own)}, ${lens} one of ${threadSize.format(wanted)}`;
  return own > wanted
    ? `${sizes}: a step-up ring ${plain(wanted)}-${plain(own)} mm is missing.`
    : `${sizes}: too small, it would darken the corners. Take a filter of ${threadSize.format(wanted)} or larger.`;
}

/** Whether a ring with both diameters is among the things carried. */
function hasRing({ carried }: Bag, a: number, b: number): boolean {
  return carried.some((thing) => {
    const numbers = (thing.match(/\d+(?:\.\d+)?/g) ?? []).map(Number);
    return thing.includes('ring') && numbers.includes(a) && numbers.includes(b);
  });
}

function plain(millimetres: number): string {
  return String(Math.round(millimetres * 10) / 10);
}
