/**
 * Draws the pictures of the README and of the hovers in a real editor, into samples/pictures/:
 *
 *     node client/build.mjs && node client/run.mjs tests/e2e/pictures.ts
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Editor } from './support/editor.ts';
import { projectFolder } from './support/requirements.ts';
import { openWebEditor } from './support/web.ts';
import { makeWorkspace } from './support/workspace.ts';

const folder = join(projectFolder, 'samples/pictures');
const plan = 'dawn-to-noon.shootplan.yaml';

/** What is hovered over in the clean sample; each text occurs there once. */
const hovers = { facing: '305°', moment: 'civil dawn + 6 min', effect: 'cleared of people', stack: '[nd6]' };

const workspace = makeWorkspace({ from: ['samples'] });
const editor = await openWebEditor(workspace);
try {
  mkdirSync(folder, { recursive: true });
  await editor.page.setViewportSize({ width: 1400, height: 900 });
  await editor.openFile(plan);
  await editor.run('View: Toggle Primary Side Bar Visibility');
  for (const theme of ['light', 'dark'] as const) {
    await editor.setTheme(theme);
    for (const [name, text] of Object.entries(hovers)) {
      await hover(editor, text);
      await editor.page
        .locator('.monaco-hover:not(.hidden)')
        .filter({ has: editor.page.locator('.hover-row') })
        .first()
        .screenshot({ path: join(folder, `${name}-${theme}.png`) });
    }
  }
  await hover(editor, hovers.stack);
  await editor.page.locator('.part.editor').screenshot({ path: join(folder, 'editor.png') });
} finally {
  await editor.close();
  workspace.remove();
}

/** Opens the hover on a text once its surroundings have their hints. */
async function hover(shown: Editor, text: string): Promise<void> {
  await shown.select(text);
  await shown.page.locator('.view-line span[class*="dyn-rule"]').first().waitFor();
  await shown.hoverAt(text);
}
