import type { Analysis } from '../../analysis.ts';
import { type KeyPlace, visitOf } from '../locate.ts';
import { figures, paragraphs } from '../markdown.ts';
import { exposureText } from './exposure.ts';
import { keyText } from './field.ts';
import { panoramaText } from './panorama.ts';
import { hazardsText } from './safety.ts';
import { sceneText } from './sceneRange.ts';
import { subjectRows } from './subject.ts';

/** A key: what its value comes to, where it stands for several things of a shot; below that, what it means. */
export function keyHover(analysis: Analysis, key: KeyPlace): string {
  return paragraphs(workedOut(analysis, key), keyText(key));
}

function workedOut(analysis: Analysis, { name, section, owner }: KeyPlace): string | undefined {
  const { spot, shot } = visitOf(analysis, owner);
  if (section.name === 'spot' && name === 'hazards' && spot?.spot.hazards !== undefined)
    return hazardsText(spot.spot.hazards.map(({ value }) => value));
  if (section.name !== 'shot' || shot === undefined) return undefined;
  switch (name) {
    case 'filters':
      return exposureText({ analysis, shot, ...(spot === undefined ? {} : { spot }) }, shot);
    case 'scene':
      return sceneText(shot, spot, analysis);
    case 'subject':
      return spot === undefined ? undefined : figures(subjectRows({ analysis }, spot, shot));
    case 'sweep':
      return panoramaText({ analysis }, shot, spot);
    default:
      return undefined;
  }
}
