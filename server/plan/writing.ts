import type { Span } from '../text/span.ts';
import type { ScalarNode } from './tree.ts';

/** How a scalar stands in the text; `bracket`: as a list that stands for it. */
export interface Writing {
  readonly text: string;
  readonly content: Span;
  readonly exact: boolean;
  readonly style: ScalarNode['style'] | 'bracket';
}

/** A replacement for the content of a scalar, quoted where YAML would otherwise read something else. */
export function quotedFor(rewrite: string, style: Writing['style'], inFlow: boolean): string {
  if (style === 'double') return rewrite.replaceAll('\\', '\\\\').replaceAll('"', '\\"');
  if (style === 'single') return rewrite.replaceAll("'", "''");
  if (style !== 'plain') return rewrite;
  const special = /: | #|:$|^[&*!|>%@`"'#,[\]{}?-]/.test(rewrite) && !/^-[\d.]/.test(rewrite);
  return special || (inFlow && /[,[\]{}]/.test(rewrite)) ? JSON.stringify(rewrite) : rewrite;
}
