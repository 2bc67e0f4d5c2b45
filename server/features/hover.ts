import type { Analysis, Rule } from '../analysis.ts';
import type { Span } from '../text/span.ts';
import { checkHover, thresholdHover } from './hovers/check.ts';
import { effectHover } from './hovers/effect.ts';
import { exposureHover } from './hovers/exposure.ts';
import { facingHover } from './hovers/facing.ts';
import { fieldHover } from './hovers/field.ts';
import { framesHover } from './hovers/frames.ts';
import { keyHover } from './hovers/keys.ts';
import { kitHover } from './hovers/kit.ts';
import { lensHover } from './hovers/lens.ts';
import { meteredHover } from './hovers/metered.ts';
import { momentHover, rangeHover } from './hovers/moment.ts';
import { panoramaHover } from './hovers/panorama.ts';
import { hazardHover } from './hovers/safety.ts';
import type { HoverKind, Scene } from './hovers/scene.ts';
import { sceneHover } from './hovers/sceneRange.ts';
import { dateHover, placeHover, skylineHover } from './hovers/sky.ts';
import { unitsHover } from './hovers/units.ts';
import { visitHover, wayHover } from './hovers/visit.ts';
import { keyAt, markAt, visitOf } from './locate.ts';

/** What is shown while the pointer rests on a place. */
export interface Hover {
  readonly span: Span;
  /** To be shown untrusted: no command links, no HTML. */
  readonly markdown: string;
}

/** The first that has something to say is shown; the last always has. */
const kinds: readonly HoverKind[] = [
  momentHover,
  rangeHover,
  meteredHover,
  exposureHover,
  framesHover,
  sceneHover,
  panoramaHover,
  facingHover,
  lensHover,
  effectHover,
  visitHover,
  wayHover,
  kitHover,
  dateHover,
  placeHover,
  skylineHover,
  hazardHover,
  checkHover,
  thresholdHover,
  unitsHover,
  fieldHover,
];

/** The hover at an offset: of a value its working, of a key what it means. Undefined where there is neither. */
export function hover(analysis: Analysis, offset: number, rules: readonly Rule[] = []): Hover | undefined {
  const mark = markAt(analysis, offset);
  if (mark !== undefined) {
    const scene: Scene = { analysis, mark, rules, ...visitOf(analysis, mark.owner) };
    for (const kind of kinds) {
      const markdown = kind(scene);
      if (markdown !== undefined && markdown !== '') return { span: mark.span, markdown };
    }
  }
  const key = keyAt(analysis, offset);
  return key === undefined ? undefined : { span: key.span, markdown: keyHover(analysis, key) };
}
