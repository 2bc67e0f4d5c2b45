import { symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import packageJson from '../../package.json';
import { fits } from '../../server/cli/inputs.ts';
import { wantsColour } from '../../server/cli/output.ts';
import { Command } from './command.ts';
import { bag, clean, wrongDate } from './plans.ts';

let command: Command;

beforeAll(async () => {
  command = await Command.build();
  await command.write('plans/clean.shootplan.yaml', clean);
  await command.write('plans/wrong.shootplan.yaml', wrongDate);
  await command.write('kit/bag.shootkit.yaml', bag);
  await command.write('plans/node_modules/x/deep.shootplan.yaml', wrongDate);
  await command.write('notes/readme.txt', 'no plan');
});

afterAll(() => command.remove());

/** A hint and nothing worse: a key without a value. */
const hinting = 'plan: A\ndate: 2027-03-20\nnote:\n';

describe('exit codes', () => {
  test('0 when nothing is found, the kit beside the plans included', async () => {
    const { code, out, error } = await command.run(['check', 'kit/bag.shootkit.yaml']);
    expect([code, out, error]).toEqual([0, 'Nothing found in 1 file.\n', '']);
    const plan = await command.run(['check', 'clean.shootplan.yaml'], { cwd: 'plans' });
    expect(plan.out).not.toContain('kit/unreadable');
    expect(plan.out).not.toContain('plan/unknown-id');
  });

  test('1 when something is found; a finding is one line with its place', async () => {
    const { code, out } = await command.run(['check', 'plans/wrong.shootplan.yaml']);
    expect(code).toBe(1);
    expect(out).toMatch(/^plans\/wrong\.shootplan\.yaml:2:\d+: error: .+ \[[a-z]+\/[a-z-]+\]\n/);
    expect(out).toMatch(/\n1 error in 1 file\.\n$/);
  });

  test('1 only from the chosen severity on, though everything is shown', async () => {
    await command.write('hint.shootplan.yaml', hinting);
    const usual = await command.run(['check', 'hint.shootplan.yaml']);
    expect(usual.code).toBe(0);
    expect(usual.out).toContain('hint: ');
    const strict = await command.run(['check', '--severity', 'hint', 'hint.shootplan.yaml']);
    expect(strict.code).toBe(1);
    const lax = await command.run(['check', '--severity=error', 'plans/wrong.shootplan.yaml']);
    expect(lax.code).toBe(1);
  });

  test('2 when a file cannot be read, which keeps none of the others from being checked', async () => {
    await command.write('some/large.shootplan.yaml', Buffer.alloc(5 * 1024 * 1024 + 1, 0x20));
    await command.write('some/latin.shootplan.yaml', Buffer.from([0x6b, 0xe9]));
    await command.write('some/wrong.shootplan.yaml', 'plan: A\ndate: 2027-02-30\n');
    const { code, out, error } = await command.run(['check', 'some']);
    expect(code).toBe(2);
    expect(out).toMatch(/^some\/wrong\.shootplan\.yaml:2:7: error: /);
    expect(error).toContain('shootplan: some/large.shootplan.yaml: larger than 5 MiB.\n');
    expect(error).toContain('shootplan: some/latin.shootplan.yaml: not UTF-8 text.\n');
    const json = JSON.parse((await command.run(['check', '--format', 'json', 'some'])).out);
    expect(json.unread.map(({ file }: { file: string }) => file)).toEqual([
      'some/large.shootplan.yaml',
      'some/latin.shootplan.yaml',
    ]);
    expect((await command.run(['check', 'some/large.shootplan.yaml'])).out).toBe('');
  });

  const impossible: readonly (readonly [readonly string[], string])[] = [
    [['check', 'plns/none.shootplan.yaml'], 'plns/none.shootplan.yaml: no plan or kit is found there'],
    [['check', 'plns/*.shootplan.yaml'], 'plns/*.shootplan.yaml: no plan or kit is found there'],
    [['check', 'plans/clean.shootplan.yaml', 'missing'], 'missing: no plan or kit is found there'],
    [['check', 'notes'], 'notes: no plan or kit is found there'],
    [['check'], 'name the files to check'],
    [['check', '--format', 'xml', 'plans'], '--format is one of text, json, sarif, not xml'],
    [['check', '--severity', 'fatal', 'plans'], '--severity is one of error, warning, hint, not fatal'],
    [['check', '--no-such-option', 'plans'], '--no-such-option'],
    [['day'], 'day takes one plan'],
    [['day', 'plans/none.shootplan.yaml'], 'there is no such file'],
    [['day', 'kit/bag.shootkit.yaml'], 'is a kit'],
    [['explain', 'no/such'], 'there is no finding no/such'],
    [['frobnicate'], 'there is no command frobnicate'],
    [[], 'say what to do'],
  ];
  test.each(impossible.map(([line, message]) => ({ line, message })))(
    '2 for $line',
    async ({ line, message }) => {
      const { code, out, error } = await command.run(line);
      expect([code, out]).toEqual([2, '']);
      expect(error).toMatch(/^shootplan: /);
      expect(error).toContain(message);
      expect(error).not.toContain('    at ');
    },
  );

  test('2 for what is no text', async () => {
    await command.write('latin.shootplan.yaml', new Uint8Array([0x70, 0xe9]));
    const { code, error } = await command.run(['check', 'latin.shootplan.yaml']);
    expect([code, error]).toEqual([2, 'shootplan: latin.shootplan.yaml: not UTF-8 text.\n']);
  });

  test('--allow-empty takes nothing as nothing to do', async () => {
    const { code, out } = await command.run(['check', '--allow-empty', 'plns/*.yaml', 'notes']);
    expect([code, out]).toEqual([0, 'Nothing found in 0 files.\n']);
    expect((await command.run(['check', '--allow-empty'])).code).toBe(0);
  });
});

describe('inputs', () => {
  test('a folder stands for all plans and kits below it, a pattern for what fits it; each counts once', async () => {
    const paths = async (names: readonly string[]) => {
      const { out } = await command.run(['check', '--format', 'json', ...names]);
      return (JSON.parse(out) as { files: { path: string }[] }).files.map(({ path }) => path);
    };
    const plans = ['plans/clean.shootplan.yaml', 'plans/wrong.shootplan.yaml'];
    expect(await paths(['plans'])).toEqual(plans);
    expect(await paths(['plans', 'kit', 'plans/clean.shootplan.yaml'])).toEqual([
      ...plans,
      'kit/bag.shootkit.yaml',
    ]);
    expect(await paths(['pl*/*.shootplan.yaml'])).toEqual(plans);
    expect(await paths(['**/clean.*'])).toEqual(plans.slice(0, 1));
  });

  test.each([
    ['a.yaml', '*.yaml', true],
    ['a.yaml', '?.yaml', true],
    ['ab.yaml', '?.yaml', false],
    ['a.yaml', 'a.yaml*', true],
    ['a.yml', '*.yaml', false],
    ['aXbXc', 'a*b*c', true],
    ['', '*', true],
    ['a'.repeat(5000), `${'a*'.repeat(20)}b`, false],
  ])('%s fits %s: %s', (name, pattern, wanted) => {
    expect(fits(name, pattern)).toBe(wanted);
  });

  test('the standard input, which lies nowhere unless it is said where', async () => {
    const { code, out } = await command.run(['check', '-'], { input: wrongDate });
    expect(code).toBe(1);
    expect(out).toMatch(/^<stdin>:2:/);
    const nowhere = await command.run(['check', '-'], { input: clean });
    expect(nowhere.out).toContain('kit/unreadable');
    const somewhere = await command.run(['check', '--from', 'plans', '-'], { input: clean });
    expect(somewhere.out).not.toContain('kit/unreadable');
  });

  test('a byte order mark is no part of the text', async () => {
    await command.write('bom.shootplan.yaml', `\ufeffdate: 2027-13-45\nplan: A\n`);
    const { out } = await command.run(['check', '--format=json', 'bom.shootplan.yaml']);
    const [file] = (JSON.parse(out) as { files: { findings: { line: number; column: number }[] }[] }).files;
    expect(file?.findings).toEqual([
      expect.objectContaining({ line: 1, column: 7, endLine: 1, endColumn: 17 }),
    ]);
  });

  test('columns count UTF-16 code units from 1, in CRLF files too', async () => {
    await command.write('crlf.shootplan.yaml', '# 🌅\r\n{ plan: "🌅🌊", date: 2027-13-45 }\r\n');
    const { out } = await command.run(['check', 'crlf.shootplan.yaml']);
    expect(out).toMatch(/^crlf\.shootplan\.yaml:2:23: error/);
  });

  test('a kit is read where it belongs to the plan, and nowhere else', async () => {
    await writeFile(join(command.folder, '..', 'outside.shootkit.yaml'), bag);
    const at = (path: string) => clean.replace('../kit/bag.shootkit.yaml', path);
    await command.write('deep/er/plan.shootplan.yaml', at('../../../outside.shootkit.yaml'));
    const climbing = await command.run(['check', 'deep/er/plan.shootplan.yaml']);
    expect(climbing.out).toContain('kit/unreadable');
    await symlink(
      join(command.folder, '..', 'outside.shootkit.yaml'),
      join(command.folder, 'link.shootkit.yaml'),
    );
    await command.write('linked.shootplan.yaml', at('link.shootkit.yaml'));
    // The plan's own folder is the one in which the command runs; the one above it may be read, as a kit may lie there.
    expect((await command.run(['check', 'linked.shootplan.yaml'])).out).not.toContain('kit/unreadable');
    await command.write('deep/er/linked.shootplan.yaml', at('../../link.shootkit.yaml'));
    const linked = await command.run(['check', 'deep/er/linked.shootplan.yaml']);
    expect(linked.out).toContain('kit/unreadable');
    expect(linked.out).not.toContain('Bag');
  });
});

describe('output', () => {
  test('through a pipe is the same as into a file, however long', async () => {
    const long = `plan: A\ndate: 2027-03-20\n${Array.from({ length: 1200 }, (_, at) => `unknown-key-${at}: x`).join('\n')}\n`;
    await command.write('long.shootplan.yaml', long);
    for (const format of ['json', 'sarif', 'text']) {
      const { out } = await command.shell(
        `shootplan check --format ${format} long.shootplan.yaml > out; shootplan check --format ${format} long.shootplan.yaml | cat | cmp - out && wc -c < out`,
      );
      expect(Number(out)).toBeGreaterThan(65_536);
    }
  });

  test('may be cut short by its reader', async () => {
    const { out, error } = await command.shell(
      'shootplan check --format json long.shootplan.yaml | head -n 1',
    );
    expect([out, error]).toEqual(['{\n', '']);
  });

  test('has colour only where it is wanted', async () => {
    const run = (environment: Record<string, string>) =>
      command.run(['check', 'plans/wrong.shootplan.yaml'], { environment });
    const colourStart = '\u001b[';
    expect((await run({})).out).not.toContain(colourStart);
    expect((await run({ FORCE_COLOR: '1' })).out).toContain(`${colourStart}31merror`);
    expect((await run({ FORCE_COLOR: '0' })).out).not.toContain(colourStart);
    expect((await run({ NO_COLOR: '1' })).out).not.toContain(colourStart);
  });

  test.each([
    [{}, true, true],
    [{}, false, false],
    [{ NO_COLOR: '1' }, true, false],
    [{ NO_COLOR: '' }, true, true],
    [{ TERM: 'dumb' }, true, false],
    [{ FORCE_COLOR: '1' }, false, true],
    [{ FORCE_COLOR: '0' }, true, true],
    [{ FORCE_COLOR: '1', NO_COLOR: '1' }, false, true],
  ])('colour with %o on a terminal (%s): %s', (environment, isTerminal, wanted) => {
    expect(wantsColour(environment, isTerminal)).toBe(wanted);
  });

  test('shows controls and marks of direction in a plan as such', async () => {
    const text = 'plan: "A\\e[2J\\u202Eb"\ndate: 2027-03-20\n"k\\e[31m\\u202E": 1\n';
    await command.write('steer.shootplan.yaml', text);
    const { out } = await command.run(['check', 'steer.shootplan.yaml']);
    expect(out).toContain('\\u{1B}[31m\\u{202E}');
    const day = await command.run(['day', 'steer.shootplan.yaml']);
    expect(day.out.split('\n')[0]).toBe('A\\u{1B}[2J\\u{202E}b');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that none is there is what is tested.
    expect(out + day.out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f\u202a-\u202e\u2066-\u2069]/);
  });

  test('--help and --version', async () => {
    const help = await command.run(['--help']);
    expect([help.code, help.error]).toEqual([0, '']);
    for (const word of ['check', 'day', 'explain', '--format', '--severity', '--from', '--allow-empty']) {
      expect(help.out).toContain(word);
    }
    const { code, out } = await command.run(['--version']);
    expect([code, out]).toEqual([
      0,
      `shootplan ${packageJson.version} (time zone data ${process.versions.tz ?? 'unknown'})\n`,
    ]);
  });
});
