import type { TextDocumentEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { uriKey } from '../plan/kitPath.ts';
import type { PlacedEdit } from '../text/edit.ts';
import { toRange } from './convert.ts';
import type { Workspace } from './workspace.ts';

/**
 * Edits in any documents, by document. Those of open ones carry the version that they were made for, so that a client
 * does not apply them to a later text. `analyses` are those whose texts the edits were made for.
 */
export function workspaceEdit(
  edits: readonly PlacedEdit[],
  workspace: Workspace,
  analyses: readonly Analysis[],
): WorkspaceEdit {
  const byDocument = new Map<string, PlacedEdit[]>();
  for (const edit of edits) {
    const key = uriKey(edit.uri);
    byDocument.set(key, [...(byDocument.get(key) ?? []), edit]);
  }
  const changes: TextDocumentEdit[] = [];
  for (const [first, ...rest] of byDocument.values()) {
    if (first === undefined) continue;
    const document = workspace.document(first.uri);
    const lines = workspace.linesOf(first.uri, ...analyses);
    if (lines === undefined) continue;
    changes.push({
      textDocument: { uri: document?.uri ?? first.uri, version: document?.version ?? null },
      edits: [first, ...rest].map(({ span, text }) => ({ range: toRange(lines, span), newText: text })),
    });
  }
  if (workspace.client.documentChanges) return { documentChanges: changes };
  return {
    changes: Object.fromEntries(
      changes.map(({ textDocument, edits: textEdits }) => [
        textDocument.uri,
        textEdits.filter((edit) => 'newText' in edit),
      ]),
    ),
  };
}
