import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { trailArc } from '../schedule/stars.ts';
import { figure } from './figures.ts';
import { shotsOf, timePlace } from './shots.ts';

/** The sky turns by 15.041° an hour (IERS); the arc of all frames together against the threshold `trail-arc`. */
export const trailsTooShort: Rule = {
  code: 'effect/trails-too-short',
  severity: 'hint',
  doc: 'All frames together draw arcs shorter than the threshold `trail-arc`: stars look smeared rather than drawn. Expose longer, or take more frames.',
  check(analysis, report) {
    const least = analysis.thresholds['trail-arc'];
    for (const shot of shotsOf(analysis)) {
      if (shot.shot.effect?.value !== 'star trails') continue;
      const arc = trailArc(shot);
      if (arc === undefined || arc >= least || shot.frames === undefined) continue;
      const needed = (shot.frames.totalSeconds * least) / arc;
      report(
        timePlace(shot),
        `In ${formatDuration(shot.frames.totalSeconds)} the sky turns by ${figure(arc, 1)}°: short for star trails. ${figure(least, 1)}° take ${formatDuration(needed)}.`,
        { facts: { arcDegrees: arc, neededSeconds: needed } },
      );
    }
  },
};
