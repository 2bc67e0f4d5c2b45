import type { Rule } from '../analysis.ts';
import { lensChoice } from '../quantities/focal.ts';
import { mend, mendFixes } from './mends.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';

/** Field of view, depth of field and whether the sun is in the frame all need the focal length that is set. */
export const zoomWithoutFocal: Rule = {
  code: 'kit/zoom-without-focal',
  severity: 'hint',
  doc: 'A zoom is named without the focal length that is set, so that nothing about the frame can be worked out. Write it behind an `@`, as in `wide @ 24 mm`.',
  check(analysis, report) {
    for (const { shot, gear } of shotsOf(analysis)) {
      const range = gear.lens?.focal;
      if (shot.lens === undefined || range === undefined) continue;
      if (shot.lens.value.focalMillimetres !== undefined) continue;
      const { shortestMillimetres: shortest, longestMillimetres: longest } = range.value;
      if (shortest === longest) continue;
      const { lens } = shot;
      const texts = [shortest, longest].map((focalMillimetres) =>
        lensChoice.format({ ...lens.value, focalMillimetres }),
      );
      report(lens, `${lens.value.lens} is a zoom: write the focal length too, from ${texts.join(' to ')}.`, {
        related: also(range, 'The focal lengths of the lens.'),
        facts: { open: true, mends: texts.map((text) => mend(`Write ${text}`, lens, text)) },
      });
    }
  },
  fixes: mendFixes,
};
