import { afterEach, describe, expect, test } from 'vitest';
import { ableClient, Editor, type EditorOptions, MemoryDisk } from './editor.ts';

const running: Editor[] = [];

async function start(options: EditorOptions = {}): Promise<Editor> {
  const editor = await Editor.start(options);
  running.push(editor);
  return editor;
}

afterEach(() => {
  for (const editor of running.splice(0)) editor.stop();
});

const plan = 'file:///plans/day.shootplan.yaml';
const kit = 'file:///kit/bag.shootkit.yaml';

const good = `plan: Dawn
date: 2027-03-20
spots:
  - id: jetty
    at: 54.4301, -2.6102
`;
const bad = good.replace('2027-03-20', '2027-13-45');

/** A plan with one filter, and kits that have it or not. */
const withKit = `plan: Dawn
date: 2027-03-20
kit: ../kit/bag.shootkit.yaml
spots:
  - id: jetty
    at: 54.4301, -2.6102
    shots: [{ id: one, filters: [nd6] }]
`;
const kitWith = (id: string) =>
  `kit: Bag\nfilters:\n  - { id: ${id}, kind: neutral density, strength: 6 stops }\n`;

describe('starting', () => {
  test('says that it counts UTF-16 code units and takes changes by range', async () => {
    const editor = await start();
    expect(editor.capabilities).toMatchObject({
      positionEncoding: 'utf-16',
      textDocumentSync: { openClose: true, change: 2 },
    });
  });

  test('works without any root and any capability: a file opened alone', async () => {
    const editor = await start({ folders: null, disk: new MemoryDisk() });
    await editor.open(plan, bad);
    const { diagnostics, version } = await editor.until(({ uri }) => uri === plan);
    expect(version).toBe(1);
    expect(diagnostics[0]).toMatchObject({
      severity: 1,
      source: 'shoot plan',
      range: { start: { line: 1 } },
    });
  });

  test('asks an able client for news of settings and files, and one that watches by itself only for settings', async () => {
    const able = await start({ capabilities: ableClient });
    await able.open(plan, good);
    await able.until(({ uri }) => uri === plan);
    expect(able.registered.sort()).toEqual([
      'workspace/didChangeConfiguration',
      'workspace/didChangeWatchedFiles',
    ]);
    const own = await start({ capabilities: ableClient, initializationOptions: { clientFiles: true } });
    await own.open(plan, good);
    await own.until(({ uri }) => uri === plan);
    expect(own.registered).not.toContain('workspace/didChangeWatchedFiles');
  });
});

