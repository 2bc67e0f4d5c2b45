import type { Rule } from '../analysis.ts';
import { noiseReductionFromSeconds } from '../exposure/exposure.ts';
import { formatDuration } from '../quantities/duration.ts';
import { starLimits } from '../schedule/stars.ts';
import { figure } from './figures.ts';
import { mend, mendFixes } from './mends.ts';
import { headOf } from './related.ts';
import { shotsOf } from './shots.ts';

/** A pause up to this is as short as bodies and timers make it. Common practice, no source. */
const shortestGapSeconds = 1;

/**
 * Trails put together from several frames have a gap wherever the shutter was closed for longer than the fastest star in
 * the frame takes over one pixel: pitch / (focal · 7.292e-5 · cos δ). Where the lens is not known, a second counts.
 */
export const trailGaps: Rule = {
  code: 'effect/trails-have-gaps',
  severity: 'hint',
  doc: 'Between the frames of star trails the shutter is closed for longer than a star takes over a pixel, by `gap` or by the dark frame of noise reduction: the arcs come out dashed. Take the shortest gap and switch noise reduction off.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { gear, exposure } = shot;
      if (shot.shot.effect?.value !== 'star trails' || (shot.shot.frames?.value ?? 1) < 2) continue;
      if (exposure === undefined) continue;
      const { seconds } = exposure.setting;
      const dark = gear.noiseReduction && seconds >= noiseReductionFromSeconds ? seconds : 0;
      const pause = dark + (shot.shot.gap?.value ?? 0);
      const stars = starLimits(shot, shot.visit.at, analysis.memory.sky);
      const unseen = Math.max(stars?.pixelSeconds ?? 0, shortestGapSeconds);
      if (pause <= unseen) continue;
      const runs = stars === undefined ? undefined : pause / stars.pixelSeconds;
      const far =
        runs === undefined ? '' : `, and stars run over ${figure(runs, runs < 10 ? 1 : 0)} pixels meanwhile`;
      const gap = `${Math.floor(unseen)} s`;
      const stated = shot.shot.gap;
      report(
        dark > 0 ? headOf(shot.shot) : (stated ?? headOf(shot.shot)),
        `The shutter is closed for ${formatDuration(pause)} between frames${dark > 0 ? ', most of it for the dark frame of noise reduction' : ''}${far}: the trails come out dashed. ${dark > 0 ? 'Switch noise reduction off for this shot.' : `Take a gap of ${gap} or less.`}`,
        {
          ...(dark > 0 ? { severity: 'warning' as const } : {}),
          facts: {
            pauseSeconds: pause,
            unseenSeconds: unseen,
            mends: dark > 0 || stated === undefined ? [] : [mend(`Take a gap of ${gap}`, stated, gap)],
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
