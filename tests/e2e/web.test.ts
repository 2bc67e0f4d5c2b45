import { afterAll, beforeAll, describe } from 'vitest';
import { testBasics } from './support/basics.ts';
import { dawnFiles } from './support/dawn.ts';
import type { Editor } from './support/editor.ts';
import { available } from './support/requirements.ts';
import { openWebEditor } from './support/web.ts';
import { makeWorkspace } from './support/workspace.ts';

describe.runIf(available('chromium'))(
  'a web editor, the server in a web worker, files asked of the editor',
  () => {
    let editor: Editor;
    const workspace = makeWorkspace({ files: dawnFiles });

    beforeAll(async () => {
      editor = await openWebEditor(workspace);
    });
    afterAll(async () => {
      await editor?.close();
      workspace.remove();
    });

    testBasics(() => editor);
  },
);
