import type { Fact, Finding, Fix } from '../text/finding.ts';
import type { Place } from '../text/span.ts';

/**
 * Mends as facts. A rule knows when it reports what would put things right; it writes that down under `mends`, and the
 * fixes are read from there. The first one is preferred unless the finding says that the choice is open.
 */

/** A text in the place of another. Several of them in one mend go through `mendAll`. */
export function mend(title: string, place: Place, text: string): Fact {
  return mendAll(title, [{ ...place, text }]);
}

/** Several replacements that make one mend. */
export function mendAll(title: string, edits: readonly (Place & { readonly text: string })[]): Fact {
  return {
    title,
    edits: edits.map(({ uri, span, text }) => ({ uri, start: span.start, end: span.end, text })),
  };
}

/** The fixes of a finding whose facts hold mends. */
export function mendFixes(finding: Finding): readonly Fix[] {
  const { mends, open } = finding.facts;
  if (!Array.isArray(mends)) return [];
  return (mends as readonly StoredMend[]).map(({ title, edits }, index) => ({
    title,
    edits: edits.map(({ uri, start, end, text }) => ({ uri, span: { start, end }, text })),
    ...(index === 0 && open !== true ? { preferred: true } : {}),
  }));
}

interface StoredMend {
  readonly title: string;
  readonly edits: readonly {
    readonly uri: string;
    readonly start: number;
    readonly end: number;
    readonly text: string;
  }[];
}
