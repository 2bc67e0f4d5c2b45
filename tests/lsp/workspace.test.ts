import { describe, expect, test } from 'vitest';
import { CancellationToken, type Connection, LSPErrorCodes } from 'vscode-languageserver';
import { clientOf } from '../../server/lsp/client.ts';
import { OpenDocument } from '../../server/lsp/document.ts';
import { Files } from '../../server/lsp/files.ts';
import { Workspace } from '../../server/lsp/workspace.ts';

const uri = 'file:///plans/day.shootplan.yaml';

function workspaceWith(): { workspace: Workspace; log: string[] } {
  const log: string[] = [];
  const connection = {
    console: { error: (text: string) => log.push(text) },
    sendDiagnostics: async () => {},
  } as unknown as Connection;
  const client = clientOf({ processId: null, rootUri: null, capabilities: {} });
  const workspace = new Workspace(connection, client, new Files(connection, {}, false, []));
  workspace.open(new OpenDocument({ uri, languageId: 'shootplan', version: 1, text: 'plan: A\n' }));
  return { workspace, log };
}

describe('an answer', () => {
  test('is empty when a feature fails, which is logged and harms nothing else', async () => {
    const { workspace, log } = workspaceWith();
    const { None } = CancellationToken;
    const failing = () => {
      throw new Error('a fault in a feature');
    };
    expect(await workspace.answer<string>(uri, None, 'empty', failing)).toBe('empty');
    expect(await workspace.answer<string>(uri, None, 'empty', async () => failing())).toBe('empty');
    expect(log.join('\n')).toContain('a fault in a feature');
    expect(await workspace.answer(uri, None, 'empty', ({ kind }) => kind)).toBe('plan');
  });

  test('is withheld when the text changes or the document is closed while it is being found', async () => {
    const { workspace } = workspaceWith();
    const { None } = CancellationToken;
    const changing = workspace.answer(uri, None, 'empty', async () => {
      workspace.change(uri, (document) => document.change(2, [{ text: 'plan: B\n' }]));
      return 'old';
    });
    await expect(changing).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
    const closing = workspace.answer(uri, None, 'empty', async () => {
      workspace.close(uri);
      return 'old';
    });
    await expect(closing).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
  });

  test('is not worked out for a request that was cancelled', async () => {
    const { workspace } = workspaceWith();
    const answer = workspace.answer(uri, CancellationToken.Cancelled, 'empty', () => 'found');
    await expect(answer).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  });
});
