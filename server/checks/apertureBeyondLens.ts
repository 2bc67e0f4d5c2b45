import type { Rule } from '../analysis.ts';
import { aperture } from '../quantities/aperture.ts';
import { mend, mendFixes } from './mends.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';
import { idOf } from './wording.ts';

/** A marking rounds the true f-number; this much is one marking. */
const sameMark = 0.05;

export const apertureBeyondLens: Rule = {
  code: 'kit/aperture-beyond-lens',
  severity: 'error',
  doc: 'The aperture is wider or smaller than the lens has. The nearest one that it has is offered.',
  check(analysis, report) {
    for (const { shot, gear } of shotsOf(analysis)) {
      const range = gear.lens?.aperture;
      if (shot.aperture === undefined || range === undefined) continue;
      const { widest, smallest } = range.value;
      const f = shot.aperture.value;
      if (f >= widest - sameMark && f <= smallest + sameMark) continue;
      const end = aperture.format(f < widest ? widest : smallest);
      report(
        shot.aperture,
        `${idOf(gear.lens ?? {}, 'This lens')} ${f < widest ? 'opens only to' : 'closes only to'} ${end}.`,
        {
          related: also(range, 'The apertures of the lens.'),
          facts: { fNumber: f, widest, smallest, mends: [mend(`Write ${end}`, shot.aperture, end)] },
        },
      );
    }
  },
  fixes: mendFixes,
};
