import { openPage } from './browser.ts';
import { Editor } from './editor.ts';
import { startProgram } from './process.ts';
import { projectFolder } from './requirements.ts';
import type { Workspace } from './workspace.ts';

/**
 * The web editor: what `npm start` serves, in headless Chromium. The extension host and the language server
 * are web workers; the workspace is a virtual file system that is read from disk and saved to memory.
 */
export async function openWebEditor(workspace: Workspace): Promise<Editor> {
  const server = await startProgram(
    process.execPath,
    ['client/start-here.mjs', '--no-build', workspace.folder],
    /^http:\S+/m,
    { cwd: projectFolder },
  );
  const { page, close } = await openPage();
  return Editor.open(page, server.match[0], async () => {
    await close();
    await server.stop();
  });
}
