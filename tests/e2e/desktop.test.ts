import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { testBasics } from './support/basics.ts';
import { dawnFiles, dawnKit } from './support/dawn.ts';
import { openDesktopEditor } from './support/desktop.ts';
import type { Editor } from './support/editor.ts';
import { available } from './support/requirements.ts';
import { makeWorkspace } from './support/workspace.ts';

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

  test('a kit that another program changes counts at once', async () => {
    workspace.write('kit/bag.shootkit.yaml', dawnKit.replace('6 stops', '3 stops'));
    await expect
      .poll(() => editor.hints())
      .toContainEqual(expect.objectContaining({ text: expect.stringMatching(/(^|\D)4 s/) }));
  });
});

describe.runIf(here)('a desktop editor in Restricted Mode', () => {
  let editor: Editor;
  const workspace = makeWorkspace({ files: dawnFiles });

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
});
