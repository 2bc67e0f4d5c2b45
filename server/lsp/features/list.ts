import type { Feature } from '../feature.ts';
import { codeActionsFeature } from './codeActions.ts';
import { completionFeature } from './completion.ts';
import { definitionFeature } from './definition.ts';
import { documentLinksFeature } from './documentLinks.ts';
import { foldingFeature } from './folding.ts';
import { formatFeature } from './format.ts';
import { hoverFeature } from './hover.ts';
import { inlayHintsFeature } from './inlayHints.ts';
import { outlineFeature } from './outline.ts';
import { referencesFeature } from './references.ts';
import { renameFeature } from './rename.ts';
import { semanticTokensFeature } from './semanticTokens.ts';

/** Every feature that the server offers. */
export const features: readonly Feature[] = [
  inlayHintsFeature,
  hoverFeature,
  completionFeature,
  codeActionsFeature,
  definitionFeature,
  referencesFeature,
  renameFeature,
  outlineFeature,
  foldingFeature,
  documentLinksFeature,
  semanticTokensFeature,
  formatFeature,
];
