import { type Analysis, type AnalysisMemory, analyse, createAnalysisMemory } from '../../server/analysis.ts';
import { rules } from '../../server/checks/list.ts';
import { codeActions } from '../../server/features/codeActions.ts';
import { completion } from '../../server/features/completion.ts';
import { dayJson } from '../../server/features/dayJson.ts';
import { dayReport } from '../../server/features/dayReport.ts';
import { definition } from '../../server/features/definition.ts';
import { documentLinks } from '../../server/features/documentLinks.ts';
import { folding } from '../../server/features/folding.ts';
import { format } from '../../server/features/format.ts';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlayHints.ts';
import { outline } from '../../server/features/outline.ts';
import { references } from '../../server/features/references.ts';
import { rename, renameable } from '../../server/features/rename.ts';
import { semanticTokens } from '../../server/features/semanticTokens.ts';
import { createMemory } from '../../server/schedule/memory.ts';
import type { Place, Span } from '../../server/text/span.ts';
import { openSample, samplesUri } from '../samples/folder.ts';

/** Every feature of the editor, asked about a whole text and about one place in it. Each gives the spans that it names. */
export const features: Readonly<Record<string, (analysis: Analysis, offset: number) => readonly Span[]>> = {
  codeActions: (analysis) =>
    codeActions(analysis, { start: 0, end: analysis.text.length }, rules).flatMap(({ edits }) =>
      spansIn(analysis, edits),
    ),
  completion: (analysis, offset) => completion(analysis, offset).map(({ span }) => span),
  dayJson: (analysis) => {
    JSON.stringify(dayJson(analysis));
    return [];
  },
  dayReport: (analysis) => {
    dayReport(analysis);
    return [];
  },
  definition: (analysis, offset) => spansIn(analysis, definition(analysis, offset)),
  documentLinks: (analysis) => documentLinks(analysis).map(({ span }) => span),
  folding: (analysis) => folding(analysis).map(({ span }) => span),
  format: (analysis) => format(analysis).map(({ span }) => span),
  hover: (analysis, offset) => {
    const shown = hover(analysis, offset, rules);
    return shown === undefined ? [] : [shown.span];
  },
  inlayHints: (analysis) => inlayHints(analysis).map(({ offset }) => ({ start: offset, end: offset })),
  outline: (analysis) => spansOf(outline(analysis)),
  references: (analysis, offset) => spansIn(analysis, references([analysis], analysis, offset, true)),
  rename: (analysis, offset) => {
    const renamed = rename([analysis], analysis, offset, 'another');
    const able = renameable(analysis, offset);
    return [
      ...('edits' in renamed ? spansIn(analysis, renamed.edits) : []),
      ...(able === undefined ? [] : [able.span]),
    ];
  },
  semanticTokens: (analysis) => semanticTokens(analysis).map(({ span }) => span),
};

/** Those that lie in the analysed document. */
function spansIn({ uri }: Analysis, places: readonly Place[]): readonly Span[] {
  return places.filter((place) => place.uri === uri).map(({ span }) => span);
}

function spansOf(entries: ReturnType<typeof outline>): readonly Span[] {
  return entries.flatMap(({ span, selection, children }) => [span, selection, ...spansOf(children)]);
}

/** The skies of the samples are found once for all texts; what is read from a text is not. */
export function sharedSky(): () => AnalysisMemory {
  const sky = createMemory();
  return () => createAnalysisMemory(sky);
}

export const fuzzPlan = `${samplesUri}fuzz.shootplan.yaml`;
export const fuzzKit = `${samplesUri}fuzz.shootkit.yaml`;

/**
 * Analyses a text with all rules, asks every mend and every feature, and looks whether each place that is named lies in
 * the text. Throws where something does.
 */
export function exercise(
  text: string,
  offsets: readonly number[],
  options: { readonly memory?: AnalysisMemory; readonly uri?: string } = {},
): Analysis {
  const { memory, uri = fuzzPlan } = options;
  const analysis = analyse(
    { uri, text },
    { rules, open: openSample, ...(memory === undefined ? {} : { memory }) },
  );
  const spans: (readonly [string, Span])[] = [];
  for (const finding of analysis.findings) {
    spans.push([finding.code, finding.span]);
    if (finding.message === '') throw new Error(`${finding.code} says nothing`);
    const rule = rules.find(({ code }) => code === finding.code);
    if (rule === undefined) throw new Error(`${finding.code} is not listed`);
    for (const fix of rule.fixes?.(finding, analysis) ?? []) {
      for (const edit of fix.edits) if (edit.uri === uri) spans.push([`${finding.code} mend`, edit.span]);
    }
  }
  for (const mark of analysis.plan?.marks ?? analysis.kit?.marks ?? []) {
    if (mark.owner.uri === uri) spans.push([`mark ${mark.name}`, mark.span]);
  }
  for (const offset of offsets) {
    const at = Math.min(offset, text.length);
    for (const [name, feature] of Object.entries(features)) {
      for (const span of feature(analysis, at)) spans.push([name, span]);
    }
  }
  for (const [name, { start, end }] of spans) {
    if (!(start >= 0 && start <= end && end <= text.length)) {
      throw new Error(`${name} names ${start} to ${end} in a text of ${text.length}`);
    }
  }
  return analysis;
}
