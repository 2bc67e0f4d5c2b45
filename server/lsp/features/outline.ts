import { type DocumentSymbol, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import { type OutlineEntry, type OutlineKind, outline } from '../../features/outline.ts';
import type { Lines } from '../../text/lines.ts';
import { toRange } from '../convert.ts';
import type { Feature } from '../feature.ts';

/** The protocol has no words for a photographer's things; these give each its own picture in the usual editors. */
const kinds: Readonly<Record<OutlineKind, SymbolKind>> = {
  plan: SymbolKind.File,
  kit: SymbolKind.Package,
  spot: SymbolKind.Namespace,
  shot: SymbolKind.Event,
  group: SymbolKind.Array,
  body: SymbolKind.Object,
  film: SymbolKind.Object,
  lens: SymbolKind.Object,
  filter: SymbolKind.Object,
};

export const outlineFeature: Feature = {
  capabilities: () => ({ documentSymbolProvider: true }),
  register(connection, workspace) {
    connection.onDocumentSymbol(({ textDocument: { uri } }, token) =>
      workspace().answer<DocumentSymbol[] | SymbolInformation[]>(uri, token, [], (analysis, document) => {
        const entries = outline(analysis);
        if (workspace().client.nestedOutline) return entries.map((entry) => nested(entry, document.lines));
        return flat(entries, document.uri, document.lines);
      }),
    );
  },
};

function nested(entry: OutlineEntry, lines: Lines): DocumentSymbol {
  return {
    name: entry.name,
    detail: entry.detail,
    kind: kinds[entry.kind],
    range: toRange(lines, entry.span),
    selectionRange: toRange(lines, entry.selection),
    children: entry.children.map((child) => nested(child, lines)),
  };
}

/** For a client that knows no tree. */
function flat(
  entries: readonly OutlineEntry[],
  uri: string,
  lines: Lines,
  containerName?: string,
): SymbolInformation[] {
  return entries.flatMap((entry) => [
    {
      name: entry.name,
      kind: kinds[entry.kind],
      location: { uri, range: toRange(lines, entry.span) },
      ...(containerName === undefined ? {} : { containerName }),
    },
    ...flat(entry.children, uri, lines, entry.name),
  ]);
}