describe('diagnostics', () => {
  test('go away with the document, and none comes afterwards', async () => {
    const editor = await start();
    await editor.open(plan, bad);
    await editor.until(({ uri, diagnostics }) => uri === plan && diagnostics.length > 0);
    await editor.change(plan, bad.replace('jetty', 'pier'));
    await editor.close(plan);
    await editor.quiet();
    const last = editor.published.filter(({ uri }) => uri === plan).at(-1);
    expect(last).toEqual({ uri: plan, diagnostics: [] });
  });

  test('of a burst of changes only the newest text is published, with its version', async () => {
    const editor = await start();
    await editor.open(plan, good);
    await editor.until(({ uri }) => uri === plan);
    for (let step = 0; step < 30; step += 1) await editor.change(plan, step % 2 === 0 ? bad : good);
    const version = await editor.change(plan, bad);
    await editor.until((params) => params.version === version);
    await editor.quiet();
    const versions = editor.published.flatMap((params) => (params.uri === plan ? [params.version ?? 0] : []));
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    expect(new Set(versions).size).toBe(versions.length);
    expect(versions.length).toBeLessThan(30);
    expect(editor.problems(plan)).toHaveLength(1);
  });

  test('a file renamed while it is open and deleted under its old name leaves problems under the new name only', async () => {
    const renamed = 'file:///plans/new.shootplan.yaml';
    const moves = [
      (editor: Editor) => editor.close(plan),
      (editor: Editor) => editor.open(renamed, bad),
      (editor: Editor) => editor.watched(plan, 3),
      (editor: Editor) => editor.watched(renamed, 1),
    ];
    const orders = [
      [0, 1, 2, 3],
      [2, 3, 0, 1],
      [3, 1, 0, 2],
      [1, 2, 3, 0],
    ];
    for (const order of orders) {
      const editor = await start({ capabilities: ableClient });
      await editor.open(plan, bad);
      await editor.until(({ uri, diagnostics }) => uri === plan && diagnostics.length > 0);
      for (const move of order) await moves[move]?.(editor);
      await editor.until(({ uri, diagnostics }) => uri === renamed && diagnostics.length > 0);
      await editor.quiet();
      expect([order, editor.problems(plan)]).toEqual([order, []]);
      expect(editor.problems(renamed)).toHaveLength(1);
    }
  });

  test('of a deleted file that is not open are emptied', async () => {
    const editor = await start();
    await editor.watched('file:///plans/gone.shootplan.yaml', 3);
    const { diagnostics } = await editor.until(({ uri }) => uri === 'file:///plans/gone.shootplan.yaml');
    expect(diagnostics).toEqual([]);
  });

  test('answer with the very string that the client uses for a file', async () => {
    const odd = 'file:///c%3A/Plans/fj%C3%B8rd%20(winter)%20%232.shootplan.yaml';
    const editor = await start();
    await editor.open(odd, bad);
    const { diagnostics } = await editor.until(() => true);
    expect(editor.published.map(({ uri }) => uri)).toEqual([odd]);
    expect(diagnostics).toHaveLength(1);
    // Another spelling of the same file is the same file.
    await editor.close('file:///C:/Plans/fj%C3%B8rd%20(winter)%20%232.shootplan.yaml');
    await editor.until(({ uri, version }) => uri === odd && version === undefined);
  });

  test('show a hint as information, and put related places into the message for a client that cannot show them', async () => {
    const text = `${good}  - id: jetty\n    at: 54.4301, -2.6102\n    name:\n`;
    const plain = await start();
    await plain.open(plan, text);
    await plain.until(({ uri }) => uri === plan);
    const twice = plain.problems(plan).find(({ code }) => code === 'plan/duplicate-id');
    expect(twice?.message).toMatch(/\nThe first spot “jetty” \(line 4\)\.$/);
    expect(twice).not.toHaveProperty('relatedInformation');
    expect(plain.problems(plan).find(({ code }) => code === 'plan/empty-value')?.severity).toBe(3);

    const able = await start({ capabilities: ableClient });
    await able.open(plan, text);
    await able.until(({ uri }) => uri === plan);
    expect(able.problems(plan).find(({ code }) => code === 'plan/duplicate-id')).toMatchObject({
      message: 'There is already a spot “jetty”. Give this one another id.',
      relatedInformation: [{ location: { uri: plan, range: { start: { line: 3, character: 8 } } } }],
      data: { target: 'spot', id: 'jetty' },
    });
  });
});

describe('positions', () => {
  const cases = [
    ['LF', 'plan: Dawn\ndate: 2027-13-45\n', 1, 6],
    ['CRLF', 'plan: Dawn\r\ndate: 2027-13-45\r\n', 1, 6],
    ['mixed line ends', '# a\r\n# b\nplan: Dawn\r\ndate: 2027-13-45\n', 3, 6],
    ['a picture outside the basic plane', 'plan: "🌅🌊"\ndate: 2027-13-45\n', 1, 6],
    ['the same, before the value in its line', '{ plan: "🌅🌊", date: 2027-13-45 }\n', 0, 22],
    ['a byte order mark', '\ufeffdate: 2027-13-45\nplan: Dawn\n', 0, 7],
  ] as const;

  test.each(cases.map(([name, text, line, character]) => ({ name, text, line, character })))(
    'with $name',
    async ({ text, line, character }) => {
      const editor = await start();
      await editor.open(plan, text);
      await editor.until(({ uri }) => uri === plan);
      const found = editor.problems(plan).find(({ code }) => code !== 'plan/missing-key');
      expect(found?.range).toEqual({
        start: { line, character },
        end: { line, character: character + '2027-13-45'.length },
      });
    },
  );

  test('changes by range count as the client counts, also behind pictures and CRLF', async () => {
    const editor = await start();
    await editor.open(plan, 'plan: "🌅"\r\ndate: 2027-03-20 # 🌊 13\r\n');
    await editor.until(({ version }) => version === 1);
    await editor.edit(plan, 2, { line: 1, character: 11 }, { line: 1, character: 13 }, '13');
    await editor.until(({ version }) => version === 2);
    expect(editor.problems(plan)).toHaveLength(1);
    await editor.edit(plan, 3, { line: 1, character: 11 }, { line: 1, character: 13 }, '03');
    // Beyond the end of the line means its end, before the line end.
    await editor.edit(plan, 4, { line: 0, character: 99 }, { line: 0, character: 99 }, ' # ok');
    await editor.until(({ version }) => version === 4);
    expect(editor.problems(plan)).toEqual([]);
  });
});

