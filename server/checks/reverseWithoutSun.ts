import type { Rule } from '../analysis.ts';
import { figure } from './figures.ts';
import { mountedGraduated } from './mounted.ts';
import { shotsOf } from './shots.ts';

/** The sun stands on the horizon for this filter from civil twilight to about ten degrees. Common practice, no source. */
const lowest = -6;
const highest = 10;

/** A reverse graduated filter is darkest at the horizon, for a sun or a glow that stands there. */
export const reverseWithoutSun: Rule = {
  code: 'filter/reverse-without-sun',
  severity: 'hint',
  doc: 'A reverse graduated filter is darkest at the horizon; without a low sun there it draws a dark band across the picture. Take a soft or hard edge instead.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const reverse = mountedGraduated(shot).find(({ filter }) => filter.edge?.value === 'reverse');
      const { light } = shot;
      if (reverse === undefined || light?.direction === undefined) continue;
      const altitude = light.sun.apparentAltitudeDegrees;
      const aside = Math.abs(light.direction.bearingFromFacingDegrees);
      const low = altitude >= lowest && altitude <= highest;
      if (low && aside < 45) continue;
      report(
        reverse.use,
        `${low ? `The sun stands ${figure(aside)}° from the lens axis` : `The sun stands ${figure(altitude)}° high`}: there is nothing bright on the horizon for a reverse filter. Take a soft or a hard edge.`,
        { facts: { sunAltitudeDegrees: altitude, sunFromFacingDegrees: aside } },
      );
    }
  },
};
