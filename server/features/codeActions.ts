import type { Analysis, Rule } from '../analysis.ts';
import { parseText } from '../plan/yaml.ts';
import { applyEdits, type PlacedEdit } from '../text/edit.ts';
import type { Finding, Fix } from '../text/finding.ts';
import { lazily } from '../text/lazily.ts';
import type { Span } from '../text/span.ts';

/** A mend that is offered for a finding. */
export interface CodeAction {
  /** "Write 6 stops" */
  readonly title: string;
  readonly edits: readonly PlacedEdit[];
  /** The finding that it mends. */
  readonly finding: Finding;
  readonly code: string;
  /** The one to take when a single key is pressed. */
  readonly preferred?: boolean;
}

/** Longer texts are not parsed again to prove a mend. */
const longestProved = 300_000;

/** Characters that all proofs of one answer may read: hundreds of mends for a plan, some for a very long text. */
const proofBudget = 2_000_000;

/**
 * The mends for the findings that a span touches, in the order of the text. A mend comes from the rule of its finding;
 * one that changes nothing, whose edits overlap or lie outside the text, or that would leave broken YAML behind is left
 * out. So are the last ones of a list that is far too long for anybody to read.
 */
export function codeActions(analysis: Analysis, span: Span, rules: readonly Rule[]): readonly CodeAction[] {
  const byCode = new Map(rules.map((rule) => [rule.code, rule]));
  const actions: CodeAction[] = [];
  const seen = new Set<string>();
  const faultsBefore = lazily(() => faults(analysis.text));
  let budget = proofBudget;
  for (const finding of analysis.findings) {
    if (finding.span.start > span.end || finding.span.end < span.start) continue;
    for (const fix of byCode.get(finding.code)?.fixes?.(finding, analysis) ?? []) {
      const key = JSON.stringify([fix.title, fix.edits]);
      if (seen.has(key)) continue;
      seen.add(key);
      if (budget <= 0) return actions;
      budget -= analysis.text.length;
      if (!isSound(fix, analysis, faultsBefore)) continue;
      actions.push({ ...fix, finding, code: finding.code });
    }
  }
  return actions;
}

function isSound(fix: Fix, analysis: Analysis, faultsBefore: () => number): boolean {
  const own = fix.edits.filter(({ uri }) => uri === analysis.uri);
  const elsewhere = fix.edits.length > own.length;
  const { text } = analysis;
  const sorted = [...own].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  let before = 0;
  for (const { span } of sorted) {
    if (!(span.start >= before && span.end >= span.start && span.end <= text.length)) return false;
    before = span.end;
  }
  const after = applyEdits(text, own);
  if (after === text) return elsewhere;
  return text.length > longestProved || faults(after) <= faultsBefore();
}

/** How many mistakes of YAML a text has. */
function faults(text: string): number {
  return parseText(text).findings.filter(({ severity }) => severity === 'error').length;
}