describe('a kit', () => {
  test('is read from disk once, not for each keystroke', async () => {
    const disk = new MemoryDisk({ [kit]: kitWith('nd6') });
    const editor = await start({ disk, capabilities: ableClient });
    await editor.open(plan, withKit);
    await editor.until(({ uri }) => uri === plan);
    expect(editor.problems(plan)).toEqual([]);
    for (const name of ['D', 'Da', 'Daw']) {
      const version = await editor.change(plan, withKit.replace('Dawn', name));
      await editor.until((params) => params.version === version);
    }
    expect(disk.asked).toEqual([kit]);
    expect(editor.hintRefreshes).toBe(0);
  });

  test('counts as it stands in another tab, then as it stands on disk once that is closed', async () => {
    const disk = new MemoryDisk({ [kit]: kitWith('nd6') });
    const editor = await start({ disk, capabilities: ableClient });
    await editor.open(plan, withKit);
    await editor.open(kit, kitWith('nd6'));
    await editor.until(({ uri }) => uri === kit);
    await editor.change(kit, kitWith('nd8'));
    await editor.until(({ uri, diagnostics }) => uri === plan && diagnostics.length > 0);
    expect(editor.codes(plan)).toEqual(['plan/unknown-id']);
    await editor.quiet();
    expect(editor.hintRefreshes).toBeGreaterThan(0);
    // Closed without saving: the disk still has the first text.
    const count = editor.published.length;
    await editor.close(kit);
    await editor.until((params) => editor.published.indexOf(params) >= count && params.uri === plan);
    expect(editor.problems(plan)).toEqual([]);
  });

  test('under another spelling of its address is the same kit', async () => {
    const editor = await start({ disk: new MemoryDisk() });
    const there = 'file:///c%3A/plans/day.shootplan.yaml';
    await editor.open('file:///C:/kit/bag.shootkit.yaml', kitWith('nd6'));
    await editor.open(there, withKit);
    await editor.until(({ uri }) => uri === there);
    expect(editor.problems(there)).toEqual([]);
  });

  const news: readonly [string, (editor: Editor, disk: MemoryDisk) => void | Promise<void>][] = [
    ['the disk itself reports it', (_, disk) => disk.tell(kit)],
    ['a watcher reports it', (editor) => editor.watched(kit, 2)],
    ['a watcher reports its folder', (editor) => editor.watched('file:///kit', 2)],
    ['the client names it', (editor) => editor.notify('shootplan/refresh', { uris: [kit] })],
    ['the client says that anything may have changed', (editor) => editor.notify('shootplan/refresh', {})],
    ['the plan is saved', (editor) => editor.notify('textDocument/didSave', { textDocument: { uri: plan } })],
  ];
  test.each(news.map(([name, tell]) => ({ name, tell })))(
    'changed on disk is read again when $name',
    async ({ tell }) => {
      const disk = new MemoryDisk({ [kit]: kitWith('nd6') });
      const editor = await start({ disk, capabilities: ableClient });
      await editor.open(plan, withKit);
      await editor.until(({ uri }) => uri === plan);
      disk.files.set(kit, kitWith('nd8'));
      await tell(editor, disk);
      await editor.until(({ uri, diagnostics }) => uri === plan && diagnostics.length > 0);
      expect(editor.codes(plan)).toEqual(['plan/unknown-id']);
      disk.files.delete(kit);
      await tell(editor, disk);
      await editor.until(({ diagnostics }) => diagnostics.some(({ code }) => code === 'kit/unreadable'));
    },
  );

  test('is watched while an open plan names it, and no longer', async () => {
    const disk = new MemoryDisk({ [kit]: kitWith('nd6') });
    const editor = await start({ disk, capabilities: ableClient });
    await editor.open(plan, withKit);
    await editor.quiet();
    expect(disk.watched).toEqual([kit]);
    await editor.change(plan, withKit.replace('bag.shootkit', 'other.shootkit'));
    await editor.quiet();
    expect(disk.watched).toEqual([kit.replace('bag.shootkit', 'other.shootkit')]);
    await editor.change(plan, 'plan: Without a kit\n');
    await editor.quiet();
    expect(disk.watched).toEqual([]);
    await editor.change(plan, withKit);
    await editor.quiet();
    await editor.close(plan);
    await editor.quiet();
    expect(disk.watched).toEqual([]);
  });

  test('that comes late never overwrites what came later', async () => {
    const disk = new MemoryDisk({ [kit]: kitWith('nd8') });
    const editor = await start({ disk });
    let release = () => {};
    disk.gate = new Promise((resolve) => {
      release = resolve;
    });
    await editor.open(plan, withKit);
    await editor.quiet();
    disk.files.set(kit, kitWith('nd6'));
    disk.gate = undefined;
    await editor.watched(kit, 2);
    await editor.until(({ uri }) => uri === plan);
    release();
    await editor.quiet();
    expect(editor.problems(plan)).toEqual([]);
  });

  test('in a virtual file system is asked of the client by its address', async () => {
    const asked: string[] = [];
    const editor = await start({
      initializationOptions: { clientFiles: true },
      folders: ['vfs://host/u/r'],
      readFile: (uri) => {
        asked.push(uri);
        return { text: kitWith('nd8') };
      },
    });
    const there = 'vfs://host/u/r/plans/day.shootplan.yaml';
    await editor.open(there, withKit);
    await editor.until(({ uri }) => uri === there);
    expect(asked).toEqual(['vfs://host/u/r/kit/bag.shootkit.yaml']);
    expect(editor.codes(there)).toEqual(['plan/unknown-id']);
  });

  test('that the client refuses, or cannot be asked for, is one finding that says why', async () => {
    const there = 'vfs://host/plans/day.shootplan.yaml';
    const refusing = await start({
      initializationOptions: { clientFiles: true },
      readFile: () => ({ missing: true, reason: 'it lies outside the workspace' }),
    });
    await refusing.open(there, withKit);
    await refusing.until(({ uri }) => uri === there);
    expect(refusing.problems(there).map(({ message }) => message)).toEqual([
      'The kit cannot be read. It lies outside the workspace.',
    ]);
    const silent = await start();
    await silent.open(there, withKit);
    await silent.until(({ uri }) => uri === there);
    expect(silent.codes(there)).toEqual(['kit/unreadable']);
  });

  test('that the client does not find is said as it is for a file on disk', async () => {
    const there = 'vfs://host/plans/day.shootplan.yaml';
    const editor = await start({
      initializationOptions: { clientFiles: true },
      readFile: () => ({ missing: true, absent: true, reason: 'there is no such file' }),
    });
    await editor.open(there, withKit);
    await editor.until(({ uri }) => uri === there);
    expect(editor.problems(there).map(({ message }) => message)).toEqual([
      'The kit cannot be read. There is no such file. The path counts from the folder of this plan.',
    ]);
  });

  test('that never comes does not hold up the plan', async () => {
    const disk = new MemoryDisk();
    disk.gate = new Promise(() => {});
    const editor = await start({ disk });
    await editor.open(plan, withKit.replace('2027-03-20', '2027-13-45'));
    await editor.until(({ uri }) => uri === plan);
    expect(editor.problems(plan)).toHaveLength(1);
  });

  test('named by a plan that has never been saved is refused plainly', async () => {
    const editor = await start({ disk: new MemoryDisk() });
    await editor.open('untitled:Untitled-1', withKit);
    await editor.until(() => true);
    expect(editor.problems('untitled:Untitled-1')[0]?.message).toContain('Save this plan first');
  });
});

