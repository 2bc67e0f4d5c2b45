import { numbersIn, type Rule } from '../analysis.ts';
import { nearest } from '../quantities/nearest.ts';
import { thresholds } from '../schedule/thresholds.ts';
import { mend, mendFixes } from './mends.ts';

export const unknownThreshold: Rule = {
  code: 'plan/unknown-threshold',
  severity: 'warning',
  doc: 'Under `thresholds` stands a name that no threshold has, or a value that is no number, so that the line does nothing.',
  check({ plan }, report) {
    const written = plan?.model.thresholds;
    const names = thresholds.map(({ name }): string => name);
    const numbers = numbersIn(written);
    for (const { key, value } of written?.entries ?? []) {
      const known = thresholds.find(({ name }) => name === key.value);
      if (known === undefined) {
        const meant = nearest(key.value, names);
        report(
          key,
          `There is no threshold “${key.value.slice(0, 40)}”. ${meant === undefined ? `There are: ${names.join(', ')}.` : `Did you mean ${meant}?`}`,
          { facts: meant === undefined ? {} : { mends: [mend(`Write ${meant}`, key, meant)] } },
        );
      } else if (!numbers.has(key.value)) {
        const usual = `${Number(known.value.toFixed(3))}`;
        const written = value.text.slice(0, 40);
        const decimal = /^[-+]?\d{1,9},\d{1,9}$/.test(written) ? written.replace(',', '.') : undefined;
        report(
          value,
          decimal === undefined
            ? `“${written}” is no number. \`${known.name}\` is ${measuredIn(known.unit)} without a unit behind it, such as ${usual}.`
            : `“${written}” has a decimal comma and is not read. Write ${decimal}.`,
          {
            facts: { mends: [mend(`Write ${decimal ?? usual}`, value, decimal ?? usual)] },
          },
        );
      }
    }
  },
  fixes: mendFixes,
};

/** How a threshold counts: a share and a factor have no unit. */
function measuredIn(unit: string): string {
  if (unit === '×') return 'a factor';
  if (unit === 'share') return 'a share from 0 to 1';
  return unit === '°' ? 'a number of degrees' : `a number of ${unit}`;
}
