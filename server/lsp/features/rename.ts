import { LSPErrorCodes, ResponseError, type WorkspaceEdit } from 'vscode-languageserver';
import { rename, renameable } from '../../features/rename.ts';
import { toOffset, toRange } from '../convert.ts';
import { workspaceEdit } from '../edits.ts';
import type { Feature } from '../feature.ts';

export const renameFeature: Feature = {
  capabilities: ({ preparesRename }) => ({
    renameProvider: preparesRename ? { prepareProvider: true } : true,
  }),
  register(connection, workspace) {
    connection.onPrepareRename(({ textDocument, position }, token) =>
      workspace().answer(textDocument.uri, token, null, (analysis, { lines }) => {
        const found = renameable(analysis, toOffset(lines, position));
        return found === undefined ? null : { range: toRange(lines, found.span), placeholder: found.text };
      }),
    );
    connection.onRenameRequest(({ textDocument, position, newName }, token) =>
      workspace().answer<WorkspaceEdit | null>(textDocument.uri, token, null, async (analysis, document) => {
        const others = await workspace().related(document);
        const renamed = rename(others, analysis, toOffset(document.lines, position), newName);
        if ('refused' in renamed) throw new ResponseError(LSPErrorCodes.RequestFailed, renamed.refused);
        return workspaceEdit(renamed.edits, workspace(), [analysis, ...others]);
      }),
    );
  },
};
