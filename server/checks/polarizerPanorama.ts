import type { Rule } from '../analysis.ts';
import { shotPanorama } from '../schedule/panorama.ts';
import { mendFixes } from './mends.ts';
import { mountedPolarizer } from './mounted.ts';
import { also } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf } from './shots.ts';

/** A clear sky is polarized most at 90° from the sun: frames of one sweep come out darkened differently. */
export const polarizerPanorama: Rule = {
  code: 'filter/polarizer-panorama',
  severity: 'warning',
  doc: 'A polarizer on a panorama darkens the sky and the water of each frame differently, by the angle to the sun, and the seams show. Take it off. Silent under a closed sky.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { sweep, filters } = shot.shot;
      const filter = mountedPolarizer(shot);
      if (sweep === undefined || filter === undefined || shot.light?.overcast === true) continue;
      const columns = shotPanorama(shot.shot, shot.gear)?.columns;
      if (columns === 1) continue;
      const others = (filters ?? []).filter(({ value }) => value !== filter.use.value);
      const rest = `[${others.map(({ value }) => value).join(', ')}]`;
      report(
        filter.use,
        `A polarizer darkens ${columns === undefined ? 'the' : `the ${columns}`} frames of this sweep differently, by their angle to the sun: the seams will show. Take it off for the panorama.`,
        {
          related: also(sweep, 'The sweep.'),
          facts: {
            columns: columns ?? null,
            mends: written([mendShot(analysis, shot.shot, 'Take the polarizer off', { filters: rest })]),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
