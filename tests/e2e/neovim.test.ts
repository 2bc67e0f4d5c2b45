import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { dawnFiles, dawnPlan, lineOf } from './support/dawn.ts';
import { askNeovim } from './support/neovim.ts';
import { available } from './support/requirements.ts';
import { makeWorkspace } from './support/workspace.ts';

describe.runIf(available('neovim'))("neovim's own language client, the server over stdio", () => {
  const workspace = makeWorkspace({
    files: {
      ...dawnFiles,
      'broken (fjørd) #2.shootplan.yaml': dawnPlan.replace('metered: 1/2 s', 'metered: half a fortnight'),
    },
  });
  afterAll(() => workspace.remove());

  test('a hover says how the time came about', async () => {
    const { hover, capabilities } = await askNeovim(join(workspace.folder, 'dawn.shootplan.yaml'), '1/2 s');
    expect(capabilities).toMatchObject({ inlayHintProvider: expect.anything() });
    expect(hover).toMatch(/32 s/);
  });

  test('a broken value is reported at its place', async () => {
    const { diagnostics } = await askNeovim(
      join(workspace.folder, 'broken (fjørd) #2.shootplan.yaml'),
      'Hallin',
    );
    expect(diagnostics).toContainEqual(
      expect.objectContaining({ line: lineOf('metered:') - 1, character: '        metered: '.length }),
    );
  });
});
