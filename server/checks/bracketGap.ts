import type { Rule } from '../analysis.ts';
import { formatStops } from '../quantities/stops.ts';
import { sceneRange } from '../schedule/scene.ts';
import { mendFixes } from './mends.ts';
import { advice } from './rangeTooWide.ts';
import { also, headOf } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf } from './shots.ts';

/** What a bracket holds: range + (frames − 1) · step, without gaps as long as the step is below the range. Stops. */
export const bracketGap: Rule = {
  code: 'exposure/bracket-leaves-gap',
  severity: 'warning',
  doc: 'The bracket does not hold the scene: its frames together reach fewer stops than the scene spans, or lie further apart than one frame holds. Take more frames, or another step.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { bracket, scene } = shot.shot;
      const range = bracket === undefined || scene === undefined ? undefined : sceneRange(shot);
      if (bracket === undefined || range?.missingStops === undefined || range.bodyStops === undefined)
        continue;
      const { stepStops, bodyStops, bracketStops, missingStops, framesNeeded } = range;
      const between = stepStops > bodyStops;
      const short = missingStops - bracketStops;
      if (!between && short <= 0.1) continue;
      report(
        bracket.frames ?? headOf(bracket),
        between
          ? `Steps of ${formatStops(stepStops)} leave a gap between frames that hold ${formatStops(bodyStops)} each. Take a smaller step.`
          : `This bracket holds ${formatStops(bodyStops + bracketStops)} of a scene of ${formatStops(range.sceneStops - range.graduatedStops)} and leaves out ${formatStops(short)}. ${advice(shot, range)}`,
        {
          related: also(scene?.range ?? scene?.sky, 'The scene.'),
          facts: {
            missingStops: short,
            frames: framesNeeded ?? null,
            ...(between || framesNeeded === undefined
              ? {}
              : {
                  mends: written([
                    mendShot(analysis, shot.shot, `Bracket ${framesNeeded} frames`, {
                      bracket: `{ frames: ${framesNeeded}, step: ${formatStops(stepStops)} }`,
                    }),
                  ]),
                }),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
