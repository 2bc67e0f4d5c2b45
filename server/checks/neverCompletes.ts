import type { Rule } from '../analysis.ts';
import { metered } from '../quantities/metered.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { type CompletingStart, latestCompletingStart } from '../schedule/drift.ts';
import { mendFixes } from './mends.ts';
import { mendShot, written } from './shotEdits.ts';
import { type ShotOfDay, shotsOf, timePlace } from './shots.ts';
import { timeAt, writtenTime } from './wording.ts';

/**
 * At dusk the light can fade faster than an exposure collects it: ∫ L(t)/L(start) dt stays below the planned time for
 * as long as anybody waits (four hours). The latest start that completes is sought in the two hours before, by
 * bisection, for the same amount of light and within the longest time of the body: at an earlier start the meter says less
 * time. The mend writes that reading too, as the light model gives it, for the old one does not hold there.
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
        `latest start ${at.key} ${startMs} ${wanted} ${shot.light?.cloudShare} ${JSON.stringify(shot.gear.bulb)} ${shot.gear.dial.longest.seconds}`,
        () => latestCompletingStart(exposure, startMs, at, plan),
      );
      const text = latest === null ? undefined : writtenTime(latest.startMs, at, 'down');
      const reading = latest === null ? undefined : readingThen(shot, latest);
      const expected = reading === undefined ? '' : `, where about ${reading} is expected`;
      const share = Math.round(drift.collectedShare * 100);
      report(
        timePlace(shot),
        `The light fades faster than this exposure collects it: of the ${formatShutter(wanted)} that are needed in steady light, ${share} % come together in ${formatShutter(drift.afterSeconds)}. ${latest === null ? 'No start in the two hours before completes either' : `Start by ${timeAt(latest.startMs, at)}${expected}, and meter again then`}; or take less filter, a wider aperture or more ISO.`,
        {
          facts: {
            wantedSeconds: wanted,
            collectedShare: drift.collectedShare,
            latestStartMs: latest?.startMs ?? null,
            brighterStops: latest?.brighterStops ?? null,
            mends:
              text === undefined || reading === undefined || shot.shot.start === undefined
                ? []
                : written([
                    mendShot(analysis, shot.shot, `Start at ${text}, with ${reading} expected there`, {
                      start: text,
                      metered: reading,
                    }),
                  ]),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

/** The reading that is expected at another start, as it is written; rounded to the brighter side, so that it completes. */
function readingThen({ shot, gear }: ShotOfDay, { brighterStops }: CompletingStart): string | undefined {
  const reading = shot.metered?.value;
  if (reading === undefined) return undefined;
  if (reading.kind === 'ev') {
    return metered.format({ kind: 'ev', ev100: Math.ceil((reading.ev100 + brighterStops) * 10) / 10 });
  }
  const seconds = reading.seconds * 2 ** -brighterStops;
  const marks = gear.dial.positions.map(({ nominalSeconds }) => nominalSeconds);
  return metered.format({ ...reading, seconds: marks.find((mark) => mark <= seconds) ?? seconds });
}
