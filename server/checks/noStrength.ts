import type { Rule } from '../analysis.ts';
import { mend, mendFixes } from './mends.ts';
import { headOf } from './related.ts';

/** A filter that only darkens is nothing without its strength: every time through it would be unknown. */
export const noStrength: Rule = {
  code: 'kit/no-strength',
  severity: 'error',
  doc: 'A neutral density or graduated filter says nothing of its strength, so that no time through it can be worked out. Write `strength: 6 stops` as engraved, or `measured:`; `loss` is for polarizers and colour filters.',
  check({ bag }, report) {
    for (const filter of bag.kit?.filters ?? []) {
      const { kind, strength, measured, loss, self } = filter;
      if (kind?.value !== 'neutral density' && kind?.value !== 'graduated') continue;
      if (strength !== undefined || measured !== undefined) continue;
      // One that is there and cannot be read has a finding of its own.
      if (self.keys.has('strength') || self.keys.has('measured')) continue;
      const key = self.keys.get('loss');
      report(
        loss ?? headOf(filter),
        loss === undefined
          ? 'This filter says nothing of its strength: no time through it can be worked out. Write what is engraved on it: strength: 6 stops, ND64, OD 1.8.'
          : `A ${kind.value} filter has a strength; loss is for polarizers and colour filters. Write strength: ${loss.text}.`,
        {
          facts: {
            kind: kind.value,
            mends:
              key === undefined ? [] : [mend('Write strength', { uri: self.uri, span: key }, 'strength')],
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
