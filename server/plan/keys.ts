import { shortened } from '../quantities/scan.ts';
import { type TextFinding, textFinding } from './syntax.ts';
import type { Entry } from './tree.ts';

/**
 * What two keys of one map may not share: their text, and for whole numbers their value, so that `1`, `"1"` and `01`
 * are the same key.
 */
function identity(text: string): string {
  const digits = /^([-+]?)0*(\d+)$/.exec(text);
  if (digits === null) return text;
  const sign = digits[1] === '-' && digits[2] !== '0' ? '-' : '';
  return sign + digits[2];
}

/**
 * The entries without those whose key has stood before: the first one counts, so that adding a line further down never
 * changes silently what stands above. Each later one is reported at its key.
 */
export function withoutDuplicates(
  entries: readonly Entry[],
  report: (finding: TextFinding) => void,
): readonly Entry[] {
  const seen = new Map<string, Entry>();
  const kept: Entry[] = [];
  for (const entry of entries) {
    const key = identity(entry.key.text);
    const first = seen.get(key);
    if (first === undefined) {
      seen.set(key, entry);
      kept.push(entry);
      continue;
    }
    const message = `"${shortened(entry.key.text)}" stands here for the second time and is ignored. Remove one of the two.`;
    report(
      textFinding('syntax/duplicate-key', entry.key.span, message, {
        facts: { key: entry.key.text, edits: [{ start: entry.span.start, end: entry.span.end, text: '' }] },
        related: [{ span: first.key.span, message: 'The first one, which counts.' }],
      }),
    );
  }
  return kept.length === entries.length ? entries : kept;
}
