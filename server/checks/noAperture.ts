import type { Rule } from '../analysis.ts';
import { shotsOf } from './shots.ts';

/** A meter reading gives a shutter time only together with an aperture (ISO 2720). */
export const noAperture: Rule = {
  code: 'exposure/no-aperture',
  severity: 'hint',
  doc: 'A shot has a meter reading and no aperture, so that its shutter time cannot be worked out. Write one, as in `aperture: f/11`.',
  check(analysis, report) {
    for (const { shot, gear } of shotsOf(analysis)) {
      const { metered } = shot;
      if (metered === undefined || gear.fNumber !== undefined || shot.self.broken.has('aperture')) continue;
      if (metered.value.kind === 'time' && metered.value.aperture !== undefined) continue;
      report(
        metered,
        'Without an aperture no shutter time follows from this reading. Write `aperture: f/11`, for example.',
      );
    }
  },
};
