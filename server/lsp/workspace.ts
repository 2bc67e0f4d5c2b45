import type { CancellationToken, Connection, FileEvent } from 'vscode-languageserver';
import { FileChangeType, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { type Analysis, analyse, type Opened, type Source } from '../analysis.ts';
import { rules } from '../checks/list.ts';
import { uriKey } from '../plan/kitPath.ts';
import { Lines } from '../text/lines.ts';
import type { Client } from './client.ts';
import { toDiagnostic } from './diagnostics.ts';
import type { OpenDocument } from './document.ts';
import type { Files } from './files.ts';
import { isKit } from './names.ts';
import { Pending } from './pending.ts';
import { defaultSettings, readSettings, type ServerSettings } from './settings.ts';

/** How long the first answer about a document may wait for its settings and its kit. */
const firstWaitMs = 500;

/** How many files are read side by side. */
const filesAtOnce = 16;

const codes: ReadonlySet<string> = new Set(rules.map(({ code }) => code));

/** The open documents, the kits that they use, and what is published about them. */
export class Workspace {
  readonly #connection: Connection;
  readonly #client: Client;
  readonly #files: Files;
  readonly #documents = new Map<string, OpenDocument>();
  readonly #pending: Pending;
  #commonSettings: ServerSettings = defaultSettings;
  #hintsAreStale = false;

  constructor(connection: Connection, client: Client, files: Files) {
    this.#connection = connection;
    this.#client = client;
    this.#files = files;
    this.#pending = new Pending((key) => this.#publish(key));
  }

  get client(): Client {
    return this.#client;
  }

  get files(): Files {
    return this.#files;
  }

  get documents(): Iterable<OpenDocument> {
    return this.#documents.values();
  }

  document(uri: string): OpenDocument | undefined {
    return this.#documents.get(uriKey(uri));
  }

  open(document: OpenDocument): void {
    const { key } = document;
    const before = this.#documents.get(key);
    if (before !== undefined) this.close(before.uri);
    this.#documents.set(key, document);
    document.settings = this.#commonSettings;
    document.ready = this.#prepare(document);
    this.#kitChanged(key);
  }

  change(uri: string, apply: (document: OpenDocument) => void): void {
    const document = this.document(uri);
    if (document === undefined) return;
    apply(document);
    this.#pending.ask(document.key);
    this.#kitChanged(document.key);
  }

  close(uri: string): void {
    const document = this.document(uri);
    if (document === undefined) return;
    document.isClosed = true;
    document.kit = undefined;
    this.#documents.delete(document.key);
    this.#pending.cancel(document.key);
    void this.#connection.sendDiagnostics({ uri: document.uri, diagnostics: [] });
    // What counts now is the kit on disk; until that is read, the text that was seen last.
    for (const { kit } of this.#documents.values()) {
      if (kit?.key === document.key) kit.opened = { kind: 'text', uri: kit.uri, text: document.text };
    }
    this.#readAgain((key) => key === document.key);
  }

  /** Where no watcher reports anything, a save is the time to look at the kit again. */
  saved(uri: string): void {
    const kit = this.document(uri)?.kit;
    if (kit !== undefined) this.#readAgain((key) => key === kit.key);
  }

  /** Files have changed outside the editor. */
  filesChanged(changes: readonly FileEvent[]): void {
    const keys = changes.map(({ uri }) => uriKey(uri));
    this.#readAgain((key) => keys.some((changed) => key === changed || key.startsWith(`${changed}/`)));
    for (const { uri, type } of changes) {
      if (type === FileChangeType.Deleted && this.document(uri) === undefined) {
        void this.#connection.sendDiagnostics({ uri, diagnostics: [] });
      }
    }
  }

  /** Any file may have changed. */
  everythingChanged(): void {
    this.#readAgain(() => true);
  }

  /** Settings that the client has sent by itself, for all documents. */
  setSettings(sent: unknown): void {
    this.#commonSettings = this.#read(sent);
    for (const document of this.#documents.values()) this.#setSettings(document, this.#commonSettings);
  }

  /** The client says that settings have changed, and is asked which. */
  async pullSettings(): Promise<void> {
    await Promise.all([...this.#documents.values()].map((document) => this.#pullSettings(document)));
  }

  /** The analysis of exactly the document's current text. */
  analysisOf(document: OpenDocument): Analysis {
    return document.analysis(() => {
      const analysis = analyse(
        { uri: document.uri, text: document.text },
        {
          rules,
          open: (uri) => this.#open(document, uri),
          settings: document.settings,
          memory: document.memory,
          onFault: (code, fault) => this.log(new Error(`the rule ${code} failed`, { cause: fault })),
        },
      );
      if (analysis.kitFile === undefined) document.kit = undefined;
      return analysis;
    });
  }

  /** The lines of any text that the analyses speak of. */
  linesOf(uri: string, ...analyses: readonly Analysis[]): Lines | undefined {
    const document = this.document(uri);
    if (document !== undefined) return document.lines;
    for (const text of analyses.flatMap((analysis) => [analysis, analysis.kit])) {
      if (text !== undefined && uriKey(text.uri) === uriKey(uri)) return new Lines(text.text);
    }
    return undefined;
  }

  /**
   * Analyses of the documents that may share ids with this one: those that are open, and the plans outside the editor
   * that name the same kit. They are made for one answer and not kept.
   */
  async related(document: OpenDocument): Promise<readonly Analysis[]> {
    const analysis = this.analysisOf(document);
    const kit = analysis.kind === 'kit' ? document.uri : analysis.kitFile?.uri;
    const texts = kit === undefined ? [] : await this.#plansNaming(kit, document.uri);
    const open = [...this.#documents.values()].map((other) => this.analysisOf(other));
    const kitText = kit === undefined ? undefined : this.#textOfKit(kit, document);
    const closed = texts
      .filter(({ uri }) => this.document(uri) === undefined)
      .map((source) =>
        analyse(source, {
          rules: [],
          open: (uri) =>
            kit !== undefined && kitText !== undefined && uriKey(uri) === uriKey(kit)
              ? kitText
              : { kind: 'pending' },
        }),
      );
    return [...open, ...closed];
  }

  async #plansNaming(kit: string, from: string): Promise<readonly Source[]> {
    const name = kit.slice(kit.lastIndexOf('/') + 1);
    const names = [name, safelyDecoded(name)];
    const uris = (await this.#files.list()).filter(
      (uri) => !isKit(uri) && this.document(uri) === undefined && uriKey(uri) !== uriKey(kit),
    );
    const found: Source[] = [];
    for (let start = 0; start < uris.length; start += filesAtOnce) {
      const part = uris.slice(start, start + filesAtOnce);
      const results = await Promise.all(part.map((uri) => this.#files.read(uri, from)));
      results.forEach((result, index) => {
        if (result.kind === 'text' && names.some((one) => result.text.includes(one))) {
          found.push({ uri: part[index] as string, text: result.text });
        }
      });
    }
    return found;
  }

  /** The kit as it stands in the editor, else as it was read for a plan. */
  #textOfKit(kit: string, document: OpenDocument): Opened | undefined {
    const edited = this.document(kit);
    if (edited !== undefined) return { kind: 'text', uri: edited.uri, text: edited.text };
    return document.kit?.opened;
  }

  /**
   * Answers a request from an analysis of the text that the client has now. A text that changes while the first kit is
   * being read makes the answer void, and the client is told so. A fault in a feature is logged; the answer is `empty`.
   */
  async answer<R>(
    uri: string,
    token: CancellationToken,
    empty: R,
    find: (analysis: Analysis, document: OpenDocument) => R | Promise<R>,
  ): Promise<R> {
    const document = this.document(uri);
    if (document === undefined) return empty;
    const { version } = document;
    const current = <T>(value: T): T => {
      if (token.isCancellationRequested) {
        throw new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was cancelled.');
      }
      if (document.isClosed || document.version !== version) {
        throw new ResponseError(LSPErrorCodes.ContentModified, 'The document has changed.');
      }
      return value;
    };
    if (!document.isReady) await document.ready;
    current(undefined);
    try {
      return current(await find(this.analysisOf(document), document));
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      this.log(error);
      return empty;
    }
  }

  log(problem: unknown): void {
    const text = problem instanceof Error ? (problem.stack ?? problem.message) : String(problem);
    this.#connection.console.error(text);
  }

  async #prepare(document: OpenDocument): Promise<void> {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const enough = new Promise<void>((resolve) => {
      timer = setTimeout(resolve, firstWaitMs);
    });
    await Promise.race([this.#firstLook(document), enough]);
    clearTimeout(timer);
    document.isReady = true;
    if (!document.isClosed) this.#pending.ask(document.key);
  }

  async #firstLook(document: OpenDocument): Promise<void> {
    if (this.#client.pullsConfiguration) await this.#pullSettings(document);
    try {
      this.analysisOf(document);
    } catch (error) {
      this.log(error);
    }
    await document.kit?.reading;
  }

  /** What a plan's `kit` leads to: an open document, else the file, which is read once and then when it changes. */
  #open(document: OpenDocument, uri: string): Opened {
    if (document.isClosed) return { kind: 'pending' };
    const key = uriKey(uri);
    if (document.kit?.key !== key) {
      document.kit = {
        uri,
        key,
        opened: { kind: 'pending' },
        reading: Promise.resolve(),
        stopWatching: this.#files.watch(uri, () => this.#readAgain((changed) => changed === key)),
      };
      // A kit that is open in the editor is read from disk when it is closed there.
      if (!this.#documents.has(key)) this.#readKit(document);
    }
    const edited = this.#documents.get(key);
    if (edited !== undefined) return { kind: 'text', uri: edited.uri, text: edited.text };
    return document.kit.opened;
  }

  #readKit(document: OpenDocument): void {
    const { kit } = document;
    if (kit === undefined) return;
    const reading = this.#files.read(kit.uri, document.uri).then((result) => {
      if (document.isClosed || document.kit !== kit || kit.reading !== reading) return;
      const opened: Opened = result.kind === 'text' ? { ...result, uri: kit.uri } : result;
      if (isSame(kit.opened, opened)) return;
      kit.opened = opened;
      if (!this.#documents.has(kit.key)) this.#outdated(document);
    });
    kit.reading = reading;
  }

  #readAgain(isMeant: (kitKey: string) => boolean): void {
    for (const document of this.#documents.values()) {
      const { kit } = document;
      if (kit !== undefined && isMeant(kit.key) && !this.#documents.has(kit.key)) this.#readKit(document);
    }
  }

  /** The plans that use a kit which has been opened or edited. */
  #kitChanged(key: string): void {
    for (const document of this.#documents.values()) {
      if (document.kit?.key === key && document.key !== key) this.#outdated(document);
    }
  }

  /** Something that the document rests on has changed, though its text has not. */
  #outdated(document: OpenDocument): void {
    document.invalidate();
    // Before that, nothing has been shown that could be out of date.
    if (!document.isReady) return;
    this.#hintsAreStale = true;
    this.#pending.ask(document.key);
  }

  async #pullSettings(document: OpenDocument): Promise<void> {
    try {
      const sent: unknown = await this.#connection.workspace.getConfiguration({
        scopeUri: document.uri,
        section: 'shootPlan',
      });
      this.#setSettings(document, this.#read(sent));
    } catch (error) {
      this.log(error);
    }
  }

  #setSettings(document: OpenDocument, settings: ServerSettings): void {
    if (document.isClosed) return;
    document.settings = settings;
    this.#outdated(document);
  }

  #read(sent: unknown): ServerSettings {
    return readSettings(sent, codes, (message) => this.#connection.console.warn(message));
  }

  #publish(key: string): void {
    const document = this.#documents.get(key);
    if (document === undefined || !document.isReady) return;
    try {
      const analysis = this.analysisOf(document);
      const linesOf = (uri: string) => this.linesOf(uri, analysis);
      void this.#connection.sendDiagnostics({
        uri: document.uri,
        version: document.version,
        diagnostics: analysis.findings.map((finding) =>
          toDiagnostic(finding, document.lines, linesOf, this.#client),
        ),
      });
    } catch (error) {
      this.log(error);
    }
    if (this.#hintsAreStale) {
      this.#hintsAreStale = false;
      if (this.#client.refreshesHints) void this.#connection.languages.inlayHint.refresh().catch(() => {});
    }
  }
}

function isSame(a: Opened, b: Opened): boolean {
  if (a.kind === 'text' && b.kind === 'text') return a.text === b.text;
  if (a.kind === 'refused' && b.kind === 'refused') return a.reason === b.reason;
  return a.kind === b.kind;
}

/** The text without percent-encoding; as it is, where that is broken. */
function safelyDecoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
