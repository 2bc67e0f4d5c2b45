import type { Rule } from '../analysis.ts';
import { formatStops } from '../quantities/stops.ts';
import { wayWithBracket, wayWithFilter } from '../schedule/scene.ts';
import { mendFixes } from './mends.ts';
import { also, headOf } from './related.ts';
import { advice, bracketMend, filterMend, rangeOf, unnoticedStops } from './sceneAdvice.ts';
import { written } from './shotEdits.ts';
import { shotsOf } from './shots.ts';

/** What a bracket holds: range + (frames − 1) · step, without gaps as long as the step is below the range. Stops. */
export const bracketGap: Rule = {
  code: 'exposure/bracket-leaves-gap',
  severity: 'warning',
  doc: 'The bracket does not hold the scene: its frames together reach fewer stops than the scene spans, or lie further apart than one frame holds. Take more frames, another step, or a graduated filter that makes up for the rest.',
  check(analysis, report) {
    const strongest = analysis.thresholds['strongest-graduated'];
    for (const shot of shotsOf(analysis)) {
      const { bracket, scene } = shot.shot;
      const range = bracket === undefined || scene === undefined ? undefined : rangeOf(analysis, shot);
      if (bracket === undefined || range?.missingStops === undefined || range.bodyStops === undefined)
        continue;
      const { stepStops, bodyStops, bracketStops, missingStops, framesNeeded, graduatedStops } = range;
      const between = stepStops > bodyStops;
      const short = missingStops - bracketStops;
      if (!between && short <= Math.max(unnoticedStops, range.spreadStops)) continue;
      const filter = wayWithBracket(range, strongest) ?? wayWithFilter(range, strongest);
      const more =
        framesNeeded === undefined ? undefined : { graduatedStops, frames: framesNeeded, strongest: false };
      report(
        bracket.frames ?? headOf(bracket),
        between
          ? `Steps of ${formatStops(stepStops)} leave a gap between frames that hold ${formatStops(bodyStops)} each. Take steps of ${formatStops(bodyStops)} or less.`
          : `This bracket holds ${formatStops(bodyStops + bracketStops)} of a scene of ${formatStops(range.sceneStops - graduatedStops)} and leaves out ${formatStops(short)}.${advice(shot, range, [filter, more])}`,
        {
          related: also(scene?.range ?? scene?.sky, 'The scene.'),
          facts: {
            missingStops: short,
            frames: framesNeeded ?? null,
            ...(between
              ? {}
              : {
                  graduatedStops: filter?.graduatedStops ?? null,
                  mends: written([
                    bracketMend(analysis, shot, range, framesNeeded),
                    filterMend(analysis, shot, range, filter?.graduatedStops),
                  ]),
                }),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
