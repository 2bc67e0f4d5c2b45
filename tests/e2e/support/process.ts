import { type ChildProcess, type SpawnOptions, spawn } from 'node:child_process';

/** A program of ours that runs beside the tests. */
export interface Running {
  /** What its first matching line of output held: the match of the pattern it was waited for with. */
  readonly match: RegExpMatchArray;
  stop(): Promise<void>;
}

const running = new Set<ChildProcess>();
process.on('exit', () => {
  for (const child of running) child.kill('SIGKILL');
});

/** Starts a program and waits until its output matches; fails with that output when it ends before. */
export function startProgram(
  command: string,
  args: readonly string[],
  ready: RegExp,
  options: SpawnOptions = {},
): Promise<Running> {
  const child = spawn(command, args, { ...options, stdio: ['ignore', 'pipe', 'pipe'] });
  running.add(child);
  const ended = new Promise<void>((resolve) => child.once('close', () => resolve()));
  void ended.then(() => running.delete(child));
  const stop = async () => {
    child.kill('SIGTERM');
    await ended;
  };

  return new Promise((resolve, reject) => {
    let output = '';
    const read = (chunk: Buffer) => {
      output += chunk.toString();
      const match = output.match(ready);
      if (match) resolve({ match, stop });
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    child.once('error', reject);
    void ended.then(() => reject(new Error(`${command} ${args[0]} ended early:\n${output}`)));
  });
}
