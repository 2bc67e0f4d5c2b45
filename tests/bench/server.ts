import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import { Lines } from '../../server/text/lines.ts';
import { benchPlan, reading, readingOf } from './plans.ts';
import { type Runs, runsOf } from './table.ts';

export interface ServerTimes {
  readonly shots: number;
  /** Milliseconds, from one of the first edits after opening to its findings, while the engine still compiles. */
  readonly first: Runs;
  /** The same for the edits after those. */
  readonly findings: Runs;
  readonly hints: Runs;
  readonly hover: Runs;
  /** The most memory that the process held, in MiB; NaN where the system does not tell. */
  readonly peakMebibytes: number;
}

const uri = 'file:///bench/day.shootplan.yaml';

/** A server of its own, over stdio, as an editor starts it. */
class Session {
  readonly #process: ChildProcess;
  readonly #connection: MessageConnection;
  readonly startMilliseconds: Promise<number>;
  #published: (version: number) => void = () => {};

  constructor(program: string, folder: string) {
    const start = performance.now();
    this.#process = spawn(process.execPath, [program, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
    const { stdin, stdout } = this.#process;
    if (stdin === null || stdout === null) throw new Error('The server has no streams.');
    this.#connection = createMessageConnection(
      new StreamMessageReader(stdout),
      new StreamMessageWriter(stdin),
    );
    this.#connection.onNotification('textDocument/publishDiagnostics', ({ version }: { version: number }) =>
      this.#published(version),
    );
    this.#connection.listen();
    const initialized = this.#connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: null,
      workspaceFolders: [{ uri: folder, name: 'bench' }],
      capabilities: {
        textDocument: {
          publishDiagnostics: { versionSupport: true, relatedInformation: true },
          hover: { contentFormat: ['markdown'] },
        },
      },
    });
    this.startMilliseconds = initialized.then(() => {
      void this.#connection.sendNotification('initialized', {});
      return performance.now() - start;
    });
  }

  send(method: string, params: object): Promise<void> {
    return this.#connection.sendNotification(method, params);
  }

  ask(method: string, params: object): Promise<unknown> {
    return this.#connection.sendRequest(method, params);
  }

  /** Resolves when findings for that version of the document have come. */
  findings(version: number): Promise<void> {
    return new Promise((resolve) => {
      this.#published = (published) => {
        if (published === version) resolve();
      };
    });
  }

  get peakMebibytes(): number {
    try {
      const status = readFileSync(`/proc/${this.#process.pid}/status`, 'utf8');
      return Number(/^VmHWM:\s+(\d+) kB$/m.exec(status)?.[1]) / 1024;
    } catch {
      return Number.NaN;
    }
  }

  async end(): Promise<void> {
    const gone = new Promise((resolve) => this.#process.once('exit', resolve));
    await this.ask('shutdown', {});
    await this.send('exit', {});
    await gone;
    this.#connection.dispose();
  }
}

/** From starting the process to its answer to `initialize`, in milliseconds. */
export async function timeStart(program: string, folder: string, rounds: number): Promise<Runs> {
  const times: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const session = new Session(program, folder);
    times.push(await session.startMilliseconds);
    await session.end();
  }
  return runsOf(times);
}

/** So many edits after opening are counted apart. */
const firstEdits = 10;

/** Types into a plan of so many shots and waits for what an editor shows. */
export async function timeServer(
  program: string,
  folder: string,
  shots: number,
  rounds: number,
): Promise<ServerTimes> {
  const text = benchPlan(shots);
  const lines = new Lines(text);
  const match = [...text.matchAll(reading)].find(({ index }) => index > text.length >> 1);
  const at = lines.position((match?.index ?? 0) + 'metered: '.length);
  let written = (match?.[0] ?? '').slice('metered: '.length);
  const whole = { start: { line: 0, character: 0 }, end: lines.position(text.length) };
  const session = new Session(program, folder);
  await session.startMilliseconds;
  let version = 1;
  const first = session.findings(version);
  await session.send('textDocument/didOpen', {
    textDocument: { uri, languageId: 'shootplan', version, text },
  });
  await first;
  const edit = () => {
    version += 1;
    const range = { start: at, end: { ...at, character: at.character + written.length } };
    written = readingOf(version);
    const contentChanges = [{ range, text: written }];
    return session.send('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
  };
  const findingsAfterEdit = async () => {
    const start = performance.now();
    const findings = session.findings(version + 1);
    await edit();
    await findings;
    return performance.now() - start;
  };
  const times = {
    first: [] as number[],
    findings: [] as number[],
    hints: [] as number[],
    hover: [] as number[],
  };
  for (let round = 0; round < firstEdits; round += 1) times.first.push(await findingsAfterEdit());
  for (let round = 0; round < rounds; round += 1) {
    times.findings.push(await findingsAfterEdit());

    let start = performance.now();
    await edit();
    await session.ask('textDocument/inlayHint', { textDocument: { uri }, range: whole });
    times.hints.push(performance.now() - start);

    start = performance.now();
    await session.ask('textDocument/hover', { textDocument: { uri }, position: at });
    times.hover.push(performance.now() - start);
  }
  const { peakMebibytes } = session;
  await session.end();
  return {
    shots,
    first: runsOf(times.first),
    findings: runsOf(times.findings),
    hints: runsOf(times.hints),
    hover: runsOf(times.hover),
    peakMebibytes,
  };
}
