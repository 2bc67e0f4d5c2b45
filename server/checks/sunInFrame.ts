import type { Rule } from '../analysis.ts';
import { burns, equivalentFocal } from '../optics/sunSafety.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { type SunInView, sunInView } from '../schedule/sunInView.ts';
import type { Severity } from '../text/finding.ts';
import { figure, framePlace } from './figures.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';
import { timeAt } from './wording.ts';

/**
 * The sun in or near the frame, up and over the skyline, from composing to the end of the last frame. The focused sun
 * harms the eye behind an optical finder within moments; filters for photography do not make it safe, and clouds in a
 * forecast do not either.
 */
export const sunInFrame: Rule = {
  code: 'safety/sun-in-frame',
  severity: 'warning',
  doc: 'The sun stands in the frame or within `sun-margin` of its edge, during the shot or in the half hour in which it is composed. Never look at it through an optical finder: this is an error there, whatever the forecast says. With long lenses it harms sensor and shutter too. A dark filter is never eye protection. Compose on the screen, or before the sun is there, and cover the lens in between.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    const margin = analysis.thresholds['sun-margin'];
    for (const shot of shotsOf(analysis)) {
      const { visit } = shot;
      const seen = sunInView(shot, visit, plan, margin, analysis.memory.sky);
      if (seen === undefined || visit.at === undefined) continue;
      const finder = shot.gear.body?.finder;
      const long = burns(seen.camera) && !seen.assumed;
      const dark = shot.gear.filters.length > 0;
      const advice = [
        seen.closedSky ? 'The forecast has it behind clouds, which break.' : '',
        finder?.value === 'optical'
          ? 'Never look through the optical finder: compose on the screen, or before the sun is there.'
          : finder === undefined
            ? 'Never look at it through an optical finder.'
            : 'Never look at it with the naked eye, and not for long on the screen.',
        long
          ? `At ${figure(seen.camera.focal)} mm it also harms sensor and shutter: cover the lens between frames.`
          : '',
        dark ? 'A dark filter is never eye protection.' : '',
        seen.assumed
          ? `Focal length or sensor is not known: ${figure(seen.camera.focal)} mm on ${figure(seen.camera.sensor.width)} × ${figure(seen.camera.sensor.height)} mm is taken.`
          : '',
      ];
      report(
        framePlace(shot),
        `${whereText(seen, visit.at)} ${advice.filter((part) => part !== '').join(' ')}`,
        {
          severity: severityOf(finder?.value, long, seen),
          related: also(finder, 'The finder of the body.'),
          facts: {
            atMs: seen.atMs,
            untilMs: seen.untilMs ?? null,
            inside: seen.inside,
            composing: seen.composing,
            closedSky: seen.closedSky,
            altitudeDegrees: seen.altitudeDegrees,
            finder: finder?.value ?? null,
            equivalentFocalMillimetres: equivalentFocal(seen.camera),
          },
        },
      );
    }
  },
};

function severityOf(finder: string | undefined, long: boolean, seen: SunInView): Severity {
  if (finder === 'optical') return 'error';
  if (seen.closedSky) return 'hint';
  return long || (seen.inside && !seen.composing && !seen.assumed) ? 'warning' : 'hint';
}

/** `At 06:55 the sun stands in the frame, 5° high.` */
export function whereText(seen: SunInView, at: SpotPlace): string {
  const { atMs, untilMs, inside, outsideDegrees, altitudeDegrees, composing } = seen;
  const until = untilMs === undefined ? '' : timeAt(untilMs, at);
  const time = timeAt(atMs, at);
  const from = until === '' || until === time ? `At ${time}` : `From ${time} to ${until}`;
  const where = inside ? 'in the frame' : `${figure(outsideDegrees, 1)}° outside the frame`;
  return `${from}${composing ? ', while you compose,' : ''} the sun stands ${where}, ${figure(altitudeDegrees, 1)}° high.`;
}
