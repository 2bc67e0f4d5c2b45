import type { Rule } from '../analysis.ts';
import { exactFNumber, fNumberPositions } from '../exposure/dial.ts';
import { circleOfConfusion, depthOfField, focusForDepth, focusStack, hyperfocal } from '../optics/depth.ts';
import { aperture } from '../quantities/aperture.ts';
import type { Fact } from '../text/finding.ts';
import { metres } from './figures.ts';
import { mendFixes } from './mends.ts';
import { also } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf } from './shots.ts';

/** A hundredth of a distance is nobody's sharpness. */
const grace = 1.02;

/**
 * Depth of field by thin-lens geometry (S. F. Ray, Applied Photographic Optics): near = s(H − f)/(H + s − 2f), far =
 * s(H − f)/(H − s), H = f²/(N·c) + f; the circle of confusion c is custom, 0.030 mm on 36 × 24 mm.
 */
export const notSharp: Rule = {
  code: 'focus/not-sharp',
  severity: 'warning',
  doc: 'The nearest thing that shall be sharp, or the subject, lies outside the depth of field at this focus and aperture. Focus elsewhere, stop down, or stack frames focused at the distances of the message.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { gear } = shot;
      const { focus, nearest, subject } = shot.shot;
      const { focalMillimetres: focal, sensor, fNumber } = gear;
      if (focal === undefined || sensor === undefined || fNumber === undefined || focus === undefined)
        continue;
      const circle = circleOfConfusion(sensor);
      const input = { focal, fNumber: exactFNumber(fNumber), circle };
      const depth = depthOfField(input, focus.value);
      const near = nearest?.value;
      const far = shot.facing?.subjectDistanceMetres ?? subject?.distance?.value;
      const tooNear = near !== undefined && near * grace < depth.nearMetres;
      const tooFar = far !== undefined && far > depth.farMetres * grace;
      if (!tooNear && !tooFar) continue;
      const from = near ?? Math.min(depth.nearMetres, far ?? depth.nearMetres);
      const to = far ?? Number.POSITIVE_INFINITY;
      const best = focusForDepth({ focal, circle }, from, to);
      const h = hyperfocal(input);
      const stack = focusStack(input, from, to);
      const mark = smallerMark(best.fNumber, gear.lens?.aperture?.value.smallest);
      const enough = exactFNumber(fNumber) >= best.fNumber * 0.99;
      const mendText = enough
        ? `Focus at ${metres(best.focusMetres)}`
        : mark === undefined
          ? undefined
          : `Focus at ${metres(best.focusMetres)} at ${aperture.format(mark)}`;
      const frames =
        stack === null || stack.length < 2 || stack.length > 20
          ? undefined
          : `${stack.length} frames focused at ${stack.map(metres).join(', ')}`;
      const outside = tooNear
        ? `The nearest thing, at ${metres(near as number)}, lies before the sharp zone, which begins at ${metres(depth.nearMetres)}`
        : `The subject, at ${metres(far as number)}, lies behind the sharp zone, which ends at ${metres(depth.farMetres)}`;
      const ways = [
        mendText,
        enough ? undefined : frames === undefined ? undefined : `stack ${frames}`,
      ].filter((way) => way !== undefined);
      report(
        tooNear && nearest !== undefined ? nearest : focus,
        `${outside} at ${aperture.format(fNumber)}, focused at ${metres(focus.value)} (hyperfocal distance ${metres(h)}).${ways.length === 0 ? ' Step back, or take a shorter lens.' : ` ${capital(ways.join(', or '))}.`}`,
        {
          related: also(
            tooNear ? focus : (subject?.at ?? subject?.distance),
            tooNear ? 'The focus.' : 'The subject.',
          ),
          facts: {
            nearMetres: depth.nearMetres,
            farMetres: Number.isFinite(depth.farMetres) ? depth.farMetres : null,
            hyperfocalMetres: h,
            stackMetres: (stack ?? []).filter(Number.isFinite) as Fact,
            mends: enough
              ? written([
                  mendShot(analysis, shot.shot, `Focus at ${metres(best.focusMetres)}`, {
                    focus: metres(best.focusMetres),
                  }),
                ])
              : mark === undefined
                ? []
                : written([
                    mendShot(
                      analysis,
                      shot.shot,
                      `Focus at ${metres(best.focusMetres)} at ${aperture.format(mark)}`,
                      { aperture: aperture.format(mark), focus: metres(best.focusMetres) },
                    ),
                  ]),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

const thirdStops = fNumberPositions(1 / 3);

/** The widest marking that is at least as small as wanted and that the lens has. */
function smallerMark(fNumber: number, smallest: number | undefined): number | undefined {
  const found = thirdStops.find((position) => position.fNumber >= fNumber * 0.99);
  if (found === undefined || found.markedFNumber > (smallest ?? 22) + 0.05) return undefined;
  return found.markedFNumber;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
