import type { Rule } from '../analysis.ts';
import { readingCodes } from './reading.ts';

/** Every code that a finding may have: those of reading, then one line for each rule. */
export const rules: readonly Rule[] = [...readingCodes];
