import type { TextDocumentContentChangeEvent, TextDocumentItem } from 'vscode-languageserver';
import { type Analysis, type AnalysisMemory, createAnalysisMemory, type Opened } from '../analysis.ts';
import { uriKey } from '../plan/kitPath.ts';
import { Lines } from '../text/lines.ts';
import { toSpan } from './convert.ts';
import { defaultSettings, type ServerSettings } from './settings.ts';

/** The kit file that a plan names, as read from outside the editor. */
export interface KitReading {
  readonly uri: string;
  readonly key: string;
  opened: Opened;
  /** The latest attempt; earlier ones that end later do not count. */
  reading: Promise<void>;
  readonly stopWatching: () => void;
}

/** A document that is open in the editor. Everything that is remembered of it goes when it is closed. */
export class OpenDocument {
  /** As the client spells it; every answer uses this spelling. */
  readonly uri: string;
  /** For comparing only. */
  readonly key: string;
  readonly memory: AnalysisMemory = createAnalysisMemory();
  settings: ServerSettings = defaultSettings;
  /** Settled once settings and kit are at hand for the first time, or have let us wait too long. */
  ready: Promise<void> = Promise.resolve();
  isReady = false;
  isClosed = false;
  #kit: KitReading | undefined;
  #version: number;
  #text: string;
  #lines: Lines | undefined;
  #analysis: Analysis | undefined;

  constructor({ uri, version, text }: TextDocumentItem) {
    this.uri = uri;
    this.key = uriKey(uri);
    this.#version = version;
    this.#text = text;
  }

  get kit(): KitReading | undefined {
    return this.#kit;
  }

  set kit(kit: KitReading | undefined) {
    if (kit !== this.#kit) this.#kit?.stopWatching();
    this.#kit = kit;
  }

  get version(): number {
    return this.#version;
  }

  get text(): string {
    return this.#text;
  }

  get lines(): Lines {
    this.#lines ??= new Lines(this.#text);
    return this.#lines;
  }

  /** Applies the changes in their order; each counts in the text that the one before has left. */
  change(version: number, changes: readonly TextDocumentContentChangeEvent[]): void {
    for (const change of changes) {
      if ('range' in change) {
        const { start, end } = toSpan(this.lines, change.range);
        this.#text = this.#text.slice(0, start) + change.text + this.#text.slice(end);
      } else this.#text = change.text;
      this.#lines = undefined;
    }
    this.#version = version;
    this.#analysis = undefined;
  }

  /** Something else than the text has changed: kit or settings. */
  invalidate(): void {
    this.#analysis = undefined;
  }

  /** The analysis of exactly the current text, made now if there is none. */
  analysis(make: () => Analysis): Analysis {
    this.#analysis ??= make();
    return this.#analysis;
  }
}
