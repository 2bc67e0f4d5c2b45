import type { Rule } from '../analysis.ts';
import { noiseReductionFromSeconds } from '../exposure/exposure.ts';
import { formatDuration } from '../quantities/duration.ts';
import { headOf } from './related.ts';
import { shotsOf } from './shots.ts';

/** A longer pause than this shows in the arc. Common practice, no source. */
const longestGapSeconds = 1;

/** Trails put together from several frames have a gap wherever the shutter was closed. */
export const trailGaps: Rule = {
  code: 'effect/trails-have-gaps',
  severity: 'hint',
  doc: 'Between the frames of star trails the shutter is closed for longer than a second, by `gap` or by the dark frame of noise reduction: the arcs come out dashed. Take the shortest gap and switch noise reduction off.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { gear, exposure } = shot;
      if (shot.shot.effect?.value !== 'star trails' || (shot.shot.frames?.value ?? 1) < 2) continue;
      if (exposure === undefined) continue;
      const { seconds } = exposure.setting;
      const dark = gear.noiseReduction && seconds >= noiseReductionFromSeconds ? seconds : 0;
      const pause = dark + (shot.shot.gap?.value ?? 0);
      if (pause <= longestGapSeconds) continue;
      report(
        dark > 0 ? headOf(shot.shot) : (shot.shot.gap ?? headOf(shot.shot)),
        `The shutter is closed for ${formatDuration(pause)} between frames${dark > 0 ? ', most of it for the dark frame of noise reduction' : ''}: the trails come out dashed. ${dark > 0 ? 'Switch noise reduction off for this shot.' : 'Take a gap of 1 s or less.'}`,
        { ...(dark > 0 ? { severity: 'warning' as const } : {}), facts: { pauseSeconds: pause } },
      );
    }
  },
};
