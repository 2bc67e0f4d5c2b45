import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { pathOf, projectFolder } from './requirements.ts';

/** What neovim's own language client was told about one file. Lines and characters are counted from 0. */
export interface NeovimReport {
  readonly diagnostics: readonly {
    readonly line: number;
    readonly character: number;
    readonly severity: 'error' | 'warning' | 'information' | 'hint';
    readonly code: string;
    readonly message: string;
  }[];
  /** The markdown of the hover. */
  readonly hover: string;
  /** What the server announced. */
  readonly capabilities: Readonly<Record<string, unknown>>;
}

/** Opens a file in a headless neovim with our server over stdio, and asks for a hover at the first `hoverAt`. */
export async function askNeovim(file: string, hoverAt: string): Promise<NeovimReport> {
  const place = mkdtempSync(join(tmpdir(), 'shoot-plan-neovim-'));
  const report = join(place, 'report.json');
  const script = fileURLToPath(new URL('./neovim.lua', import.meta.url));
  try {
    const { stdout, stderr } = await promisify(execFile)(
      pathOf('neovim'),
      ['--headless', '--clean', '-n', '-c', `luafile ${script}`],
      {
        cwd: place,
        timeout: 60_000,
        env: {
          ...process.env,
          XDG_STATE_HOME: place,
          XDG_CACHE_HOME: place,
          SHOOTPLAN_NODE: process.execPath,
          SHOOTPLAN_SERVER: join(projectFolder, 'dist/server-node.cjs'),
          SHOOTPLAN_FILE: file,
          SHOOTPLAN_HOVER_AT: hoverAt,
          SHOOTPLAN_REPORT: report,
        },
      },
    );
    try {
      return JSON.parse(readFileSync(report, 'utf8')) as NeovimReport;
    } catch {
      throw new Error(`neovim made no report:\n${stdout}${stderr}`);
    }
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}
