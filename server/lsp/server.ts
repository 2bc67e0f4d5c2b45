import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  type InitializeParams,
  type InitializeResult,
  PositionEncodingKind,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { type Client, clientOf } from './client.ts';
import { OpenDocument } from './document.ts';
import { features } from './features/list.ts';
import { Files } from './files.ts';
import { planFiles } from './names.ts';
import { refreshMethod } from './protocol.ts';
import type { Runtime } from './runtime.ts';
import { Workspace } from './workspace.ts';

/** Serves plans and kits over a connection until the client ends it. */
export function startServer(connection: Connection, runtime: Runtime): void {
  let workspace: Workspace | undefined;
  /** Requests and notifications come after `initialize`; a client that breaks that rule gets an error, not a crash. */
  const present = (): Workspace => {
    if (workspace === undefined) throw new Error('The server has not been initialized.');
    return workspace;
  };

  connection.onInitialize((params): InitializeResult => {
    const client = clientOf(params);
    const files = new Files(connection, runtime, client.readsFiles, foldersOf(params));
    workspace = new Workspace(connection, client, files);
    if (!client.pullsConfiguration) workspace.setSettings(settingsIn(params.initializationOptions));
    return { capabilities: capabilities(client), serverInfo: { name: 'Shoot Plan' } };
  });
  connection.onInitialized(() => listenToChanges(connection, present()));

  connection.onDidOpenTextDocument(({ textDocument }) => present().open(new OpenDocument(textDocument)));
  connection.onDidChangeTextDocument(({ textDocument, contentChanges }) =>
    present().change(textDocument.uri, (document) => document.change(textDocument.version, contentChanges)),
  );
  connection.onDidCloseTextDocument(({ textDocument }) => present().close(textDocument.uri));
  connection.onDidSaveTextDocument(({ textDocument }) => present().saved(textDocument.uri));
  connection.onDidChangeWatchedFiles(({ changes }) => present().filesChanged(changes));
  connection.onNotification(refreshMethod, (params: { readonly uris?: unknown } | null) => {
    const uris: unknown = params?.uris;
    if (!Array.isArray(uris)) present().everythingChanged();
    else {
      const named = uris.filter((uri) => typeof uri === 'string');
      present().filesChanged(named.map((uri) => ({ uri, type: FileChangeType.Changed })));
    }
  });
  connection.onDidChangeConfiguration(async ({ settings }: { readonly settings?: unknown }) => {
    if (present().client.pullsConfiguration) await present().pullSettings();
    else present().setSettings(settingsIn(settings));
  });
  for (const feature of features) feature.register(connection, present);

  connection.listen();
}

/** What the server itself and each of its features announce. */
function capabilities(client: Client): ServerCapabilities {
  return Object.assign(
    {
      positionEncoding: PositionEncodingKind.UTF16,
      textDocumentSync: {
        openClose: true,
        change: TextDocumentSyncKind.Incremental,
        save: { includeText: false },
      },
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    } satisfies ServerCapabilities,
    ...features.map((feature) => feature.capabilities(client)),
  );
}

/** Asks a client that wants to be asked for news of settings, folders and files. */
function listenToChanges(connection: Connection, workspace: Workspace): void {
  const { client, files } = workspace;
  const register = (registered: Promise<unknown>) =>
    void registered.catch((error: unknown) => workspace.log(error));
  if (client.pullsConfiguration && client.registersConfiguration) {
    register(connection.client.register(DidChangeConfigurationNotification.type, { section: 'shootPlan' }));
  }
  // A client of our own watches by itself.
  if (client.registersWatchers && !client.readsFiles) {
    const watchers = [{ globPattern: planFiles }];
    register(connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }));
  }
  if (client.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      const gone = new Set(removed.map(({ uri }) => uri));
      files.folders = [...files.folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
      workspace.everythingChanged();
    });
  }
}

/** The workspace folders; a single root by the older ways of saying it; none when a file is opened alone. */
function foldersOf({ workspaceFolders, rootUri }: InitializeParams): readonly string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => uri);
  return rootUri ? [rootUri] : [];
}

/** Settings that a client sends by itself: under `shootPlan`, else as they are. */
function settingsIn(sent: unknown): unknown {
  if (typeof sent !== 'object' || sent === null) return undefined;
  const { shootPlan, hints, checks, thresholds } = sent as Record<string, unknown>;
  return shootPlan ?? { hints, checks, thresholds };
}
