import { readFile } from 'node:fs/promises';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { rules } from '../../server/checks/list.ts';
import { Command } from './command.ts';

let command: Command;

beforeAll(async () => {
  command = await Command.build();
});

afterAll(() => command.remove());

interface Location {
  readonly physicalLocation: {
    readonly artifactLocation: { readonly uri: string; readonly uriBaseId?: string };
    readonly region: Readonly<Record<string, number>>;
  };
}

interface Result {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly level: string;
  readonly locations: readonly Location[];
  readonly relatedLocations?: readonly Location[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
}

interface Run {
  readonly columnKind: string;
  readonly originalUriBaseIds: { readonly ROOT: { readonly uri: string } };
  readonly invocations: readonly unknown[];
  readonly tool: { readonly driver: { readonly rules: readonly { readonly id: string }[] } };
  readonly results: readonly Result[];
}

async function checked(content: string | Uint8Array, path = 'plan.shootplan.yaml', cwd = '.'): Promise<Run> {
  const file = await command.write(path, content);
  const { out } = await command.run(['check', '--format', 'sarif', file], { cwd });
  const log: unknown = JSON.parse(out);
  const schema: object = JSON.parse(
    await readFile(new URL('./sarif-2.1.0-subset.json', import.meta.url), 'utf8'),
  );
  const ajv = new Ajv({ allErrors: true });
  // The package is CommonJS: its function is the module itself or its default, as the loader has it.
  const formats = addFormats as unknown as { default?: (to: Ajv) => void } & ((to: Ajv) => void);
  (formats.default ?? formats)(ajv);
  ajv.validate(schema, log);
  expect(ajv.errors).toBeNull();
  return (log as { runs: [Run] }).runs[0];
}

const wrong =
  'plan: A\ndate: 2027-13-45\nspots:\n  - id: jetty\n    at: 54.4301, -2.6102\n    name:\n  - id: jetty\n    at: 54.4301, -2.6102\n';

describe('a SARIF log', () => {
  test('keeps to the format, with every rule and the right one at every result', async () => {
    const run = await checked(wrong);
    expect(run.tool.driver.rules.map(({ id }) => id)).toEqual(rules.map(({ code }) => code));
    expect(run.results.length).toBeGreaterThanOrEqual(3);
    for (const { ruleId, ruleIndex } of run.results) {
      expect([ruleId, run.tool.driver.rules[ruleIndex]?.id]).toEqual([ruleId, ruleId]);
    }
    const levels = new Map(run.results.map(({ ruleId, level }) => [ruleId, level]));
    expect(levels.get('plan/duplicate-id')).toBe('error');
    expect(levels.get('plan/empty-value')).toBe('note');
  });

  test('of nothing found is a log without results', async () => {
    expect((await checked('kit: Bag\n', 'bag.shootkit.yaml')).results).toEqual([]);
  });

  test('counts from 1, in UTF-16 code units, and ends behind the last', async () => {
    const run = await checked('{ plan: "🌅", date: 2027-13-45 }\n');
    expect(run.columnKind).toBe('utf16CodeUnits');
    // `{ plan: "🌅", date: ` is 20 code units.
    expect(run.results[0]?.locations[0]?.physicalLocation.region).toEqual({
      startLine: 1,
      startColumn: 21,
      endLine: 1,
      endColumn: 31,
    });
  });

  test('names files relative to where it runs, percent-encoded, and others in full', async () => {
    const name = 'fjørd (winter)/#2 100%.shootplan.yaml';
    const uriOf = (run: Run) => run.results[0]?.locations[0]?.physicalLocation.artifactLocation;
    expect(uriOf(await checked(wrong, name))).toEqual({
      uri: 'fj%C3%B8rd%20(winter)/%232%20100%25.shootplan.yaml',
      uriBaseId: 'ROOT',
    });
    await command.write('elsewhere/x', '');
    const outside = uriOf(await checked(wrong, name, 'elsewhere'));
    expect(outside?.uri).toMatch(/^file:\/\/\/.*\/fj%C3%B8rd%20\(winter\)\/%232%20100%25\.shootplan\.yaml$/);
    expect(outside).not.toHaveProperty('uriBaseId');
  });

  test('names files relative to the repository, and says where that lies', async () => {
    const deep = 'repository/plans/day.shootplan.yaml';
    await command.write('repository/.git', 'gitdir: elsewhere\n');
    const run = await checked(wrong, deep, 'repository/plans');
    expect(run.results[0]?.locations[0]?.physicalLocation.artifactLocation).toEqual({
      uri: 'plans/day.shootplan.yaml',
      uriBaseId: 'ROOT',
    });
    expect(run.originalUriBaseIds.ROOT.uri).toMatch(/^file:\/\/\/.*\/repository\/$/);
  });

  test('says which files could not be read', async () => {
    const { invocations } = await checked(Buffer.from([0x6b, 0xe9]), 'latin.shootplan.yaml');
    expect(invocations).toEqual([
      {
        executionSuccessful: false,
        toolExecutionNotifications: [
          { level: 'error', message: { text: expect.stringMatching(/latin.*: not UTF-8 text\.$/) } },
        ],
      },
    ]);
  });

  test('points to related places', async () => {
    const twice = (await checked(wrong)).results.find(({ ruleId }) => ruleId === 'plan/duplicate-id');
    expect(twice?.locations[0]?.physicalLocation.region.startLine).toBe(7);
    expect(twice?.relatedLocations?.[0]?.physicalLocation.region.startLine).toBe(4);
  });

  test('has fingerprints that stay when lines are added above, and differ between findings', async () => {
    const prints = async (text: string) =>
      (await checked(text)).results.map(({ partialFingerprints }) => partialFingerprints['findingInLine/v1']);
    const twoAlike = `${wrong}    name:\n`;
    const before = await prints(twoAlike);
    expect(new Set(before).size).toBe(before.length);
    expect(await prints(`# One line more.\n\n${twoAlike}`)).toEqual(before);
  });
});
