import type { Rule } from '../analysis.ts';
import { shotMoon } from '../schedule/stars.ts';
import { compass, figure, startPlace } from './figures.ts';
import { shotsOf } from './shots.ts';
import { timeAt } from './wording.ts';

/** A moon in the frame, or one so full that faint stars drown: the threshold `moon-fraction`. Common practice, no source. */
export const moonAmongStars: Rule = {
  code: 'light/moon-among-stars',
  severity: 'hint',
  doc: 'The moon is up during a shot of stars: in the frame it blows out, and from a lit share of `moon-fraction` on it washes out faint stars anywhere. Take another hour, or mean it.',
  check(analysis, report) {
    const bright = analysis.thresholds['moon-fraction'];
    for (const shot of shotsOf(analysis)) {
      const effect = shot.shot.effect?.value;
      if (effect !== 'star points' && effect !== 'star trails') continue;
      const { at } = shot.visit;
      const moon = shotMoon(shot, at);
      if (moon === undefined || at === undefined || shot.startMs === undefined) continue;
      if (!moon.up || moon.behindSkyline) continue;
      if (moon.inFrame !== true && moon.illuminatedFraction < bright) continue;
      report(
        startPlace(shot),
        `At ${timeAt(shot.startMs, at)} the moon, ${figure(moon.illuminatedFraction * 100)} % lit, stands ${figure(moon.apparentAltitudeDegrees)}° high at ${compass(moon.azimuthDegrees)}${moon.inFrame === true ? ', in the frame' : ''}: ${moon.inFrame === true ? 'it will blow out' : 'faint stars will drown'}.`,
        {
          facts: {
            altitudeDegrees: moon.apparentAltitudeDegrees,
            azimuthDegrees: moon.azimuthDegrees,
            illuminatedFraction: moon.illuminatedFraction,
            inFrame: moon.inFrame ?? null,
          },
        },
      );
    }
  },
};
