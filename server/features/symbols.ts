import type { Analysis } from '../analysis.ts';
import { uriKey } from '../plan/kitPath.ts';
import type { Target } from '../plan/table.ts';
import { type Place, touches } from '../text/span.ts';

/** Something with an id, as far as it can be told apart from others: its sort, its id, the document that declares it. */
export interface IdSymbol {
  readonly target: Target;
  readonly id: string;
  /** The document in which such ids are declared, in one spelling. */
  readonly home: string;
}

/** A place where an id stands. */
export interface Occurrence extends Place {
  readonly symbol: IdSymbol;
  readonly isDeclaration: boolean;
}

const ownTargets: ReadonlySet<Target> = new Set<Target>(['spot', 'shot']);

/** The document in which ids of a sort are declared: spots and shots in the plan, equipment in the kit that it names, or in itself. */
function homeOf({ kind, uri, kitFile }: Analysis, target: Target): string {
  return uriKey(kind === 'plan' && !ownTargets.has(target) ? (kitFile?.uri ?? uri) : uri);
}

/** Every place where an analysed document, or the kit that it names, has an id. */
function occurrencesIn(analysis: Analysis): readonly Occurrence[] {
  const symbol = (target: Target, id: string): IdSymbol => ({ target, id, home: homeOf(analysis, target) });
  const declared = analysis.declarations.map(({ target, id, uri, span }) => ({
    uri,
    span,
    symbol: symbol(target, id),
    isDeclaration: true,
  }));
  const used = (analysis.plan?.uses ?? []).map(({ target, id, uri, span }) => ({
    uri,
    span,
    symbol: symbol(target, id),
    isDeclaration: false,
  }));
  return [...declared, ...used];
}

/** The id at an offset of the document itself. */
export function occurrenceAt(analysis: Analysis, offset: number): Occurrence | undefined {
  return occurrencesIn(analysis).find(({ uri, span }) => uri === analysis.uri && touches(span, offset));
}

/**
 * Every place of an id in the documents, each place once, in the order of the documents and of their texts. Documents
 * are told apart by their URIs in any spelling; the first of two analyses of one document counts.
 */
export function occurrencesOf(symbol: IdSymbol, analyses: readonly Analysis[]): readonly Occurrence[] {
  const found = new Map<string, Occurrence>();
  const documents = new Set<string>();
  for (const analysis of analyses) {
    const document = uriKey(analysis.uri);
    if (documents.has(document)) continue;
    documents.add(document);
    for (const occurrence of occurrencesIn(analysis)) {
      const { target, id, home } = occurrence.symbol;
      if (target !== symbol.target || id !== symbol.id || home !== symbol.home) continue;
      const key = `${occurrence.span.start} ${uriKey(occurrence.uri)}`;
      if (!found.has(key)) found.set(key, occurrence);
    }
  }
  const order = new Map<string, number>();
  for (const document of [...documents, ...[...found.values()].map(({ uri }) => uriKey(uri))]) {
    if (!order.has(document)) order.set(document, order.size);
  }
  const rank = ({ uri }: Occurrence) => order.get(uriKey(uri)) ?? 0;
  return [...found.values()].sort((a, b) => rank(a) - rank(b) || a.span.start - b.span.start);
}

/** Whether a document declares an id of that sort. */
export function isDeclared(symbol: IdSymbol, analyses: readonly Analysis[]): boolean {
  return analyses.some((analysis) =>
    analysis.declarations.some(
      ({ target, id }) =>
        target === symbol.target && id === symbol.id && homeOf(analysis, target) === symbol.home,
    ),
  );
}
