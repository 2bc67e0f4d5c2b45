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

describe('ids across files', () => {
  const other = 'file:///plans/dusk.shootplan.yaml';
  const otherText = `plan: Dusk\ndate: 2027-03-21\nkit: ../kit/bag.shootkit.yaml\nspots:\n  - id: pier\n    at: 54.43, -2.61\n    shots: [{ id: three, filters: ["nd6"] }]\n`;
  const elsewhere = 'file:///plans/else.shootplan.yaml';
  const files = {
    [kit]: bag,
    [other]: otherText,
    // Names another kit, in which there is a filter of the same name.
    [elsewhere]: otherText.replace('../kit/bag', 'bag'),
    'file:///plans/bag.shootkit.yaml': bag,
  };

  interface Edits {
    readonly documentChanges: readonly {
      readonly textDocument: { readonly uri: string; readonly version: number | null };
      readonly edits: readonly { readonly range: Range; readonly newText: string }[];
    }[];
  }

  test('a definition lies in the kit', async () => {
    const editor = await start({ capabilities: ableClient });
    await editor.open(uri, text);
    const found = await editor.request('textDocument/definition', { ...document, position: at('nd6') });
    const start_ = at('nd6', bag);
    expect(found).toEqual([
      { uri: kit, range: { start: start_, end: { ...start_, character: start_.character + 3 } } },
    ]);
  });

  test('references are found in plans that are not open', async () => {
    const editor = await start({ capabilities: ableClient, disk: new MemoryDisk(files) });
    await editor.open(uri, text);
    const found = await editor.request<{ uri: string }[]>('textDocument/references', {
      ...document,
      position: at('nd6'),
      context: { includeDeclaration: true },
    });
    expect(found.map((place) => place.uri).sort()).toEqual([kit, uri, uri, other].sort());
  });

  test('a filter is renamed in its kit and in every plan that names that kit', async () => {
    const editor = await start({ capabilities: ableClient, disk: new MemoryDisk(files) });
    await editor.open(uri, text, 7);
    const prepared = await editor.request('textDocument/prepareRename', { ...document, position: at('nd6') });
    expect(prepared).toMatchObject({ placeholder: 'nd6' });
    const { documentChanges } = await editor.request<Edits>('textDocument/rename', {
      ...document,
      position: at('nd6'),
      newName: 'six',
    });
    expect(documentChanges.map(({ textDocument, edits }) => [textDocument, edits.length])).toEqual(
      expect.arrayContaining([
        [{ uri, version: 7 }, 2],
        [{ uri: kit, version: null }, 1],
        [{ uri: other, version: null }, 1],
      ]),
    );
    expect(documentChanges).toHaveLength(3);
    // Quotes around an id stay.
    const quoted = documentChanges.find(({ textDocument }) => textDocument.uri === other)?.edits[0];
    expect(quoted?.newText).toBe('six');
    expect(quoted?.range.start).toEqual({
      ...at('"nd6"', otherText),
      character: at('"nd6"', otherText).character + 1,
    });
  });

  test('a name that is taken is refused with words', async () => {
    const editor = await start();
    await editor.open(uri, text);
    const asked = editor.request('textDocument/rename', { ...document, position: at('two'), newName: 'one' });
    await expect(asked).rejects.toMatchObject({ message: expect.stringContaining('already') });
  });
});

describe('completion', () => {
  interface List {
    readonly items: readonly {
      readonly label: string;
      readonly insertTextFormat: number;
      readonly textEdit: { readonly range: Range; readonly newText: string };
    }[];
  }

  const ask = async (editor: Editor, source: string, position: { line: number; character: number }) => {
    await editor.open(uri, source);
    return editor.request<List>('textDocument/completion', { ...document, position });
  };

  test('offers ids of the kit, as an explicit edit', async () => {
    const source = text.replace('filters: [nd6], start: sunrise', 'filters: [n], start: sunrise');
    const editor = await start({ capabilities: ableClient });
    const place = at('[n]', source);
    const { items } = await ask(editor, source, { ...place, character: place.character + 2 });
    const item = items.find(({ label }) => label === 'nd6');
    expect(item?.textEdit).toEqual({
      range: {
        start: { ...place, character: place.character + 1 },
        end: { ...place, character: place.character + 2 },
      },
      newText: 'nd6',
    });
  });

  test('offers the kits of the workspace behind kit', async () => {
    const editor = await start({ capabilities: ableClient });
    const source = 'plan: A\nkit: \n';
    const { items } = await ask(editor, source, { line: 1, character: 5 });
    expect(items.map(({ label }) => label)).toContain('../kit/bag.shootkit.yaml');
  });

  test('holds no snippets for a client that knows none', async () => {
    const source = 'plan: A\ndate: 2027-03-20\nspots:\n  - id: jetty\n    \n';
    for (const capabilities of [ableClient, {}]) {
      const editor = await start({ capabilities });
      const { items } = await ask(editor, source, { line: 4, character: 4 });
      expect(items.map(({ label }) => label)).toEqual(expect.arrayContaining(['at', 'shots']));
      const snippets = items.filter(({ insertTextFormat }) => insertTextFormat === 2);
      expect(snippets.length > 0).toBe(capabilities === ableClient);
      if (capabilities !== ableClient) {
        for (const { textEdit } of items) expect(textEdit.newText).not.toMatch(/\$\d|\\/);
      }
    }
  });
});

