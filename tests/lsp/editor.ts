import { PassThrough } from 'node:stream';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import type {
  ClientCapabilities,
  Diagnostic,
  Position,
  PublishDiagnosticsParams,
} from 'vscode-languageserver';
import { createConnection } from 'vscode-languageserver/node';
import type { Disk, FileResult } from '../../server/lsp/runtime.ts';
import { startServer } from '../../server/lsp/server.ts';

/** What an editor of today can do, as far as the server asks. */
export const ableClient: ClientCapabilities = {
  workspace: {
    configuration: true,
    workspaceFolders: true,
    didChangeConfiguration: { dynamicRegistration: true },
    didChangeWatchedFiles: { dynamicRegistration: true },
    inlayHint: { refreshSupport: true },
    workspaceEdit: { documentChanges: true },
  },
  textDocument: {
    hover: { contentFormat: ['markdown', 'plaintext'] },
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown', 'plaintext'] } },
    rename: { prepareSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } },
  },
};

export interface EditorOptions {
  readonly capabilities?: ClientCapabilities;
  readonly folders?: readonly string[] | null;
  readonly initializationOptions?: unknown;
  readonly settings?: (scopeUri: string) => unknown;
  readonly disk?: Disk;
  /** Answers to `shootplan/readFile`; a client without it does not know that request. */
  readonly readFile?: (uri: string) => unknown;
  readonly listFiles?: () => unknown;
}

/** The client's end of a server that runs in the same process, over two streams. */
export class Editor {
  readonly published: PublishDiagnosticsParams[] = [];
  readonly registered: string[] = [];
  readonly log: string[] = [];
  readonly configurationAsked: string[] = [];
  hintRefreshes = 0;
  capabilities: Record<string, unknown> = {};
  readonly #connection: MessageConnection;
  readonly #texts = new Map<string, { version: number; text: string }>();
  #waiting: (() => void)[] = [];
  #barriers = 0;

  private constructor(connection: MessageConnection) {
    this.#connection = connection;
  }

  static async start(options: EditorOptions = {}): Promise<Editor> {
    const toServer = new PassThrough();
    const toClient = new PassThrough();
    startServer(
      createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient)),
      options.disk === undefined ? {} : { disk: options.disk },
    );
    const connection = createMessageConnection(
      new StreamMessageReader(toClient),
      new StreamMessageWriter(toServer),
    );
    const editor = new Editor(connection);
    editor.#listen(options);
    const { folders = null } = options;
    const { capabilities } = await connection.sendRequest<{ capabilities: Record<string, unknown> }>(
      'initialize',
      {
        processId: null,
        rootUri: null,
        workspaceFolders: folders?.map((uri) => ({ uri, name: uri })) ?? null,
        capabilities: options.capabilities ?? {},
        initializationOptions: options.initializationOptions,
      },
    );
    editor.capabilities = capabilities;
    await editor.notify('initialized', {});
    return editor;
  }

  #listen(options: EditorOptions): void {
    const connection = this.#connection;
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.published.push(params);
      for (const look of this.#waiting.splice(0)) look();
    });
    connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
      this.log.push(message);
    });
    connection.onRequest('client/registerCapability', (params: { registrations: { method: string }[] }) => {
      this.registered.push(...params.registrations.map(({ method }) => method));
      return null;
    });
    connection.onRequest('workspace/configuration', ({ items }: { items: { scopeUri: string }[] }) =>
      items.map(({ scopeUri }) => {
        this.configurationAsked.push(scopeUri);
        return options.settings?.(scopeUri) ?? null;
      }),
    );
    connection.onRequest('workspace/inlayHint/refresh', () => {
      this.hintRefreshes += 1;
      return null;
    });
    const { readFile, listFiles } = options;
    if (readFile !== undefined)
      connection.onRequest('shootplan/readFile', ({ uri }: { uri: string }) => readFile(uri));
    if (listFiles !== undefined) connection.onRequest('shootplan/listFiles', () => listFiles());
    connection.listen();
  }

  notify(method: string, params: unknown): Promise<void> {
    return this.#connection.sendNotification(method, params);
  }

  request<R>(method: string, params: unknown): Promise<R> {
    return this.#connection.sendRequest<R>(method, params);
  }

  async open(uri: string, text: string, version = 1): Promise<void> {
    this.#texts.set(uri, { version, text });
    await this.notify('textDocument/didOpen', {
      textDocument: { uri, languageId: 'shootplan', version, text },
    });
  }

  /** Replaces the whole text. */
  async change(uri: string, text: string): Promise<number> {
    const version = (this.#texts.get(uri)?.version ?? 0) + 1;
    this.#texts.set(uri, { version, text });
    await this.notify('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ text }],
    });
    return version;
  }

  /** Replaces one range, as the client counts. */
  async edit(uri: string, version: number, start: Position, end: Position, text: string): Promise<void> {
    await this.notify('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range: { start, end }, text }],
    });
  }

  async close(uri: string): Promise<void> {
    await this.notify('textDocument/didClose', { textDocument: { uri } });
  }

  async watched(uri: string, type: 1 | 2 | 3): Promise<void> {
    await this.notify('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });
  }

  /** What the list of problems shows for a document. */
  problems(uri: string): readonly Diagnostic[] {
    return this.published.filter((params) => params.uri === uri).at(-1)?.diagnostics ?? [];
  }

  codes(uri: string): readonly unknown[] {
    return this.problems(uri).map(({ code }) => code);
  }

  /** Waits for a publication that fits, of those that have come or will come. */
  async until(fits: (params: PublishDiagnosticsParams) => boolean): Promise<PublishDiagnosticsParams> {
    for (let from = 0; ; ) {
      const found = this.published.slice(from).find(fits);
      if (found !== undefined) return found;
      from = this.published.length;
      await new Promise<void>((resolve) => this.#waiting.push(resolve));
    }
  }

  /** Waits until everything that was under way has been published: a document opened now comes after it. */
  async quiet(): Promise<void> {
    for (let round = 0; round < 2; round += 1) {
      this.#barriers += 1;
      const uri = `untitled:barrier-${this.#barriers}`;
      await this.open(uri, 'plan: barrier\n');
      await this.until((params) => params.uri === uri);
      await this.close(uri);
      await this.until((params) => params.uri === uri && params.version === undefined);
    }
  }

  stop(): void {
    this.#connection.dispose();
  }
}

/** A disk that is a map, with what was asked of it, and answers that can be held back. */
export class MemoryDisk implements Disk {
  readonly files: Map<string, string>;
  readonly asked: string[] = [];
  /** While set, answers wait for it. */
  gate: Promise<void> | undefined;
  readonly #watching = new Map<() => void, string>();

  constructor(files: Record<string, string> = {}) {
    this.files = new Map(Object.entries(files));
  }

  has(uri: string): boolean {
    return uri.startsWith('file:');
  }

  async read(uri: string): Promise<FileResult> {
    this.asked.push(uri);
    const text = this.files.get(decodeURIComponent(uri));
    await this.gate;
    return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
  }

  watch(uri: string, changed: () => void): () => void {
    this.#watching.set(changed, uri);
    return () => this.#watching.delete(changed);
  }

  /** The files that are watched, once for each that watches. */
  get watched(): readonly string[] {
    return [...this.#watching.values()];
  }

  /** Tells those that watch a file that it has changed. */
  tell(uri: string): void {
    for (const [changed, watched] of this.#watching) if (watched === uri) changed();
  }

  async list(): Promise<readonly string[]> {
    return [...this.files.keys()].sort();
  }
}
