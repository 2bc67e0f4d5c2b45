import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import type { Editor } from './editor.ts';

const lastLines = 25;

/** Prints, after each test that failed, what the editor shows and the last lines of its logs. Call it in a suite. */
export function printEvidence(editor: () => Editor): void {
  afterEach(async ({ task }) => {
    if (task.result?.state !== 'fail') return;
    try {
      console.error(await evidence(editor()));
    } catch (error) {
      console.error('There is no evidence to be had:', error);
    }
  });
}

async function evidence(editor: Editor): Promise<string> {
  const shown = { text: await editor.lines(), problems: await editor.problems() };
  const logs = editor.logs === undefined ? [] : filesIn(editor.logs).map((path) => lastOf(path));
  return [JSON.stringify(shown, null, 2), ...logs].join('\n');
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.log'))
    .map((entry) => join(entry.parentPath, entry.name));
}

function lastOf(path: string): string {
  const lines = readFileSync(path, 'utf8').trimEnd().split('\n');
  return [`--- ${path}`, ...lines.slice(-lastLines)].join('\n');
}
