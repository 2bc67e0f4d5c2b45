import type { Connection } from 'vscode-languageserver';
import { capitalized } from '../text/sentence.ts';
import { isKitOrPlan } from './names.ts';
import { listFilesMethod, readFileMethod } from './protocol.ts';
import type { FileResult, Runtime } from './runtime.ts';

/**
 * Files outside the editor, by URI. Those of the machine are read by the host; every other file system is the client's,
 * which is asked, if it answers such questions.
 */
export class Files {
  readonly #connection: Connection;
  readonly #runtime: Runtime;
  readonly #clientReads: boolean;
  /** The URIs of the workspace folders; empty when none is open. */
  folders: readonly string[];

  constructor(connection: Connection, runtime: Runtime, clientReads: boolean, folders: readonly string[]) {
    this.#connection = connection;
    this.#runtime = runtime;
    this.#clientReads = clientReads;
    this.folders = folders;
  }

  /** The text of a file that a plan names. Never rejects. */
  async read(uri: string, plan: string): Promise<FileResult> {
    const { disk } = this.#runtime;
    if (disk?.has(uri) === true) return disk.read(uri, { folders: this.folders, plan });
    if (!this.#clientReads) return { kind: 'refused', reason: 'The editor gives no access to such files.' };
    try {
      return readResult(await this.#connection.sendRequest<unknown>(readFileMethod, { uri }));
    } catch {
      return { kind: 'refused', reason: 'The editor could not read it.' };
    }
  }

  /** Calls `changed` when a file of the machine has changed, until told to stop; of others, the client tells. */
  watch(uri: string, changed: () => void): () => void {
    const { disk } = this.#runtime;
    return disk?.has(uri) === true ? disk.watch(uri, changed) : () => {};
  }

  /** The URIs of every plan and kit in the workspace, sorted. Never rejects. */
  async list(): Promise<readonly string[]> {
    if (this.#clientReads) {
      try {
        const sent = await this.#connection.sendRequest<{ uris?: unknown } | null>(listFilesMethod);
        const uris: readonly unknown[] = Array.isArray(sent?.uris) ? sent.uris : [];
        return uris.filter((uri) => typeof uri === 'string').filter(isKitOrPlan);
      } catch {
        return [];
      }
    }
    return (await this.#runtime.disk?.list(this.folders)) ?? [];
  }
}

/** The client's answer: a text, or a reason in a few words. */
function readResult(sent: unknown): FileResult {
  const { text, absent, reason } = (sent ?? {}) as { text?: unknown; absent?: unknown; reason?: unknown };
  if (typeof text === 'string') return { kind: 'text', text };
  if (absent === true) return { kind: 'missing' };
  return { kind: 'refused', reason: typeof reason === 'string' ? sentence(reason) : 'It cannot be read.' };
}

function sentence(words: string): string {
  return `${capitalized(words)}.`;
}
