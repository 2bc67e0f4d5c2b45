import { afterEach, describe, expect, test } from 'vitest';
import type { Hover, InlayHint, Range } from 'vscode-languageserver';
import { withoutMarkdown } from '../../server/lsp/markup.ts';
import { ableClient, Editor, type EditorOptions, MemoryDisk } from './editor.ts';

const running: Editor[] = [];

async function start(options: EditorOptions = {}): Promise<Editor> {
  const editor = await Editor.start({ disk: new MemoryDisk({ [kit]: bag }), ...options });
  running.push(editor);
  return editor;
}

afterEach(() => {
  for (const editor of running.splice(0)) editor.stop();
});

const uri = 'file:///plans/day.shootplan.yaml';
const kit = 'file:///kit/bag.shootkit.yaml';
const bag = `kit: Bag
filters:
  - { id: nd6, kind: neutral density, strength: 6 stops }
`;
const text = `# Invented.
# All of it.
plan: Dawn 🌅
date: 2027-03-20
kit: ../kit/bag.shootkit.yaml
spots:
  - id: jetty
    at: 54.4301, -2.6102
    arrive: sunrise - 45 min
    shots:
      - { id: one, aperture: f/8, metered: 1/2 s, filters: [nd6], start: sunrise }
      - { id: two, aperture: f/8, metered: 1/2 s, filters: [nd6], start: after one }
`;
const document = { textDocument: { uri } };
const everything: Range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

/** The position of a part of the text, as the client counts. */
function at(part: string, source = text): { line: number; character: number } {
  const before = source.slice(0, source.indexOf(part)).split('\n');
  return { line: before.length - 1, character: (before.at(-1) ?? '').length };
}

describe('inlay hints', () => {
  const ask = (editor: Editor) =>
    editor.request<InlayHint[]>('textDocument/inlayHint', { ...document, range: everything });

  test('stand behind the values, from the kit that is being read', async () => {
    const editor = await start({ capabilities: ableClient });
    await editor.open(uri, text);
    const hints = await ask(editor);
    const arrival = hints.find(({ position }) => position.line === at('arrive').line);
    expect(arrival?.position.character).toBe('    arrive: sunrise - 45 min'.length);
    // Sunrise at the place on that date, 06:14, is checked against published values where it is computed.
    expect(arrival?.label).toContain('05:29');
    expect(hints.some(({ position }) => position.line === at('id: one').line)).toBe(true);
  });

  test('are always those of the text that the client has when it asks', async () => {
    const editor = await start({ capabilities: ableClient });
    await editor.open(uri, text);
    for (const minutes of [40, 30, 20, 10]) {
      const changed = text.replace('- 45 min', `-     ${minutes} min`);
      await editor.change(uri, changed);
      const hints = await ask(editor);
      const arrival = hints.find(({ position }) => position.line === at('arrive').line);
      expect(arrival?.position.character).toBe(`    arrive: sunrise -     ${minutes} min`.length);
      expect(arrival?.label).toContain(minutes > 14 ? '05:' : '06:');
    }
  });

  test('asked for a text that changes while the kit is read are refused, not answered late', async () => {
    const disk = new MemoryDisk({ [kit]: bag });
    let release = () => {};
    disk.gate = new Promise((resolve) => {
      release = resolve;
    });
    const editor = await start({ disk });
    await editor.open(uri, text);
    const asked = ask(editor);
    await editor.change(uri, `# one line more\n${text}`);
    // The change has arrived once something behind it is answered.
    await editor.request('textDocument/foldingRange', { textDocument: { uri: 'file:///none' } });
    const again = ask(editor);
    release();
    await expect(asked).rejects.toMatchObject({ code: -32801 });
    expect((await again).some(({ position }) => position.line === at('arrive').line + 1)).toBe(true);
  });

  test('follow the settings', async () => {
    const hints = { moments: false, shutter: false, light: false };
    const editor = await start({ capabilities: ableClient, settings: () => ({ hints }) });
    await editor.open(uri, text);
    expect(await ask(editor)).toEqual([]);
  });
});

describe('hover', () => {
  const ask = (editor: Editor) =>
    editor.request<Hover>('textDocument/hover', { ...document, position: at('sunrise - 45') });

  test('is markdown where that is shown, over the whole value', async () => {
    const editor = await start({ capabilities: ableClient });
    await editor.open(uri, text);
    const hover = await ask(editor);
    expect(hover.contents).toMatchObject({ kind: 'markdown', value: expect.stringContaining('05:29') });
    const start_ = at('sunrise - 45');
    expect(hover.range).toEqual({
      start: start_,
      end: { ...start_, character: start_.character + 'sunrise - 45 min'.length },
    });
  });

  test('is plain words where it is not', async () => {
    const editor = await start();
    await editor.open(uri, text);
    const { contents } = await ask(editor);
    expect(contents).toMatchObject({ kind: 'plaintext', value: expect.stringContaining('05:29') });
    expect((contents as { value: string }).value).not.toMatch(/[`|]|\*\*|!\[/);
  });

  test.each([
    ['**05:29** at `jetty`', '05:29 at jetty'],
    ['| | |\n| --- | --- |\n| sun | `a\\|b` |', 'sun  a|b'],
    ['5 \\* 3 \\_x\\_ ![sun](data:abc) [read](https://example.org/a)', '5 * 3 _x_ sun read'],
  ])('plain words of %s', (markdown, words) => {
    expect(withoutMarkdown(markdown)).toBe(words);
  });
});

describe('outline, folding and links', () => {
  test('the outline is a tree, or a list for a client that knows no tree', async () => {
    const tree = await start({ capabilities: ableClient });
    await tree.open(uri, text);
    const [plan] = await tree.request<{ name: string; children: { children: { name: string }[] }[] }[]>(
      'textDocument/documentSymbol',
      document,
    );
    expect(plan?.children[0]?.children.map(({ name }) => name)).toEqual(['one', 'two']);
    const flat = await start();
    await flat.open(uri, text);
    const symbols = await flat.request<{ name: string; location: { uri: string } }[]>(
      'textDocument/documentSymbol',
      document,
    );
    expect(symbols.map(({ name }) => name)).toEqual(expect.arrayContaining(['one', 'two']));
    expect(symbols.every(({ location }) => location.uri === uri)).toBe(true);
  });

  test('folds cover whole lines', async () => {
    const editor = await start();
    await editor.open(uri, text);
    const folds = await editor.request<{ startLine: number; endLine: number; kind?: string }[]>(
      'textDocument/foldingRange',
      document,
    );
    expect(folds).toContainEqual({ startLine: 0, endLine: 1, kind: 'comment' });
    expect(folds).toContainEqual({ startLine: at('shots').line, endLine: at('id: two').line });
  });

  test('the path of the kit leads to it', async () => {
    const editor = await start();
    await editor.open(uri, text);
    const [link] = await editor.request<{ range: Range; target: string }[]>(
      'textDocument/documentLink',
      document,
    );
    expect(link).toMatchObject({ target: kit, range: { start: at('../kit') } });
  });
});

test('nothing is answered for a document that is not open, and the server goes on', async () => {
  const editor = await start();
  const position = { line: 0, character: 0 };
  expect(await editor.request('textDocument/hover', { ...document, position })).toBeNull();
  expect(await editor.request('textDocument/foldingRange', document)).toEqual([]);
  await editor.open(uri, text);
  expect(await editor.request('textDocument/foldingRange', document)).not.toEqual([]);
});
