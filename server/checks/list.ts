import type { Rule } from '../analysis.ts';

/** Every code that a finding may have. */
export const rules: readonly Rule[] = [];
