import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { formatStops } from '../quantities/stops.ts';
import { lightOptions } from '../schedule/light.ts';
import { shotPanorama } from '../schedule/panorama.ts';
import { lightAt } from '../sky/light.ts';
import { shotsOf } from './shots.ts';

/** The light at the end of a sweep against that at its start, in stops, by the light model; the threshold `drift`. */
export const panoramaDrift: Rule = {
  code: 'exposure/panorama-drift',
  severity: 'hint',
  doc: 'From the first to the last frame of a panorama the light changes by more than the threshold `drift`, so that frames of one exposure do not join. Take fewer or shorter frames, or correct each for the light.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { startMs, endMs, visit } = shot;
      const { sweep } = shot.shot;
      const { at } = visit;
      if (sweep === undefined || at === undefined || startMs === undefined || endMs === undefined) continue;
      const columns = shotPanorama(shot.shot, shot.gear)?.columns ?? 1;
      if (columns < 2) continue;
      const stops = analysis.memory.sky.once(
        `sweep ${at.key} ${startMs} ${endMs} ${shot.light?.cloudShare}`,
        () => {
          const ev = lightAt(at.place, lightOptions(startMs, at, plan));
          return ev(endMs) - ev(startMs);
        },
      );
      if (Math.abs(stops) <= analysis.thresholds.drift) continue;
      report(
        sweep,
        `The ${columns} frames of this sweep take ${formatDuration((endMs - startMs) / 1000)}, and the light ${stops < 0 ? 'fades' : 'grows'} by ${formatStops(Math.abs(stops))} meanwhile. Take shorter frames, or lengthen each by its share.`,
        { facts: { columns, stops, totalSeconds: (endMs - startMs) / 1000 } },
      );
    }
  },
};
