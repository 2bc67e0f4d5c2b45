import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { projectFolder } from './requirements.ts';

/** A folder of its own for one suite, under the system's temporary folder. */
export interface Workspace {
  readonly folder: string;
  read(name: string): string;
  /** Writes a file, as another program would while the editor is open. */
  write(name: string, text: string): void;
  remove(): void;
}

/** Settings that every test editor gets: nothing in the way of what is looked at. */
export const quietSettings = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.editor.enablePreview': false,
  'workbench.enableExperiments': false,
  'editor.minimap.enabled': false,
  'editor.stickyScroll.enabled': false,
  'editor.occurrencesHighlight': 'off',
  'editor.hover.delay': 100,
  'breadcrumbs.enabled': false,
  'files.autoSave': 'off',
  'security.workspace.trust.startupPrompt': 'never',
  'chat.disableAIFeatures': true,
  'chat.commandCenter.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'update.mode': 'none',
};

/**
 * Makes a workspace from texts by name, and from folders of the project (their content, such as `samples`).
 * Workspace settings hold `quietSettings` and those given.
 */
export function makeWorkspace({
  files = {},
  from = [],
  settings = {},
}: {
  files?: Record<string, string>;
  from?: readonly string[];
  settings?: Record<string, unknown>;
}): Workspace {
  const folder = mkdtempSync(join(tmpdir(), 'shoot-plan-workspace-'));
  const write = (name: string, text: string) => {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  };
  for (const source of from) cpSync(join(projectFolder, source), folder, { recursive: true });
  for (const [name, text] of Object.entries(files)) write(name, text);
  write('.vscode/settings.json', JSON.stringify({ ...quietSettings, ...settings }, null, 2));
  return {
    folder,
    read: (name) => readFileSync(join(folder, name), 'utf8'),
    write,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
