import type { Rule } from '../analysis.ts';
import { formatStops } from '../quantities/stops.ts';
import { also } from './related.ts';

/** Labels round; more than this apart, one of the two is for another filter. Common practice, no source. */
const apartStops = 0.5;

export const labelVersusMeasured: Rule = {
  code: 'kit/label-and-measured',
  severity: 'hint',
  doc: 'Label and measured strength of a filter are more than half a stop apart. The measured one counts; make sure that it belongs to this filter.',
  check({ bag }, report) {
    for (const { strength, measured } of bag.kit?.filters ?? []) {
      if (strength === undefined || measured === undefined) continue;
      const apart = measured.value - strength.value.stops;
      if (Math.abs(apart) <= apartStops + 1e-9) continue;
      report(
        measured,
        `${formatStops(Math.abs(apart))} ${apart > 0 ? 'more' : 'less'} than the label says. The measured strength counts: is it that of this filter?`,
        { related: also(strength, 'The label.'), facts: { apartStops: apart } },
      );
    }
  },
};
