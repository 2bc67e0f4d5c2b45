import { afterAll, beforeAll, describe } from 'vitest';
import { scenarioWorkspace, testScenarios } from './scenarios.ts';
import type { Editor } from './support/editor.ts';
import { available } from './support/requirements.ts';
import { openWebEditor } from './support/web.ts';

describe.runIf(available('chromium'))('plans in a web editor', () => {
  let editor: Editor;
  const workspace = scenarioWorkspace();

  beforeAll(async () => {
    editor = await openWebEditor(workspace);
  });
  afterAll(async () => {
    await editor?.close();
    workspace.remove();
  });

  testScenarios(() => editor);
});
