import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly error: string;
}

export interface RunOptions {
  readonly input?: string | Uint8Array;
  readonly environment?: Record<string, string>;
  /** Seen from the folder of the command. */
  readonly cwd?: string;
}

/** The command as it is shipped: bundled into a folder of its own, run as a process. */
export class Command {
  readonly folder: string;
  readonly #bundle: string;

  private constructor(folder: string, bundle: string) {
    this.folder = folder;
    this.#bundle = bundle;
  }

  static async build(): Promise<Command> {
    const root = await realpath(await mkdtemp(join(tmpdir(), 'shootplan-cli-')));
    const bundle = join(root, 'bin', 'shootplan.cjs');
    await build({
      entryPoints: [fileURLToPath(new URL('../../server/cli/main.ts', import.meta.url))],
      outfile: bundle,
      bundle: true,
      platform: 'node',
      format: 'cjs',
      target: 'node20',
      logLevel: 'error',
    });
    const folder = join(root, 'work');
    await mkdir(folder);
    return new Command(folder, bundle);
  }

  async write(path: string, content: string | Uint8Array): Promise<string> {
    const file = join(this.folder, path);
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, content);
    return file;
  }

  run(arguments_: readonly string[], options: RunOptions = {}): Promise<Ran> {
    return this.#spawn(process.execPath, [this.#bundle, ...arguments_], options);
  }

  /** Through a shell, with `shootplan` standing for the command. */
  shell(line: string, options: RunOptions = {}): Promise<Ran> {
    const command = `'${process.execPath}' '${this.#bundle}'`;
    return this.#spawn('/bin/sh', ['-c', line.replaceAll('shootplan ', `${command} `)], options);
  }

  remove(): Promise<void> {
    return rm(dirname(this.folder), { recursive: true, force: true });
  }

  #spawn(program: string, arguments_: readonly string[], options: RunOptions): Promise<Ran> {
    const { PATH = '' } = process.env;
    return new Promise((resolve, reject) => {
      const child = spawn(program, arguments_, {
        cwd: join(this.folder, options.cwd ?? '.'),
        env: { PATH, ...options.environment },
      });
      const out: Buffer[] = [];
      const error: Buffer[] = [];
      child.stdout.on('data', (part: Buffer) => out.push(part));
      child.stderr.on('data', (part: Buffer) => error.push(part));
      child.on('error', reject);
      child.on('close', (code) =>
        resolve({ code, out: Buffer.concat(out).toString(), error: Buffer.concat(error).toString() }),
      );
      child.stdin.on('error', () => {});
      child.stdin.end(options.input ?? '');
    });
  }
}
