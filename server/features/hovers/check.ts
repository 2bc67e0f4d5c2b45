import { thresholds } from '../../schedule/thresholds.ts';
import { code, paragraphs } from '../markdown.ts';
import { decimal } from '../numbers.ts';
import type { HoverKind } from './scene.ts';

/** A code under `checks`, or its severity: what the rule says. */
export const checkHover: HoverKind = ({ analysis, mark, rules }) => {
  if (mark.name !== 'checks' || mark.section.name !== 'plan') return undefined;
  const written = nameOf(analysis.text.slice(mark.key.start, mark.key.end));
  const rule = rules.find((candidate) => candidate.code === written);
  if (rule === undefined) return rules.length === 0 ? undefined : `There is no finding ${code(written)}.`;
  return paragraphs(`\`${rule.code}\` (${rule.severity} unless set otherwise)`, rule.doc);
};

/** A name under `thresholds`, or its value. */
export const thresholdHover: HoverKind = ({ analysis, mark }) => {
  if (mark.name !== 'thresholds' || mark.section.name !== 'plan') return undefined;
  const written = nameOf(analysis.text.slice(mark.key.start, mark.key.end));
  const found = thresholds.find((candidate) => candidate.name === written);
  if (found === undefined) return `There is no threshold ${code(written)}.`;
  return paragraphs(
    `\`${found.name}\`: ${decimal(analysis.thresholds[found.name], 2)} ${found.unit}; ${decimal(found.value, 2)} unless set otherwise`,
    found.doc,
    'A habit, not physics: common practice, no source.',
  );
};

function nameOf(key: string): string {
  return key.replace(/^["']|["']$/g, '').trim();
}
