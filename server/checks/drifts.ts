import type { Rule } from '../analysis.ts';
import { beyondBodyStops } from '../exposure/setting.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { formatStops } from '../quantities/stops.ts';
import { heldSetting } from '../schedule/drift.ts';
import { mendFixes } from './mends.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf, timePlace } from './shots.ts';

/** From a whole stop on, the picture is spoilt and not only off. */
const spoiltStops = 1;

/**
 * Light that changes while the shutter is open. The time T for which ∫ L(t)/L(start) dt is the planned time, against the
 * planned time itself, in stops; reciprocity of exposure, ISO 2720, with the light model of the sky.
 */
export const drifts: Rule = {
  code: 'exposure/drift',
  severity: 'hint',
  doc: 'The light changes during the exposure, so that the plain time would come out too dark at dusk or too bright at dawn. The message gives the time that collects the planned light. From a whole stop on it is a warning. The threshold `drift` says from how many stops on.',
  check(analysis, report) {
    const allowed = analysis.thresholds.drift;
    for (const shot of shotsOf(analysis)) {
      const { exposure } = shot;
      const drift = exposure?.drift;
      if (exposure?.basis !== 'metered' || drift === undefined || drift.drift.neverCompletes) continue;
      if (Math.abs(drift.stops) <= allowed) continue;
      const plain = exposure.filtered?.correctedSeconds ?? exposure.setting.seconds;
      const seconds = drift.drift.seconds;
      const right = formatShutter(seconds);
      const fades = drift.stops > 0;
      const held = heldSetting(exposure, allowed);
      // The body may not hold its shutter open for so long; what it needs instead is said by the rules of its limits.
      const canHold = beyondBodyStops(held) === 0;
      const advice = canHold
        ? `Expose for ${right}, or start ${fades ? 'earlier' : 'later'}.`
        : 'The body cannot: start earlier, or take less filter, a wider aperture or more ISO.';
      report(
        timePlace(shot),
        `The light ${fades ? 'fades' : 'grows'} while the shutter is open: ${right} collects what ${formatShutter(plain)} would in steady light, ${formatStops(Math.abs(drift.stops))} ${fades ? 'more' : 'less'}. ${advice}`,
        {
          ...(Math.abs(drift.stops) >= spoiltStops ? { severity: 'warning' as const } : {}),
          facts: {
            plainSeconds: plain,
            driftSeconds: seconds,
            driftStops: drift.stops,
            mends: canHold
              ? written([mendShot(analysis, shot.shot, `Expose for ${right}`, { shutter: right })])
              : [],
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
