import type { Rule } from '../analysis.ts';
import { focalLength, lensChoice } from '../quantities/focal.ts';
import { mend, mendFixes } from './mends.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';

/** Engraved focal lengths are rounded; half a millimetre is none. */
const sameMillimetres = 0.5;

export const focalBeyondLens: Rule = {
  code: 'kit/focal-beyond-lens',
  severity: 'error',
  doc: 'The focal length is shorter or longer than the lens has. The nearest one that it has is offered.',
  check(analysis, report) {
    for (const { shot, gear } of shotsOf(analysis)) {
      const range = gear.lens?.focal;
      const focal = shot.lens?.value.focalMillimetres;
      if (shot.lens === undefined || range === undefined || focal === undefined) continue;
      const { shortestMillimetres: shortest, longestMillimetres: longest } = range.value;
      if (focal >= shortest - sameMillimetres && focal <= longest + sameMillimetres) continue;
      const nearest = focal < shortest ? shortest : longest;
      const text = lensChoice.format({ ...shot.lens.value, focalMillimetres: nearest });
      report(
        shot.lens,
        `${shot.lens.value.lens} ${shortest === longest ? `has ${focalLength.format(range.value)} only` : `reaches from ${shortest} mm to ${longest} mm`}; ${focal} mm is too ${focal < shortest ? 'short' : 'long'}. Write ${text}.`,
        {
          related: also(range, 'The focal lengths of the lens.'),
          facts: { focalMillimetres: focal, mends: [mend(`Write ${text}`, shot.lens, text)] },
        },
      );
    }
  },
  fixes: mendFixes,
};
