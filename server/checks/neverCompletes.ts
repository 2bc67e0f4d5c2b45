import type { Rule } from '../analysis.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { latestCompletingStart } from '../schedule/drift.ts';
import { mend, mendFixes } from './mends.ts';
import { shotsOf, timePlace } from './shots.ts';
import { timeAt, writtenTime } from './wording.ts';

/**
 * At dusk the light can fade faster than an exposure collects it: ∫ L(t)/L(start) dt stays below the planned time for
 * as long as anybody waits (four hours). The latest start that completes is sought in the two hours before, by
 * bisection to the second, for the same amount of light: at an earlier start the meter says less time.
 */
export const neverCompletes: Rule = {
  code: 'exposure/never-completes',
  severity: 'error',
  doc: 'The light fades faster than this exposure collects it: however long the shutter stays open, the picture stays too dark. Start earlier, or take less filter, a wider aperture or more ISO.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { exposure, startMs, visit } = shot;
      const { at } = visit;
      const drift = exposure?.drift?.drift;
      if (exposure?.basis !== 'metered' || drift === undefined || !drift.neverCompletes) continue;
      if (at === undefined || startMs === undefined) continue;
      const wanted = exposure.filtered?.correctedSeconds ?? exposure.setting.seconds;
      const latest = analysis.memory.sky.once(
        `latest start ${at.key} ${startMs} ${wanted} ${shot.light?.cloudShare}`,
        () => latestCompletingStart(exposure, startMs, at, plan),
      );
      const text = latest === null ? undefined : writtenTime(latest, at, 'down');
      const { start } = shot.shot;
      const share = Math.round(drift.collectedShare * 100);
      report(
        timePlace(shot),
        `The light fades faster than this exposure collects it: of the ${formatShutter(wanted)} that are needed in steady light, ${share} % come together in ${formatShutter(drift.afterSeconds)}. ${latest === null ? 'No start in the two hours before completes either' : `Start by ${timeAt(Math.floor(latest / 60_000) * 60_000, at)}, and meter again then`}; or take less filter, a wider aperture or more ISO.`,
        {
          facts: {
            wantedSeconds: wanted,
            collectedShare: drift.collectedShare,
            latestStartMs: latest,
            ...(text === undefined || start === undefined
              ? {}
              : { mends: [mend(`Start at ${text}, and meter again`, start, text)] }),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
