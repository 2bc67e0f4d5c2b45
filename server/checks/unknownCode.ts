import type { Rule } from '../analysis.ts';
import { nearest } from '../quantities/nearest.ts';
import { mend, mendFixes } from './mends.ts';

/** A severity for a code that no finding has does nothing. The list of codes is handed in, for this rule is part of it. */
export function unknownCode(codes: () => Iterable<string>): Rule {
  return {
    code: 'plan/unknown-code',
    severity: 'warning',
    doc: 'Under `checks` stands a code that no finding has, so that the line does nothing. The nearest one is offered.',
    check({ plan }, report) {
      const entries = plan?.model.checks?.entries ?? [];
      if (entries.length === 0) return;
      const known = new Set(codes());
      for (const { key } of entries) {
        if (known.has(key.value)) continue;
        const meant = nearest(key.value, known);
        report(
          key,
          `No finding has the code “${key.value.slice(0, 40)}”.${meant === undefined ? '' : ` Did you mean ${meant}?`}`,
          { facts: meant === undefined ? {} : { mends: [mend(`Write ${meant}`, key, meant)] } },
        );
      }
    },
    fixes: mendFixes,
  };
}
