import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { openPage } from './browser.ts';
import { Editor } from './editor.ts';
import { startProgram } from './process.ts';
import { pathOf, projectFolder } from './requirements.ts';
import { quietSettings, type Workspace } from './workspace.ts';

const require = createRequire(import.meta.url);
const { listFiles, PackageManager } = require('@vscode/vsce') as {
  listFiles(options: { cwd: string; packageManager: number }): Promise<string[]>;
  PackageManager: { None: number };
};

/** What a package of the extension would hold, relative to the project. */
export function packagedFiles(): Promise<string[]> {
  return listFiles({ cwd: projectFolder, packageManager: PackageManager.None });
}

/**
 * The desktop-like editor: a VS Code whose extension host is Node, so that the language server is a child
 * process and files are real. What is installed is what a package would hold, file by file. With
 * `trusted: false` the workspace opens in Restricted Mode.
 */
export async function openDesktopEditor(workspace: Workspace, { trusted = true } = {}): Promise<Editor> {
  const home = mkdtempSync(join(tmpdir(), 'shoot-plan-desktop-'));
  await installExtension(join(home, 'extensions'));
  mkdirSync(join(home, 'data/User'), { recursive: true });
  writeFileSync(join(home, 'data/User/settings.json'), JSON.stringify(quietSettings));
  const server = await startProgram(
    pathOf('desktopNode'),
    [
      pathOf('desktopEditor'),
      ...['--config', join(home, 'config.yaml')],
      ...['--auth', 'none'],
      ...['--bind-addr', '127.0.0.1:0'],
      ...['--user-data-dir', join(home, 'data')],
      ...['--extensions-dir', join(home, 'extensions')],
      '--disable-telemetry',
      '--disable-update-check',
      ...(trusted ? ['--disable-workspace-trust'] : []),
      workspace.folder,
    ],
    /HTTP server listening on (http:\S+)/,
    // No gallery of extensions: nothing is asked of the network.
    { cwd: home, env: { ...process.env, EXTENSIONS_GALLERY: '{}' } },
  );
  const { page, close } = await openPage();
  const ends = async () => {
    await close();
    await server.stop();
    rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
  return Editor.open(page, server.match[1] as string, ends, join(home, 'data/logs'));
}

async function installExtension(extensions: string): Promise<void> {
  const { publisher, name, version } = require(join(projectFolder, 'package.json'));
  const place = join(extensions, `${publisher}.${name}-${version}`);
  for (const file of await packagedFiles()) {
    mkdirSync(dirname(join(place, file)), { recursive: true });
    cpSync(join(projectFolder, file), join(place, file));
  }
}
