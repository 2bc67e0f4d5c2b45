/** Where a run writes. Everything that it says goes through here, so that it can be waited for. */
export interface Output {
  out(text: string): Promise<void>;
  error(text: string): Promise<void>;
  /** Whether what goes to `out` may be coloured. */
  readonly colour: boolean;
}

/**
 * Whether to colour: FORCE_COLOR (anything but empty, 0 and false) says yes, then NO_COLOR (anything but empty) says no,
 * then a terminal says yes. See no-color.org and force-color.org.
 */
export function wantsColour(
  environment: { readonly [name: string]: string | undefined },
  isTerminal: boolean,
): boolean {
  const { FORCE_COLOR: force, NO_COLOR: none, TERM: terminal } = environment;
  if (force !== undefined && !['', '0', 'false'].includes(force)) return true;
  if (none !== undefined && none !== '') return false;
  return isTerminal && terminal !== 'dumb';
}

const codes = { red: 31, yellow: 33, cyan: 36, bold: 1 } as const;

/** The text in a colour of the terminal, if colour is on. */
export function painted(text: string, colour: keyof typeof codes, on: boolean): string {
  return on ? `\u001b[${codes[colour]}m${text}\u001b[0m` : text;
}

/**
 * The streams of the process. A write ends when the text has left the process, so that nothing is cut off in a pipe; a
 * reader that has gone away (`| head`) is no fault.
 */
export function processOutput(): Output {
  const { stdout, stderr, env } = process;
  for (const stream of [stdout, stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
  }
  return {
    out: (text) => written(stdout, text),
    error: (text) => written(stderr, text),
    colour: wantsColour(env, stdout.isTTY === true),
  };
}

function written(stream: NodeJS.WriteStream, text: string): Promise<void> {
  return new Promise((resolve) => {
    stream.write(text, () => resolve());
  });
}
