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
  doc: 'A place lies more than 500 km from every other one of the plan. Latitude and longitude may be swapped, or a minus lost; where that brings it near, the mend is offered.',
  check(analysis, report) {
    for (const { place, kilometres, other, meant } of farPlaces(analysis)) {
      const text = meant === undefined ? undefined : coordinates.format(meant);
      report(
        place,
        `This lies ${Math.round(kilometres)} km from the nearest other place of the plan. ${text === undefined ? 'Check the order of latitude and longitude, and their signs.' : `Write ${text}?`}`,
        {
          related: also(other, 'The nearest other place.'),
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
