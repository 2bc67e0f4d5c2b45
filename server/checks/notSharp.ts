import type { Checkable, Rule } from '../analysis.ts';
import { exactFNumber, fNumberPositions, thirdStopOfAperture } from '../exposure/dial.ts';
import {
  circleOfConfusion,
  type DepthInput,
  type DepthOfField,
  depthOfField,
  type FocusForDepth,
  focusForDepth,
  focusStack,
  hyperfocal,
} from '../optics/depth.ts';
import { aperture } from '../quantities/aperture.ts';
import type { Fact } from '../text/finding.ts';
import { capitalized } from '../text/sentence.ts';
import { figure, metres } from './figures.ts';
import { mendFixes } from './mends.ts';
import { also } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/** A hundredth of a distance is nobody's sharpness. */
const grace = 1.02;
/** More frames than this nobody stacks in the field; from the other number on, a smaller aperture is named too. */
const [mostFrames, manyFrames] = [20, 8];
/** To which a lens is stopped down before diffraction shows on most sensors. Common practice, no source. */
const stackingAperture = 11;

/**
 * Depth of field by thin-lens geometry (S. F. Ray, Applied Photographic Optics): near = s(H − f)/(H + s − 2f), far =
 * s(H − f)/(H − s), H = f²/(N·c) + f; the circle of confusion c is custom, 0.030 mm on 36 × 24 mm.
 */
