import type { Rule } from '../analysis.ts';
import { coordinates } from '../quantities/coordinates.ts';
import { farPlaces } from './farPlaces.ts';
import { mend, mendFixes } from './mends.ts';
import { also } from './related.ts';

/**
 * A place far from every other one of the plan is a slip: latitude and longitude swapped, or a sign lost. The great
 * circle by the haversine formula.
 */
export const farAway: Rule = {
  code: 'time/far-away',
  severity: 'warning',
  doc: 'A place lies more than 500 km from every other one of the plan, or a subject from its spot; or more than 100 km, and right beside it once latitude and longitude are swapped or a sign is turned. The mend is offered.',
  check(analysis, report) {
    for (const { place, kilometres, other, meant, kind } of farPlaces(analysis)) {
      const text = meant === undefined ? undefined : coordinates.format(meant);
      report(
        place,
        `This lies ${Math.round(kilometres)} km from ${kind === 'subject' ? 'its spot' : 'the nearest other place of the plan'}. ${text === undefined ? 'Check the order of latitude and longitude, and their signs.' : `Write ${text}?`}`,
        {
          related: also(other, kind === 'subject' ? 'The spot.' : 'The nearest other place.'),
          facts: {
            kilometres,
            mends: text === undefined ? [] : [mend(`Write ${text}`, place, text)],
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
