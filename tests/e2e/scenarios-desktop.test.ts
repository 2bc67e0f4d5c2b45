import { afterAll, beforeAll, describe } from 'vitest';
import { scenarioWorkspace, testScenarios } from './scenarios.ts';
import { openDesktopEditor } from './support/desktop.ts';
import type { Editor } from './support/editor.ts';
import { available } from './support/requirements.ts';

describe.runIf(available('chromium', 'desktopNode', 'desktopEditor'))('plans in a desktop editor', () => {
  let editor: Editor;
  const workspace = scenarioWorkspace();

  beforeAll(async () => {
    editor = await openDesktopEditor(workspace);
  });
  afterAll(async () => {
    await editor?.close();
    workspace.remove();
  });

  testScenarios(() => editor);
});
