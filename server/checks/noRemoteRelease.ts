import type { Rule } from '../analysis.ts';
import { releaseCarried } from '../schedule/shake.ts';
import { isBeyondDoubt, shotsOf, timePlace } from './shots.ts';

/** Bulb needs a hand that does not touch the camera: common practice, no source. Told once, at the first such shot. */
export const noRemoteRelease: Rule = {
  code: 'exposure/no-remote-release',
  severity: 'warning',
  doc: 'A shot needs bulb, and the things carried name no remote release or timer: a finger on the button shakes the camera.',
  check(analysis, report) {
    if (releaseCarried(analysis.bag)) return;
    const first = shotsOf(analysis).find(
      ({ exposure }) =>
        exposure?.setting.kind === 'bulb' && isBeyondDoubt(exposure, exposure.setting.beyondStops),
    );
    if (first?.exposure?.setting.kind !== 'bulb') return;
    report(
      timePlace(first),
      `${first.exposure.setting.text} needs bulb, and \`carried\` names no remote release. Pack one, and add it there.`,
      { facts: { seconds: first.exposure.setting.seconds } },
    );
  },
};
