import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { planFiles } from '../server/lsp/names.ts';
import {
  type InitializationOptions,
  type ListFilesResult,
  listFilesMethod,
  type ReadFileParams,
  type ReadFileResult,
  type RefreshParams,
  readFileMethod,
  refreshMethod,
} from '../server/lsp/protocol.ts';
import { listFiles, readFile } from './files.ts';

/**
 * What both hosts share: a client for plans and kits in any file system, which answers the server's questions
 * about files. Everything that is worked out, the server works out. `afterStop` runs when the server has been
 * told to end.
 */
export async function start(
  context: vscode.ExtensionContext,
  createClient: (options: LanguageClientOptions) => BaseLanguageClient,
  afterStop: () => void = () => {},
): Promise<void> {
  const watcher = vscode.workspace.createFileSystemWatcher(planFiles);
  const initializationOptions: InitializationOptions = { clientFiles: true };
  const client = createClient({
    documentSelector: [{ language: 'shootplan' }],
    initializationOptions,
    synchronize: { fileEvents: watcher },
    // Hovers show text from plans: no commands, no HTML.
    markdown: { isTrusted: false, supportHtml: false },
    // The old side of a comparison is not a plan that anybody is writing.
    middleware: {
      didOpen: (document, next) => (isOldVersion(document) ? Promise.resolve() : next(document)),
      didClose: (document, next) => (isOldVersion(document) ? Promise.resolve() : next(document)),
    },
  });

  const refresh = (params: RefreshParams) => {
    if (client.isRunning()) void client.sendNotification(refreshMethod, params);
  };
  context.subscriptions.push(
    watcher,
    client.onRequest<ReadFileResult, void>(readFileMethod, ({ uri }: ReadFileParams) => readFile(uri)),
    client.onRequest<ListFilesResult, void>(listFilesMethod, () => listFiles()),
    // Watchers report nothing in some virtual workspaces: a save, or coming back to the window, tells too.
    vscode.workspace.onDidSaveTextDocument(({ languageId, uri }) => {
      if (languageId === 'shootplan') refresh({ uris: [uri.toString()] });
    }),
    vscode.window.onDidChangeWindowState(({ focused }) => {
      if (focused) refresh({});
    }),
    { dispose: () => void client.dispose().finally(afterStop) },
  );
  await client.start();
}

function isOldVersion({ uri }: vscode.TextDocument): boolean {
  return uri.scheme === 'git';
}
