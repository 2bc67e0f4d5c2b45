import type { Checkable, Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { also, headOf } from './related.ts';
import { shotsOf } from './shots.ts';
import { shotName } from './wording.ts';

/**
 * The time for which the shutter stands open, summed over the shots of a body in their order, against what one charge
 * holds. Every spare battery that is carried counts as one more charge.
 */
export const battery: Rule = {
  code: 'kit/battery',
  severity: 'warning',
  doc: 'The exposures of the day take longer than the batteries hold the shutter open: one charge by the kit’s `battery`, and one for each spare that is carried. Cold makes it worse.',
  check(analysis, report) {
    const used = new Map<string, { seconds: number; told: boolean }>();
    for (const { shot, gear, frames, place } of shotsOf(analysis)) {
      const id = gear.body?.id?.value;
      const charge = gear.body?.battery;
      if (id === undefined || charge === undefined || frames === undefined) continue;
      const sum = used.get(id) ?? { seconds: 0, told: false };
      sum.seconds += frames.openSeconds;
      used.set(id, sum);
      const charges = 1 + spares(analysis);
      const heldSeconds = charge.value * charges;
      if (sum.told || sum.seconds <= heldSeconds) continue;
      sum.told = true;
      report(
        headOf(shot),
        `With ${shotName(shot, place)} the shutter has stood open for ${formatDuration(Math.round(sum.seconds / 60) * 60)}, and ${charges === 1 ? 'one charge holds' : `${charges} charges hold`} ${formatDuration(heldSeconds)}. Carry a spare battery, or take fewer or shorter frames.`,
        {
          related: also(charge, 'One charge.'),
          facts: { openSeconds: sum.seconds, heldSeconds, charges },
        },
      );
    }
  },
};

/** How many spare batteries are carried: `spare battery` is one, `2 spare batteries` are two. */
function spares({ bag }: Checkable): number {
  return bag.carried
    .filter((thing) => thing.includes('batter'))
    .reduce((sum, thing) => sum + Number(/^\d{1,2}(?=\s)/.exec(thing)?.[0] ?? 1), 0);
}
