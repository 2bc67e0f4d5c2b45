import { ev100, illuminance, luminance } from '../../exposure/apex.ts';
import { exactFNumber, exactIso } from '../../exposure/dial.ts';
import { timeText } from '../../exposure/time-text.ts';
import type { DayShot } from '../../schedule/day.ts';
import { figures, paragraphs } from '../markdown.ts';
import { decimal, stopsDifference, threeFigures } from '../numbers.ts';
import { exposureText } from './exposure.ts';
import { thirdStops } from './ladder.ts';
import { lightWorking } from './light.ts';
import type { HoverKind } from './scene.ts';

/** A meter reading: what light it means, beside the light that is expected, and what comes of it. */
export const meteredHover: HoverKind = (scene) => {
  const { mark, shot } = scene;
  if (mark.name !== 'metered' || mark.section.name !== 'shot') return undefined;
  const input = shot?.exposure?.input;
  if (shot === undefined || input === undefined || shot.shot.metered === undefined) return undefined;
  const { seconds, fNumber, iso } = input.metered;
  const exact = { seconds, fNumber: exactFNumber(fNumber), iso: exactIso(iso) };
  const stated = shot.shot.metered.value;
  const ev = stated.kind === 'ev' ? stated.ev100 : ev100(exact);
  const isoPart = iso === 100 ? '' : ` − log2(${decimal(exact.iso, 1)} / 100)`;
  const formula =
    stated.kind === 'ev'
      ? 'as written'
      : `log2(${decimal(exact.fNumber, 2)}² / ${timeText(seconds)})${isoPart}`;
  return paragraphs(
    expectedText(shot, ev, scene.analysis.thresholds['light-difference']),
    exposureText(scene, shot, thirdStops),
    figures([
      ['EV at ISO 100', `\`${formula}\` = **${decimal(ev, 2)}**`],
      ['luminance', `\`2^${decimal(ev, 2)} × 12.5 / 100\` = ${threeFigures(luminance(ev))} cd/m²`],
      [
        'illuminance',
        `\`2^${decimal(ev, 2)} × 250 / 100\` = ${threeFigures(illuminance(ev))} lx, if the meter read incident light`,
      ],
    ]),
    markings(fNumber, exact.fNumber, iso, exact.iso),
    'ISO 2720: Ev = log2(N²/t), K = 12.5, C = 250.',
    shot.light?.expected === undefined ? undefined : lightWorking(shot.light.expected),
  );
};

/** A marking is the rounded name of an exact value; where they differ the working uses the exact one. */
function markings(fNumber: number, exactN: number, iso: number, exactS: number): string | undefined {
  const parts = [
    Math.abs(exactN - fNumber) > 0.005 ? `f/${fNumber} stands for ${decimal(exactN, 2)}` : undefined,
    Math.abs(exactS - iso) > 0.05 ? `ISO ${iso} for ${decimal(exactS, 1)}` : undefined,
  ].filter((part) => part !== undefined);
  return parts.length === 0 ? undefined : `${parts.join(', ')}: markings are rounded.`;
}

/** The light of the model beside the reading; that they differ by more than both can explain is said. */
function expectedText({ light }: DayShot, meteredEv: number, threshold: number): string | undefined {
  if (light?.expected === undefined) return undefined;
  const { ev100: ev, spreadStops } = light.expected;
  const difference = meteredEv - ev;
  const clouds =
    light.cloudShare === undefined ? 'clouds not known' : `cloud ${decimal(100 * light.cloudShare)} %`;
  const verdict =
    Math.abs(difference) > threshold + spreadStops ? ', more than the estimate can explain' : '';
  return `Metered **EV ${decimal(meteredEv, 1)}**; expected about EV ${decimal(ev, 1)} ± ${decimal(spreadStops, 1)} (${clouds}): ${stopsDifference(difference)}${verdict}.`;
}
