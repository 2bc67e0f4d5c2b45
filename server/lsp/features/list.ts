import type { Feature } from '../feature.ts';
import { documentLinksFeature } from './documentLinks.ts';
import { foldingFeature } from './folding.ts';
import { hoverFeature } from './hover.ts';
import { inlayHintsFeature } from './inlayHints.ts';
import { outlineFeature } from './outline.ts';

/** Every feature that the server offers. */
export const features: readonly Feature[] = [
  inlayHintsFeature,
  hoverFeature,
  outlineFeature,
  foldingFeature,
  documentLinksFeature,
];
