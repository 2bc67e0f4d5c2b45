import type { Rule } from '../analysis.ts';
import { formatStops } from '../quantities/stops.ts';
import { wayWithFilter } from '../schedule/scene.ts';
import { mendFixes } from './mends.ts';
import { also, headOf } from './related.ts';
import { advice, bracketMend, filterMend, rangeOf, sceneText, unnoticedStops } from './sceneAdvice.ts';
import { written } from './shotEdits.ts';
import { shotsOf } from './shots.ts';

/**
 * A scene that one frame does not hold: scene − graduated filter > usable range of the body, all in stops. A graduated
 * filter of difference − keep (one stop) mends it, or a bracket of 1 + ceil((scene − range) / step) frames, spread
 * evenly about the middle, or both. Definitions of the project; the stop that stays is common practice, no source.
 */
export const rangeTooWide: Rule = {
  code: 'filter/range-too-wide',
  severity: 'warning',
  doc: 'The scene spans more stops than the body can hold in one frame, so that highlights clip or shadows drown. Take a graduated filter of the difference less one stop where the horizon allows it, a bracket, or both where the filter alone leaves too much; the message gives strength, number of frames and times. It needs `scene` in the shot and `range` in the kit; sky and foreground that are not metered are estimated and count only beyond their ±. Thresholds: `strongest-graduated`, `foreground-reflectance`.',
  check(analysis, report) {
    const strongest = analysis.thresholds['strongest-graduated'];
    for (const shot of shotsOf(analysis)) {
      const { scene, bracket } = shot.shot;
      const range = scene === undefined ? undefined : rangeOf(analysis, shot);
      if (scene === undefined || range?.missingStops === undefined || range.bodyStops === undefined) continue;
      if (range.missingStops <= Math.max(unnoticedStops, range.spreadStops) || bracket !== undefined)
        continue;
      const { framesNeeded: frames, graduatedStops, spreadStops } = range;
      const filter = wayWithFilter(range, strongest);
      const bare = frames === undefined ? undefined : { graduatedStops, frames, strongest: false };
      report(
        scene.range ?? scene.sky ?? scene.foreground ?? headOf(scene),
        `${sceneText(range)}, the body holds ${formatStops(range.bodyStops)}: ${spreadStops > 0 ? 'about ' : ''}${formatStops(range.missingStops)} too many.${advice(shot, range, [filter, bare])}`,
        {
          related: also(shot.gear.body?.range, 'What the body holds.'),
          facts: {
            sceneStops: range.sceneStops,
            spreadStops,
            bodyStops: range.bodyStops,
            missingStops: range.missingStops,
            graduatedStops: filter?.graduatedStops ?? null,
            framesWithFilter: filter?.frames ?? null,
            frames: frames ?? null,
            mends: written([
              filterMend(analysis, shot, range, filter?.graduatedStops),
              bracketMend(analysis, shot, range, frames),
            ]),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
