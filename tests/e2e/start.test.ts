import { afterAll, describe, expect, test } from 'vitest';
import { type Running, startProgram } from './support/process.ts';
import { projectFolder } from './support/requirements.ts';

describe('a first look', () => {
  let served: Running | undefined;
  afterAll(() => served?.stop());

  test('prints the day of the clean sample, then the one address of an editor that answers', async () => {
    served = await startProgram(process.execPath, ['client/start-here.mjs', '--no-build'], /^(http:\S+)$/m, {
      cwd: projectFolder,
    });
    const { input, index } = served.match;
    expect(input?.slice(0, index)).toMatch(/2027-03-20/);
    expect(input?.match(/http:/g)).toHaveLength(1);
    const answer = await fetch(served.match[0]);
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain('/static/devextensions');
  });
});