describe('quick fixes', () => {
  interface Action {
    readonly title: string;
    readonly kind: string;
    readonly diagnostics: readonly { readonly code: string }[];
    readonly edit: { readonly documentChanges: readonly object[] };
  }

  test('mend a finding by an edit of the version that it was made for', async () => {
    const source = text.replace('filters: [nd6], start: after', 'filters: [nd66], start: after');
    const editor = await start({ capabilities: ableClient });
    await editor.open(uri, source, 3);
    const place = at('nd66', source);
    const end = { ...place, character: place.character + 4 };
    const actions = await editor.request<Action[]>('textDocument/codeAction', {
      ...document,
      range: { start: place, end: place },
      context: { diagnostics: [] },
    });
    expect(actions).toContainEqual(
      expect.objectContaining({
        kind: 'quickfix',
        diagnostics: [expect.objectContaining({ code: 'plan/unknown-id' })],
        edit: {
          documentChanges: [
            {
              textDocument: { uri, version: 3 },
              edits: [{ range: { start: place, end }, newText: 'nd6' }],
            },
          ],
        },
      }),
    );
    const others = await editor.request<Action[]>('textDocument/codeAction', {
      ...document,
      range: { start: place, end: place },
      context: { diagnostics: [], only: ['refactor'] },
    });
    expect(others).toEqual([]);
  });
});

test('tokens count from one another, in the legend that is announced', async () => {
  const editor = await start();
  await editor.open(uri, text);
  const { legend } = editor.capabilities.semanticTokensProvider as { legend: { tokenTypes: string[] } };
  const decode = (data: readonly number[]) => {
    const lines = text.split('\n');
    const found: string[] = [];
    let line = 0;
    let character = 0;
    for (let index = 0; index < data.length; index += 5) {
      const [down = 0, along = 0, length = 0, type = 0] = data.slice(index, index + 4);
      line += down;
      character = down > 0 ? along : character + along;
      const words = lines[line]?.slice(character, character + length);
      found.push(`${line} ${legend.tokenTypes[type]} ${words}`);
    }
    return found;
  };
  const full = await editor.request<{ data: number[] }>('textDocument/semanticTokens/full', document);
  const tokens = decode(full.data);
  expect(tokens).toContain(`${at('id: one').line} function one`);
  expect(tokens).toContain(`${at('id: two').line} function one`);
  const end = { line: at('shots').line, character: 0 };
  const part = await editor.request<{ data: number[] }>('textDocument/semanticTokens/range', {
    ...document,
    range: { start: at('date'), end },
  });
  expect(decode(part.data)).toEqual(
    tokens.filter((token) => {
      const line = Number(token.split(' ')[0]);
      return line >= at('date').line && line < end.line;
    }),
  );
});

test('formatting gives edits of the text, and none of a text that is broken', async () => {
  const editor = await start();
  const source = 'plan:   A   \r\ndate: 2027-03-20 # when\r\n';
  await editor.open(uri, source);
  const ask = () =>
    editor.request<{ range: Range; newText: string }[]>('textDocument/formatting', {
      ...document,
      options: { tabSize: 2, insertSpaces: true },
    });
  const edits = await ask();
  // The edits, applied as a client does: from the last to the first.
  const lines = source.split('\r\n');
  for (const { range, newText } of [...edits].reverse()) {
    expect(range.end.line).toBe(range.start.line);
    const line = lines[range.start.line] ?? '';
    lines[range.start.line] =
      line.slice(0, range.start.character) + newText + line.slice(range.end.character);
  }
  expect(lines.join('\r\n')).toBe('plan: A\r\ndate: 2027-03-20 # when\r\n');
  await editor.change(uri, 'plan:   A\nspots: [\n');
  expect(await ask()).toEqual([]);
});
