import { mkdir, mkdtemp, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { disk, largestFileBytes } from '../../server/lsp/disk.ts';

let root = '';
const url = (path: string) => pathToFileURL(join(root, path)).href;

beforeAll(async () => {
  root = await realpath(await mkdtemp(join(tmpdir(), 'shootplan-disk-')));
  for (const folder of ['work/plans/deep', 'work/kit', 'work/node_modules/x', 'work/.hidden', 'other']) {
    await mkdir(join(root, folder), { recursive: true });
  }
  await writeFile(join(root, 'work/plans/day.shootplan.yaml'), 'plan: x\n');
  await writeFile(join(root, 'work/kit/bag.shootkit.yaml'), '\ufeffkit: Bag\n');
  await writeFile(join(root, 'work/secret.txt'), 'secret');
  await writeFile(join(root, 'other/bag.shootkit.yaml'), 'kit: Other\n');
  await writeFile(join(root, 'work/kit/latin.shootkit.yaml'), Buffer.from([0x6b, 0xe9]));
  await writeFile(join(root, 'work/kit/big.shootkit.yaml'), Buffer.alloc(largestFileBytes + 1, 0x20));
  await writeFile(join(root, 'work/kit/full.shootkit.yaml'), Buffer.alloc(largestFileBytes, 0x20));
  await mkdir(join(root, 'work/kit/folder.shootkit.yaml'));
  await writeFile(join(root, 'work/node_modules/x/a.shootkit.yaml'), '');
  await symlink(join(root, 'other/bag.shootkit.yaml'), join(root, 'work/kit/out.shootkit.yaml'));
  await symlink(join(root, 'other'), join(root, 'work/kit/out'));
  await symlink(join(root, 'work/secret.txt'), join(root, 'work/kit/secret.shootkit.yaml'));
  await symlink(join(root, 'work/kit/bag.shootkit.yaml'), join(root, 'work/kit/same.shootkit.yaml'));
  await symlink(join(root, 'work'), join(root, 'door'));
});

afterAll(() => rm(root, { recursive: true, force: true }));

const read = (path: string, folders: readonly string[] = ['work'], plan = 'work/plans/day.shootplan.yaml') =>
  disk.read(url(path), { folders: folders.map(url), plan: url(plan) });

describe('in a workspace', () => {
  test('a kit in any of its folders is read, without its byte order mark', async () => {
    expect(await read('work/kit/bag.shootkit.yaml')).toEqual({ kind: 'text', text: 'kit: Bag\n' });
    expect(await read('other/bag.shootkit.yaml', ['work', 'other'])).toMatchObject({ kind: 'text' });
  });

  test.each([
    'other/bag.shootkit.yaml',
    'work/../other/bag.shootkit.yaml',
    'work/kit/out.shootkit.yaml',
    'work/kit/out/bag.shootkit.yaml',
  ])('%s lies outside and is refused', async (path) => {
    expect(await read(path)).toEqual({ kind: 'refused', reason: 'It lies outside the workspace.' });
  });

  test('a folder whose name only begins alike is outside', async () => {
    await mkdir(join(root, 'work-2'), { recursive: true });
    await writeFile(join(root, 'work-2/bag.shootkit.yaml'), 'kit: x\n');
    expect(await read('work-2/bag.shootkit.yaml')).toMatchObject({ kind: 'refused' });
  });

  test('links are followed where they lead to a kit inside, and the workspace itself may be behind one', async () => {
    expect(await read('work/kit/same.shootkit.yaml')).toMatchObject({ kind: 'text' });
    expect(await read('door/kit/bag.shootkit.yaml', ['door'])).toMatchObject({ kind: 'text' });
  });

  test('a link to something that is no kit is refused, and nothing of it is shown', async () => {
    const result = await read('work/kit/secret.shootkit.yaml');
    expect(result).toEqual({ kind: 'refused', reason: 'It is a link to something that is no kit.' });
  });

  test('what is missing, a folder, too large or not UTF-8 is said to be so', async () => {
    expect(await read('work/kit/none.shootkit.yaml')).toEqual({ kind: 'missing' });
    expect(await read('work/kit/bag.shootkit.yaml/deeper.shootkit.yaml')).toEqual({ kind: 'missing' });
    expect(await read('work/kit/folder.shootkit.yaml')).toMatchObject({ reason: 'It is not a file.' });
    expect(await read('work/kit/big.shootkit.yaml')).toMatchObject({ reason: 'It is larger than 5 MiB.' });
    expect(await read('work/kit/full.shootkit.yaml')).toMatchObject({ kind: 'text' });
    expect(await read('work/kit/latin.shootkit.yaml')).toMatchObject({ reason: 'It is not UTF-8 text.' });
  });

  test.each([
    'file://host/share/bag.shootkit.yaml',
    'file:///kit/a%00.shootkit.yaml',
    'file:///kit/a%2Fb.shootkit.yaml',
  ])('%s is refused or missing, never an exception', async (uri) => {
    const { kind } = await disk.read(uri, {
      folders: [url('work')],
      plan: url('work/plans/day.shootplan.yaml'),
    });
    expect(kind).not.toBe('text');
  });
});

describe('without a workspace', () => {
  test('the plan’s own folder and the one above may be read, so that a kit may lie beside the plans', async () => {
    expect(await read('work/kit/bag.shootkit.yaml', [])).toMatchObject({ kind: 'text' });
    expect(await read('other/bag.shootkit.yaml', [])).toMatchObject({ kind: 'refused' });
    expect(await read('work/kit/out.shootkit.yaml', [])).toMatchObject({ kind: 'refused' });
    expect(await read('work/kit/bag.shootkit.yaml', [], 'work/plans/deep/day.shootplan.yaml')).toMatchObject({
      kind: 'refused',
    });
  });

  test('the topmost folder of the machine does not count as the one above', async () => {
    const { kind } = await disk.read(url('work/kit/bag.shootkit.yaml'), {
      folders: [],
      plan: 'file:///plans/day.shootplan.yaml',
    });
    expect(kind).toBe('refused');
  });

  test('a plan that is no file of the machine opens none', async () => {
    const { kind } = await disk.read(url('work/kit/bag.shootkit.yaml'), {
      folders: [],
      plan: 'untitled:Untitled-1',
    });
    expect(kind).toBe('refused');
  });
});

test('lists plans and kits below the folders, without hidden ones, links and packages', async () => {
  const listed = await disk.list([url('work'), url('work/kit'), 'vfs://host/x']);
  const kits = ['bag', 'big', 'full', 'latin'].map((name) => url(`work/kit/${name}.shootkit.yaml`));
  expect(listed).toEqual([...kits, url('work/plans/day.shootplan.yaml')]);
});

describe('a watched file', () => {
  test('is reported when it changes, goes and comes', { timeout: 60_000 }, async () => {
    const path = 'work/kit/watched.shootkit.yaml';
    await writeFile(join(root, path), 'kit: One\n');
    let told = 0;
    const stop = disk.watch(url(path), () => {
      told += 1;
    });
    // Again and again: what happens before its state is known for the first time cannot be seen as a change.
    const reported = async (change: () => Promise<void>) => {
      const before = told;
      const look = async () => {
        await change();
        return told;
      };
      await expect.poll(look, { interval: 1500, timeout: 15_000 }).toBeGreaterThan(before);
    };
    await reported(() => writeFile(join(root, path), 'kit: Another\n'));
    await reported(() => rm(join(root, path), { force: true }));
    await reported(() => writeFile(join(root, path), 'kit: One\n'));
    stop();
  });

  test('cannot be one whose address cannot be a file', () => {
    expect(() => disk.watch('file:///a%2fb', () => {})()).not.toThrow();
  });
});
