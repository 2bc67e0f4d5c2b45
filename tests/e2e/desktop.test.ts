import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { testBasics } from './support/basics.ts';
import { dawnFiles, dawnKit } from './support/dawn.ts';
import { openDesktopEditor } from './support/desktop.ts';
import type { Editor } from './support/editor.ts';
import { available } from './support/requirements.ts';
import { makeWorkspace, type Workspace } from './support/workspace.ts';

const here = available('chromium', 'desktopNode', 'desktopEditor');

describe.runIf(here)('a desktop editor, the server as a child process', () => {
  let editor: Editor;
  const workspace = makeWorkspace({ files: dawnFiles });

  beforeAll(async () => {
    editor = await openDesktopEditor(workspace);
  });
  afterAll(async () => {
    await editor?.close();
    workspace.remove();
  });

  testBasics(() => editor);

  test('a kit that another program changes counts at once', () => testKitOnDisk(editor, workspace));
});

describe.runIf(here)('a desktop editor in Restricted Mode that watches no files', () => {
  let editor: Editor;
  const settings = { 'files.watcherExclude': { '**': true } };
  const workspace = makeWorkspace({ files: dawnFiles, settings });

  beforeAll(async () => {
    editor = await openDesktopEditor(workspace, { trusted: false });
  });
  afterAll(async () => {
    await editor?.close();
    workspace.remove();
  });

  test('the workspace is not trusted', async () => {
    await expect.poll(() => editor.isRestricted()).toBe(true);
  });

  testBasics(() => editor);

  test('a kit that another program changes counts all the same', () => testKitOnDisk(editor, workspace));
});

/** With 3 stops instead of 6, 1/2 s becomes 4 s. */
async function testKitOnDisk(editor: Editor, workspace: Workspace): Promise<void> {
  workspace.write('kit/bag.shootkit.yaml', dawnKit.replace('6 stops', '3 stops'));
  await expect
    .poll(() => editor.hints())
    .toContainEqual(expect.objectContaining({ text: expect.stringMatching(/(^|\D)4 s/) }));
}
