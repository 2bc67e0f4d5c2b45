import { CodeActionKind } from 'vscode-languageserver';
import { rules } from '../../checks/list.ts';
import { codeActions } from '../../features/codeActions.ts';
import { toSpan } from '../convert.ts';
import { toDiagnostic } from '../diagnostics.ts';
import { workspaceEdit } from '../edits.ts';
import type { Feature } from '../feature.ts';

export const codeActionsFeature: Feature = {
  // A client that takes commands only has nothing to gain: mends are edits.
  capabilities: ({ codeActionLiterals }) =>
    codeActionLiterals ? { codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] } } : {},
  register(connection, workspace) {
    connection.onCodeAction(({ textDocument, range, context }, token) => {
      const { only } = context;
      if (only !== undefined && !only.some(includesQuickFix)) return [];
      return workspace().answer(textDocument.uri, token, [], (analysis, { lines }) => {
        const linesOf = (uri: string) => workspace().linesOf(uri, analysis);
        return codeActions(analysis, toSpan(lines, range), rules).map((action) => ({
          title: action.title,
          kind: CodeActionKind.QuickFix,
          diagnostics: [toDiagnostic(action.finding, lines, linesOf, workspace().client)],
          edit: workspaceEdit(action.edits, workspace(), [analysis]),
          ...(action.preferred === true ? { isPreferred: true } : {}),
        }));
      });
    });
  },
};

/** Kinds nest by dots; a kind that is asked for includes all below it. */
function includesQuickFix(kind: string): boolean {
  return kind === '' || kind === CodeActionKind.QuickFix;
}
