import type { Rule } from '../analysis.ts';
import { exactIso, markingGraceStops } from '../exposure/dial.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { formatStops } from '../quantities/stops.ts';
import { starLimits } from '../schedule/stars.ts';
import { figure, settingName } from './figures.ts';
import { mendFixes } from './mends.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf, timePlace } from './shots.ts';

/**
 * Stars that shall stay points against the turn of the sky. The pixel rule is geometry: focal · 7.292e-5 · cos δ. The
 * limit is the short NPF rule, (35·N + 30·p)/(f·cos δ): custom, F. Michaud, coefficients from memory. δ is the
 * declination in the frame at which stars move fastest.
 */
export const starsTrail: Rule = {
  code: 'effect/stars-trail',
  severity: 'warning',
  doc: 'The exposure is longer than stars stay points at this focal length, aperture, pixel size and part of the sky: they draw short lines. Expose shorter with more ISO or a wider aperture, take a shorter lens, or stack frames.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { exposure, gear } = shot;
      if (shot.shot.effect?.value !== 'star points' || exposure === undefined) continue;
      const limits = starLimits(shot, shot.visit.at, analysis.memory.sky);
      if (limits?.npfSeconds === undefined || limits.pixels === undefined) continue;
      const { seconds } = exposure.setting;
      const stops = Math.log2(seconds / limits.npfSeconds);
      if (stops <= markingGraceStops) continue;
      const positions = gear.dial.positions.filter(
        (position) => position.seconds <= (limits.npfSeconds as number) * 2 ** markingGraceStops,
      );
      const best = positions[0];
      const lost = best === undefined ? stops : Math.log2(seconds / best.seconds);
      const iso = exactIso(gear.iso) * 2 ** lost;
      const rounded = Number(iso.toPrecision(2));
      const where =
        limits.declinations === undefined
          ? 'at the celestial equator'
          : `at declination ${figure(limits.declination)}°, the fastest in the frame`;
      report(
        timePlace(shot),
        `In ${settingName(exposure.setting)} stars run over ${figure(limits.pixels, limits.pixels < 10 ? 1 : 0)} pixels ${where}. They stay points for about ${formatShutter(limits.npfSeconds)} by the short NPF rule (custom), for ${formatShutter(limits.pixelSeconds)} within one pixel.${best === undefined ? '' : ` ${best.label} s is ${formatStops(lost)} less: take ISO ${rounded}, a wider aperture, or stack frames.`}`,
        {
          facts: {
            seconds,
            pixels: limits.pixels,
            npfSeconds: limits.npfSeconds,
            pixelSeconds: limits.pixelSeconds,
            declinationDegrees: limits.declination,
            ...(best === undefined || shot.shot.shutter === undefined
              ? {}
              : {
                  mends: written([
                    mendShot(analysis, shot.shot, `Take ${best.label} s at ISO ${rounded}`, {
                      shutter: `${best.label} s`,
                      iso: String(rounded),
                    }),
                  ]),
                }),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