export const notSharp: Rule = {
  code: 'focus/not-sharp',
  severity: 'warning',
  doc: 'The nearest thing that shall be sharp, or the subject, lies outside the depth of field at this focus and aperture; without a `focus`, no focus holds the nearest thing and the subject (or infinity) in one frame. Focus elsewhere, stop down, or stack frames focused at the distances of the message.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const zone = zoneOf(shot);
      const outside = zone === undefined ? undefined : whatIsOutside(shot, zone);
      const { nearest, focus, subject } = shot.shot;
      const place = outside?.what === 'subject' ? focus : (nearest ?? focus);
      if (zone === undefined || outside === undefined || place === undefined) continue;
      const { ways, mends } = waysOut(analysis, shot, zone);
      report(
        place,
        `${outside.text} ${ways.length === 0 ? tooMuch(zone) : `${capitalized(ways.join(', or '))}.`}`,
        {
          related:
            outside.what === 'subject'
              ? also(subject?.at ?? subject?.distance, 'The subject.')
              : also(focus, 'The focus.'),
          facts: {
            nearMetres: zone.depth?.nearMetres ?? null,
            farMetres: finite(zone.depth?.farMetres),
            hyperfocalMetres: zone.hyperfocalMetres,
            neededFNumber: finite(zone.best.fNumber),
            stackMetres: (zone.stack ?? []).filter(Number.isFinite) as Fact,
            mends,
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

/** What shall be sharp in a shot, and what its lens makes of it. Distances in metres. */
interface Zone {
  readonly input: DepthInput;
  readonly markedFNumber: number;
  /** Sharp at the stated focus; absent without one. */
  readonly depth?: DepthOfField;
  readonly hyperfocalMetres: number;
  readonly near?: number;
  readonly far?: number;
  /** Where to focus, and the aperture for it, with one frame. */
  readonly best: FocusForDepth;
  readonly enough: boolean;
  readonly from: number;
  readonly to: number;
  readonly stack: readonly number[] | null;
}

/** Undefined while focal length, sensor or aperture is not known, and when nothing says what shall be sharp. */
function zoneOf({ shot, gear, facing }: ShotOfDay): Zone | undefined {
  const { focalMillimetres: focal, sensor, fNumber } = gear;
  const { focus, nearest, subject } = shot;
  if (focal === undefined || sensor === undefined || fNumber === undefined) return undefined;
  if (focus === undefined && (nearest === undefined || shot.self.broken.has('focus'))) return undefined;
  const input = { focal, fNumber: exactFNumber(fNumber), circle: circleOfConfusion(sensor) };
  const depth = focus === undefined ? undefined : depthOfField(input, focus.value);
  const near = nearest?.value;
  const far = facing?.subjectDistanceMetres ?? subject?.distance?.value;
  const from =
    near ?? Math.min(depth?.nearMetres ?? Number.POSITIVE_INFINITY, far ?? Number.POSITIVE_INFINITY);
  const to = far ?? Number.POSITIVE_INFINITY;
  const best = focusForDepth(input, from, to);
  return {
    input,
    markedFNumber: fNumber,
    ...(depth === undefined ? {} : { depth }),
    hyperfocalMetres: hyperfocal(input),
    ...(near === undefined ? {} : { near }),
    ...(far === undefined ? {} : { far }),
    best,
    enough: input.fNumber >= best.fNumber * 0.99,
    from,
    to,
    stack: focusStack(input, from, to),
  };
}

/** The first thing that is not sharp, in a sentence; undefined when all is. */
function whatIsOutside(
  { shot }: ShotOfDay,
  { input, markedFNumber, depth, near, far, to, best, hyperfocalMetres, stack }: Zone,
): { readonly what: 'nearest' | 'subject'; readonly text: string } | undefined {
  const at = aperture.format(markedFNumber);
  if (depth === undefined || shot.focus === undefined) {
    // Frames enough for a stack are taken as one.
    const stacked = stack !== null && (shot.frames?.value ?? 1) >= stack.length;
    if (near === undefined || near >= to || stacked || best.fNumber <= input.fNumber * thirdStopOfAperture)
      return undefined;
    const range = `From ${metres(near)} to ${Number.isFinite(to) ? `the subject at ${metres(to)}` : 'infinity'}`;
    return {
      what: 'nearest',
      text: `${range} is more than one frame holds at ${at} and ${figure(input.focal)} mm, wherever it is focused (hyperfocal distance ${metres(hyperfocalMetres)}).`,
    };
  }
  const focused = `at ${at}, focused at ${metres(shot.focus.value)} (hyperfocal distance ${metres(hyperfocalMetres)})`;
  if (near !== undefined && near * grace < depth.nearMetres) {
    return {
      what: 'nearest',
      text: `The nearest thing, at ${metres(near)}, lies before the sharp zone, which begins at ${metres(depth.nearMetres)} ${focused}.`,
    };
  }
  if (far !== undefined && far > depth.farMetres * grace) {
    return {
      what: 'subject',
      text: `The subject, at ${metres(far)}, lies behind the sharp zone, which ends at ${metres(depth.farMetres)} ${focused}.`,
    };
  }
  return undefined;
}

/** Focus and aperture for one frame, else a stack; and the former as a mend. */
function waysOut(
  analysis: Checkable,
  shot: ShotOfDay,
  { best, enough, stack, input, markedFNumber, from, to }: Zone,
): { readonly ways: readonly string[]; readonly mends: readonly Fact[] } {
  const { lens } = shot.gear;
  const closest = lens?.closest?.value ?? 0;
  const mark = smallerMark(best.fNumber, lens?.aperture?.value.smallest);
  const focus = metres(best.focusMetres);
  const oneFrame = best.focusMetres >= closest;
  const mend = (title: string, keys: { readonly aperture?: string; readonly focus: string }) =>
    written([mendShot(analysis, shot.shot, title, keys)]);
  if (enough && oneFrame) return { ways: [`focus at ${focus}`], mends: mend(`Focus at ${focus}`, { focus }) };
  const ways: string[] = [];
  let mends: readonly Fact[] = [];
  if (mark !== undefined && oneFrame) {
    const marked = aperture.format(mark);
    ways.push(`focus at ${focus} at ${marked}`);
    mends = mend(`Focus at ${focus} at ${marked}`, { aperture: marked, focus });
  }
  const usable = (frames: readonly number[] | null): frames is readonly number[] =>
    frames !== null && frames.length > 1 && frames.length <= mostFrames && (frames[0] ?? 0) >= closest;
  if (usable(stack)) ways.push(`stack ${stackText(stack)}`);
  const smallest = lens?.aperture?.value.smallest ?? stackingAperture;
  if ((stack?.length ?? 0) > manyFrames && markedFNumber < Math.min(stackingAperture, smallest)) {
    const down = focusStack({ ...input, fNumber: exactFNumber(stackingAperture) }, from, to);
    if (usable(down)) ways.push(`stack ${stackText(down)} at ${aperture.format(stackingAperture)}`);
  }
  return { ways, mends };
}

function stackText(frames: readonly number[]): string {
  const shown = frames.slice(0, manyFrames).map(metres).join(', ');
  return `${frames.length} frames focused at ${shown}${frames.length > manyFrames ? ' …' : ''}`;
}

function tooMuch({ stack }: Zone): string {
  const frames =
    stack !== null && stack.length > mostFrames ? `A stack would take ${stack.length} frames. ` : '';
  return `${frames}Step back, or take a shorter lens.`;
}

const thirdStops = fNumberPositions(1 / 3);

/** The widest marking that is at least as small as wanted and that the lens has. */
function smallerMark(fNumber: number, smallest: number | undefined): number | undefined {
  const found = thirdStops.find((position) => position.fNumber >= fNumber * 0.99);
  if (found === undefined || found.markedFNumber > (smallest ?? 22) + 0.05) return undefined;
  return found.markedFNumber;
}

function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}
