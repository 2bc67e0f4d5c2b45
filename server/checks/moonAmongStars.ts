import type { Rule } from '../analysis.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { moonAt, moonDuring, type ShotMoon, type Stretch } from '../schedule/stars.ts';
import { compass, figure, startPlace } from './figures.ts';
import { shotsOf } from './shots.ts';
import { timeAt, unnoticedMs } from './wording.ts';

/** A moon in the frame, or one so full that faint stars drown: the threshold `moon-fraction`. Common practice, no source. */
export const moonAmongStars: Rule = {
  code: 'light/moon-among-stars',
  severity: 'hint',
  doc: 'The moon is up at some time of a shot of stars: in the frame it blows out, and from a lit share of `moon-fraction` on it washes out faint stars anywhere. The whole shot is looked at, from the first frame to the last. Take another hour, or mean it.',
  check(analysis, report) {
    const bright = analysis.thresholds['moon-fraction'];
    for (const shot of shotsOf(analysis)) {
      const effect = shot.shot.effect?.value;
      if (effect !== 'star points' && effect !== 'star trails') continue;
      const { at } = shot.visit;
      const during = moonDuring(shot, at, analysis.memory.sky);
      const stretch = during?.inFrame ?? during?.seen;
      if (at === undefined || shot.startMs === undefined || stretch === undefined) continue;
      const moon = moonAt(stretch.fromMs, shot, at);
      const framed = during?.inFrame !== undefined;
      if (!framed && moon.illuminatedFraction < bright) continue;
      const whole = { fromMs: shot.startMs, toMs: Math.max(shot.endMs ?? shot.startMs, shot.startMs) };
      report(
        startPlace(shot),
        `${where(moon, stretch, whole, framed, at)}: ${framed ? 'it will blow out' : 'faint stars will drown'}.`,
        {
          facts: {
            altitudeDegrees: moon.apparentAltitudeDegrees,
            azimuthDegrees: moon.azimuthDegrees,
            illuminatedFraction: moon.illuminatedFraction,
            inFrame: moon.inFrame === undefined ? null : framed,
            fromMs: stretch.fromMs,
            toMs: stretch.toMs,
          },
        },
      );
    }
  },
};

/** When and where the moon stands, and until when where that is not the end of the shot. */
function where(moon: ShotMoon, stretch: Stretch, whole: Stretch, framed: boolean, at: SpotPlace): string {
  const fromStart = stretch.fromMs - whole.fromMs < unnoticedMs;
  const toEnd = whole.toMs - stretch.toMs < unnoticedMs;
  const from = timeAt(stretch.fromMs, at);
  const lit = `the moon, ${figure(moon.illuminatedFraction * 100)} % lit,`;
  const place = `${figure(moon.apparentAltitudeDegrees)}° high at ${compass(moon.azimuthDegrees)}`;
  const inFrame = framed ? ', in the frame' : '';
  if (fromStart) {
    return `At ${from} ${lit} stands ${place}${inFrame}${toEnd ? '' : ` until ${timeAt(stretch.toMs, at)}`}`;
  }
  const to = toEnd ? 'the end of the shot' : timeAt(stretch.toMs, at);
  return `From ${from} to ${to} ${lit} is ${framed ? 'in the frame' : 'up'}, at first ${place}`;
}
