import { cautionsOf, deferring } from '../../checks/cautions.ts';
import { whereText } from '../../checks/sunInFrame.ts';
import { burns } from '../../optics/sunSafety.ts';
import type { DayShot } from '../../schedule/day.ts';
import { sunInView } from '../../schedule/sunInView.ts';
import { paragraphs } from '../markdown.ts';
import { decimal } from '../numbers.ts';
import type { HoverKind, Scene } from './scene.ts';

/**
 * The caution where the sun stands in the frame of a shot or within the margin of its edge, from composing to the end: by
 * the finder, by the lens, by the filters.
 */
export function sunText(
  { analysis, spot }: Pick<Scene, 'analysis' | 'spot'>,
  shot: DayShot,
): string | undefined {
  const plan = analysis.plan?.model;
  const { gear, light } = shot;
  if (plan === undefined || spot?.at === undefined) return undefined;
  const margin = analysis.thresholds['sun-margin'];
  const seen = sunInView(shot, spot, plan, margin, analysis.memory.sky);
  const hidden =
    seen === undefined && light?.sunBehindSkyline === true && light.direction?.sunInFrame === true;
  if (seen === undefined && !hidden) return undefined;
  const rim = seen?.atMs === light?.atMs && light?.sunBehindSkyline === true;
  const camera = seen?.camera ?? light?.camera;
  return [
    seen === undefined
      ? '**The sun stands in the frame.** The skyline hides it yet.'
      : `**${whereText(seen, spot.at)}**${rim ? ' The skyline hides most of it yet.' : ''}`,
    finderText(gear.body?.finder?.value),
    camera !== undefined && seen?.assumed !== true && burns(camera)
      ? `At ${decimal(camera.focal)} mm it harms sensor and shutter too: keep the lens covered between frames.`
      : undefined,
    'A dark filter is never eye protection.',
  ]
    .filter((part) => part !== undefined)
    .join(' ');
}

function finderText(finder: string | undefined): string {
  if (finder === 'optical')
    return 'Never look at the sun through an optical finder, and this body has one: compose on the screen, or before the sun is there.';
  if (finder === undefined) return 'Never look at the sun through an optical finder.';
  return 'Never look at the sun with the naked eye, and keep the lens off it while you wait.';
}

/** A hazard that a spot lists: the usual caution. */
export const hazardHover: HoverKind = ({ mark }) => {
  if (mark.name !== 'hazards' || mark.section.name !== 'spot' || typeof mark.value?.value !== 'string')
    return undefined;
  return hazardsText([mark.value.value]);
};

/** The usual cautions for hazards, and who decides. */
export function hazardsText(hazards: readonly string[]): string {
  return paragraphs(
    ...cautionsOf(hazards).map((caution) => `**${caution}.**`),
    `${deferring} The usual caution, common practice; it is not complete, and it is no permission.`,
  );
}
