import type { Rule } from '../analysis.ts';
import { shotsOf } from './shots.ts';

/** The number of frames of a sweep follows from the angle of view; without it a panorama counts as one frame. */
export const sweepWithoutLens: Rule = {
  code: 'time/sweep-without-lens',
  severity: 'hint',
  doc: 'How many frames a panorama needs cannot be worked out without focal length and sensor, so that it counts as one frame in the timeline. Name the lens with its focal length, and the sensor of the body.',
  check(analysis, report) {
    if (analysis.bag.state === 'unread') return;
    for (const { shot, gear } of shotsOf(analysis)) {
      if (shot.sweep === undefined || shot.self.broken.has('lens') || shot.self.broken.has('body')) continue;
      const noFocal = gear.focalMillimetres === undefined;
      const noSensor = gear.sensor === undefined;
      if (!noFocal && !noSensor) continue;
      const missing =
        noFocal && noSensor
          ? 'focal length and sensor are'
          : noFocal
            ? 'the focal length is'
            : 'the sensor is';
      report(
        shot.sweep,
        `How many frames this sweep takes is open, since ${missing} not known: it counts as one. ${noFocal ? 'Write the lens as `wide @ 24 mm`.' : 'Write `sensor` in the body of the kit.'}`,
        { facts: { focalKnown: !noFocal, sensorKnown: !noSensor } },
      );
    }
  },
};
