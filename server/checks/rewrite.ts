import type { Fact, Finding, Fix } from '../text/finding.ts';
import type { Span } from '../text/span.ts';

/**
 * The mends that the readers themselves propose, from the facts of a finding: `rewrite` with `rewriteStart` and
 * `rewriteEnd` is what was certainly meant; `readings` are the several things that a value may mean, each in that place, or
 * else in that of what the finding marks.
 */
export function rewriteFixes(finding: Finding): readonly Fix[] {
  const { rewrite, rewriteStart: start, rewriteEnd: end, readings } = finding.facts;
  const place = typeof start === 'number' && typeof end === 'number' ? { start, end } : undefined;
  if (typeof rewrite === 'string' && place !== undefined) return [replacement(finding, place, rewrite, true)];
  return listed(readings).flatMap((reading) => {
    const text = spellingOf(reading);
    return text === undefined ? [] : [replacement(finding, place ?? finding.span, text, false)];
  });
}

/** One fix that writes a text in the place of another; the title names it. */
function replacement({ uri }: Finding, span: Span, text: string, preferred: boolean): Fix {
  const title = `Write ${text.replace(/^"(.*)"$/, '$1')}`;
  return { title, edits: [{ uri, span, text }], ...(preferred ? { preferred } : {}) };
}

function listed(fact: Fact | undefined): readonly Fact[] {
  return Array.isArray(fact) ? fact : [];
}

/** A reading is its spelling, or has one beside what it comes to. */
function spellingOf(reading: Fact): string | undefined {
  if (typeof reading === 'string') return reading;
  if (reading === null || typeof reading !== 'object' || Array.isArray(reading)) return undefined;
  const { spelling } = reading as { readonly spelling?: Fact };
  return typeof spelling === 'string' ? spelling : undefined;
}