describe('settings', () => {
  const off = {
    checks: { 'plan/unreadable': 'off', 'plan/no-such-finding': 'off', 'plan/empty-value': 'loud' },
  };

  test('are asked for each document and followed when they change; what is not valid is logged', async () => {
    let settings: unknown = null;
    const editor = await start({ capabilities: ableClient, settings: () => settings });
    await editor.open(plan, bad);
    await editor.until(({ uri }) => uri === plan);
    expect(editor.configurationAsked).toEqual([plan]);
    const [code] = editor.codes(plan);
    settings = { checks: { [String(code)]: 'hint' }, hints: { moments: 'yes' }, thresholds: [] };
    await editor.notify('workspace/didChangeConfiguration', { settings: null });
    await editor.until(({ diagnostics }) => diagnostics[0]?.severity === 3);
    expect(editor.log.join('\n')).toContain('shootPlan.hints.moments');
    expect(editor.log.join('\n')).toContain('shootPlan.thresholds');
    await editor.quiet();
    expect(editor.hintRefreshes).toBe(1);
  });

  test('come with initialize, and with the notification, from a client that cannot be asked', async () => {
    const editor = await start({ initializationOptions: { shootPlan: off } });
    await editor.open(plan, bad);
    await editor.until(({ uri }) => uri === plan);
    const count = editor.problems(plan).length;
    await editor.notify('workspace/didChangeConfiguration', { settings: { shootPlan: {} } });
    await editor.until(({ diagnostics }) => diagnostics.length === 1);
    expect(count).toBeLessThanOrEqual(1);
    expect(editor.log.join('\n')).toContain('plan/no-such-finding');
  });
});
