import type { Checkable, Rule } from '../analysis.ts';
import { exactFNumber, fNumberPositions } from '../exposure/dial.ts';
import { stackStops } from '../exposure/stack.ts';
import { airyDiameter, airyPixels, sharpestFNumber } from '../optics/diffraction.ts';
import { aperture } from '../quantities/aperture.ts';
import { stackPart } from '../schedule/gear.ts';
import { pitchOf } from '../schedule/screen.ts';
import { filterFits } from '../schedule/solutions.ts';
import { figure } from './figures.ts';
import { mendFixes } from './mends.ts';
import { mendShot, written } from './shotEdits.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/** The Airy disc, 2.44·λ·N at 0.55 µm (Born and Wolf), against the pixel; the threshold `diffraction-pixels`. */
export const diffraction: Rule = {
  code: 'focus/diffraction',
  severity: 'hint',
  doc: 'At this aperture diffraction blurs over more pixels than the threshold `diffraction-pixels`. A filter in place of the last stops of aperture gives the same time with less blur, at the cost of depth of field.',
  check(analysis, report) {
    const allowed = analysis.thresholds['diffraction-pixels'];
    for (const shot of shotsOf(analysis)) {
      const { fNumber } = shot.gear;
      const pitch = pitchOf(shot.gear);
      const place = shot.shot.aperture;
      if (fNumber === undefined || pitch === undefined || place === undefined) continue;
      const pixels = airyPixels(exactFNumber(fNumber), pitch);
      if (pixels <= allowed) continue;
      const sharpest = nearestMark(sharpestFNumber(pitch));
      const softest = nearestMark(sharpestFNumber(pitch, allowed));
      const swap = swapOf(analysis, shot, sharpestFNumber(pitch, allowed));
      report(
        place,
        `At ${aperture.format(fNumber)} the Airy disc is ${figure(airyDiameter(exactFNumber(fNumber)))} µm across, ${figure(pixels, 1)} pixels: fine detail is lost. ${
          swap === undefined
            ? `${aperture.format(softest)} keeps it to ${figure(allowed, 1)} pixels, ${aperture.format(sharpest)} to 2.5; take a filter for the time instead.`
            : `${aperture.format(swap.fNumber)} with ${swap.id} gives the same time with ${figure(airyPixels(exactFNumber(swap.fNumber), pitch), 1)} pixels, and less depth of field.`
        }`,
        {
          facts: {
            airyPixels: pixels,
            pitchMicrometres: pitch,
            sharpestFNumber: sharpestFNumber(pitch),
            ...(swap === undefined ? {} : { mends: written([mendOf(analysis, shot, swap)]) }),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

const thirdStops = fNumberPositions(1 / 3);

interface Swap {
  readonly id: string;
  readonly fNumber: number;
}

/** A further filter of the kit with the aperture that makes up for it: the smallest aperture that is sharp enough. */
function swapOf({ bag }: Checkable, { gear }: ShotOfDay, smallest: number): Swap | undefined {
  const now = gear.fNumber;
  if (now === undefined || !gear.filtersKnown) return undefined;
  const widest = gear.lens?.aperture?.value.widest ?? 2.8;
  const mounted = new Set(gear.filters.map(({ use }) => use.value));
  let best: Swap | undefined;
  for (const [id, filter] of bag.filters) {
    const part = stackPart(filter);
    if (part?.kind !== 'neutral density' || mounted.has(id) || !filterFits(filter, gear, bag)) continue;
    const wanted = exactFNumber(now) * 2 ** (-stackStops([part]).stops / 2);
    if (wanted > smallest * 1.01 || wanted < widest * 0.99) continue;
    const fNumber = nearestMark(wanted);
    if (best === undefined || fNumber > best.fNumber) best = { id, fNumber };
  }
  return best;
}

function mendOf(analysis: Checkable, shot: ShotOfDay, { id, fNumber }: Swap) {
  const filters = [...shot.gear.filters.map(({ use }) => use.value), id];
  return mendShot(analysis, shot.shot, `Use ${id} at ${aperture.format(fNumber)}`, {
    aperture: aperture.format(fNumber),
    filters: `[${filters.join(', ')}]`,
  });
}

function nearestMark(fNumber: number): number {
  const off = (exact: number) => Math.abs(Math.log2(exact / fNumber));
  return thirdStops.reduce((best, position) => (off(position.fNumber) < off(best.fNumber) ? position : best))
    .markedFNumber;
}
