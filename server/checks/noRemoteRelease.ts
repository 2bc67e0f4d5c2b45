import type { Rule } from '../analysis.ts';
import type { BulbSetting } from '../exposure/setting.ts';
import { heldSetting } from '../schedule/drift.ts';
import { releaseCarried } from '../schedule/shake.ts';
import { isBeyondDoubt, type ShotOfDay, shotsOf, timePlace } from './shots.ts';

/** Bulb needs a hand that does not touch the camera: common practice, no source. Told once, at the first such shot. */
export const noRemoteRelease: Rule = {
  code: 'exposure/no-remote-release',
  severity: 'warning',
  doc: 'A shot needs bulb, and the things carried name no remote release or timer: a finger on the button shakes the camera.',
  check(analysis, report) {
    if (releaseCarried(analysis.bag)) return;
    const first = shotsOf(analysis).find((shot) => bulbTime(shot, analysis.thresholds.drift) !== undefined);
    const held = first === undefined ? undefined : bulbTime(first, analysis.thresholds.drift);
    if (first === undefined || held === undefined) return;
    report(
      timePlace(first),
      `${held.text} needs bulb, and \`carried\` names no remote release. Pack one, and add it there.`,
      { facts: { seconds: held.seconds } },
    );
  },
};

/** The bulb exposure that a shot needs beyond doubt. */
function bulbTime({ exposure }: ShotOfDay, driftStops: number): BulbSetting | undefined {
  if (exposure === undefined) return undefined;
  const held = heldSetting(exposure, driftStops);
  return held.kind === 'bulb' && isBeyondDoubt(exposure, held.beyondStops) ? held : undefined;
}
