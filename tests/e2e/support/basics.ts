import { expect, test } from 'vitest';
import { lineOf } from './dawn.ts';
import type { Editor } from './editor.ts';
import { printEvidence } from './evidence.ts';

/**
 * What must work in every editor that a person opens the small outing in, one test after the other. A dial is
 * marked with rounded times: 15 s stands for 16 s and 30 s for 32 s (ISO 516, the nominal markings).
 */
export function testBasics(editor: () => Editor): void {
  printEvidence(editor);

  test('a shutter time is shown, through the strength of a filter from the kit file', async () => {
    await editor().openFile('dawn.shootplan.yaml');
    await expect.poll(() => editor().hints()).toContainEqual(shutterHint(/\b30 s/));
  });

  test('the hint follows what is typed', async () => {
    await editor().replace('metered: 1/2 s', 'metered: 1/4 s');
    await expect.poll(() => editor().hints()).toContainEqual(shutterHint(/\b15 s/));
    await editor().replace('metered: 1/4 s', 'metered: 1/2 s');
    await expect.poll(() => editor().hints()).toContainEqual(shutterHint(/\b30 s/));
  });

  test('a broken value is listed as a problem at its place, and goes when it is mended', async () => {
    const before = await editor().problems();
    await editor().replace('metered: 1/2 s', 'metered: half a fortnight');
    const line = lineOf('metered:');
    await expect
      .poll(() => editor().problems())
      .toContainEqual(
        expect.objectContaining({
          file: 'dawn.shootplan.yaml',
          line,
          column: '        metered: '.length + 1,
        }),
      );
    await editor().replace('half a fortnight', '1/2 s');
    await expect.poll(() => editor().problems()).toEqual(before);
  });

  test('a hover says how the time came about', async () => {
    const { text } = await editor().hoverAt('1/2 s');
    expect(text).toMatch(/32 s/);
    expect(text).toMatch(/6 stops/);
  });
}

function shutterHint(text: RegExp) {
  return { line: lineOf('filters:'), text: expect.stringMatching(text) };
}
