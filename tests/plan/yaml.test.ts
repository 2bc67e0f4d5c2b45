import { describe, expect, test } from 'vitest';
import type { Entry, MapNode, Node, ScalarNode } from '../../server/plan/tree.ts';
import { type ParsedText, parseText, syntaxCodes } from '../../server/plan/yaml.ts';
import { Lines } from '../../server/text/lines.ts';

/** The node at a path of keys and indices. */
function at(parsed: ParsedText, ...path: readonly (string | number)[]): Node {
  let node: Node = parsed.root;
  for (const step of path) {
    const next: Node | undefined =
      typeof step === 'number'
        ? (node as { items: readonly Node[] }).items[step]
        : (node as MapNode).entries.find((entry) => entry.key.text === step)?.value;
    if (next === undefined) throw new Error(`nothing at ${path.join('.')}`);
    node = next;
  }
  return node;
}

function scalar(parsed: ParsedText, ...path: readonly (string | number)[]): ScalarNode {
  const node = at(parsed, ...path);
  if (node.kind !== 'scalar') throw new Error(`${path.join('.')} is no scalar`);
  return node;
}

function entries(parsed: ParsedText): readonly Entry[] {
  if (parsed.root.kind !== 'map') throw new Error('no map');
  return parsed.root.entries;
}

/** Code and text of each finding. */
function found(text: string, parsed: ParsedText = parseText(text)): string[] {
  return parsed.findings.map(
    (finding) => `${finding.code} ${text.slice(finding.span.start, finding.span.end)}`,
  );
}

describe('scalars', () => {
  test('plain text is what was typed, whatever YAML would make of it', () => {
    const parsed = parseText('a: 06:30\nb: 010\nc: no\nd: 2027-03-20\ne: ~\nf: 1_000\ng: .inf\nh: 0x1F\n');
    expect(entries(parsed).map((entry) => (entry.value as ScalarNode).text)).toEqual([
      '06:30',
      '010',
      'no',
      '2027-03-20',
      '~',
      '1_000',
      '.inf',
      '0x1F',
    ]);
  });

  test('spans of plain, quoted and block text', () => {
    const text =
      'a: f/14   # note\nb: "f/14"\nc: \'it\'\'s\'\nd: "a\\tb"\ne: |\n  one\n  two\n\nf: two\n  lines\n';
    const parsed = parseText(text);
    const slices = ['a', 'b', 'c', 'd', 'e', 'f'].map((key) => {
      const { span, content, exact, style, text: decoded } = scalar(parsed, key);
      return [
        text.slice(span.start, span.end),
        text.slice(content.start, content.end),
        decoded,
        exact,
        style,
      ];
    });
    expect(slices).toEqual([
      ['f/14', 'f/14', 'f/14', true, 'plain'],
      ['"f/14"', 'f/14', 'f/14', true, 'double'],
      ["'it''s'", "it''s", "it's", false, 'single'],
      ['"a\\tb"', 'a\\tb', 'a\tb', false, 'double'],
      ['|\n  one\n  two', '  one\n  two', 'one\ntwo\n', false, 'block'],
      ['two\n  lines', 'two\n  lines', 'two lines', false, 'plain'],
    ]);
  });

  test('an empty value stands where one would be written', () => {
    const text = 'a: \nb:\nc: # later\nd: [1, ]\n-'.slice(0, -2);
    const parsed = parseText(text);
    expect(at(parsed, 'a')).toEqual({ kind: 'empty', span: { start: 3, end: 3 } });
    expect(at(parsed, 'b').span).toEqual({ start: 6, end: 6 });
    expect(at(parsed, 'c').span.start).toBe(text.indexOf('c: ') + 3);
  });

  test('anchors are kept on what they name', () => {
    const parsed = parseText('a: &x 1\nb: &y\n  - 2\nc: &z {d: 3}\ne: &w\nf: *x\n');
    expect(['a', 'b', 'c', 'e'].map((key) => (at(parsed, key) as ScalarNode).anchor)).toEqual([
      'x',
      'y',
      'z',
      'w',
    ]);
    expect(at(parsed, 'f')).toMatchObject({ kind: 'alias', name: 'x' });
  });
});

describe('places', () => {
  // eemeli/yaml#127: ranges drifted by one per line in files with CRLF.
  test.each(['\n', '\r\n', '\r'])('a token is found with line end %j', (lineEnd) => {
    const text = ['title: Dawn', 'spots:', '  - name: Jetty', '    at: 25:99', ''].join(lineEnd);
    const parsed = parseText(text);
    const { span } = scalar(parsed, 'spots', 0, 'at');
    expect(text.slice(span.start, span.end)).toBe('25:99');
    const lines = new Lines(text);
    expect([lines.position(span.start), lines.position(span.end)]).toEqual([
      { line: 3, character: 8 },
      { line: 3, character: 13 },
    ]);
    expect(parsed.findings).toEqual([]);
  });

  test('mixed line ends', () => {
    const text = 'a: 1\r\nb: 2\nc:\r\n  - 3\n  - 4\r\n';
    const parsed = parseText(text);
    const { span } = scalar(parsed, 'c', 1);
    expect(text.slice(span.start, span.end)).toBe('4');
  });

  // biojppm/rapidyaml#559: a byte order mark shifted the first line by a column.
  test('a byte order mark at the start is passed over, offsets count it', () => {
    const text = '\uFEFF- name: Pier\n  at: 06:30\n---\n\uFEFF- name: Dune\n';
    const parsed = parseText(text);
    const { span } = scalar(parsed, 0, 'at');
    expect(text.slice(span.start, span.end)).toBe('06:30');
    expect((at(parsed, 0) as MapNode).entries[0]?.key.span.start).toBe(3);
    expect(found(text)).toEqual(['syntax/second-document ---']);
  });

  test('a byte order mark further down: a warning, and the key is known', () => {
    const text = 'a: 1\n\uFEFFname: Dune\nspots:\n  - \uFEFFid: x\n    \uFEFFat: 1\n';
    const parsed = parseText(text);
    expect(scalar(parsed, 'name').text).toBe('Dune');
    expect(scalar(parsed, 'spots', 0, 'at').text).toBe('1');
    const key = entries(parsed)[1]?.key as ScalarNode;
    expect(text.slice(key.span.start, key.span.end)).toBe('name');
    expect(parsed.findings.map(({ code, severity }) => [code, severity])).toEqual([
      ['syntax/byte-order-mark', 'warning'],
      ['syntax/byte-order-mark', 'warning'],
      ['syntax/byte-order-mark', 'warning'],
    ]);
  });

  // ubugeeei-prod/vize#965: columns behind an emoji were off.
  test('characters behind an emoji', () => {
    const text = '- {name: "🌅 Søndre øy", at: 25:00}\n';
    const { span } = scalar(parseText(text), 0, 'at');
    expect(text.slice(span.start, span.end)).toBe('25:00');
    expect(new Lines(text).position(span.start)).toEqual({ line: 0, character: 29 });
  });
});

describe('keys', () => {
  // redhat-developer/yaml-language-server#260: the finding sat on the wrong line.
  test('a key that stands twice: the second is reported and ignored, the first is related', () => {
    const text = 'date: 2026-11-24\ntitle: A\ndate: 2026-11-25\n';
    const parsed = parseText(text);
    expect(scalar(parsed, 'date').text).toBe('2026-11-24');
    expect(entries(parsed)).toHaveLength(2);
    const [finding, ...others] = parsed.findings;
    expect(others).toEqual([]);
    expect(finding).toMatchObject({
      code: 'syntax/duplicate-key',
      span: { start: 26, end: 30 },
      related: [{ span: { start: 0, end: 4 } }],
    });
  });

  test('keys that say the same in another spelling', () => {
    expect(found('"1": a\n1: b\n01: c\n+1: d\n-1: e\n1.0: f\n')).toEqual([
      'syntax/duplicate-key 1',
      'syntax/duplicate-key 01',
      'syntax/duplicate-key +1',
    ]);
    expect(found('x: {a: 1, \'a\': 2}\ny:\n  - b: 1\n    "b": 2\n')).toEqual([
      "syntax/duplicate-key 'a'",
      'syntax/duplicate-key "b"',
    ]);
  });

  test('a key that is no word', () => {
    const text = 'a: 1\n? [b, c]\n: 2\n: 3\n? {d: 4}\n: 5\ne: 6\n';
    const parsed = parseText(text);
    expect(entries(parsed).map((entry) => entry.key.text)).toEqual(['a', 'e']);
    expect(parsed.findings.map((finding) => finding.code)).toContain('syntax/key');
  });

  // nodeca/js-yaml#533: a key changed the prototype of the object that was built.
  test('__proto__ and constructor are keys like others', () => {
    const parsed = parseText(
      '__proto__: {timezone: Europe/Oslo}\nspots:\n  - at: constructor\n  - at: toString\n',
    );
    expect(entries(parsed).map((entry) => entry.key.text)).toEqual(['__proto__', 'spots']);
    expect(parsed.findings).toEqual([]);
    expect(Object.hasOwn({} as object, 'timezone')).toBe(false);
    expect(({} as Record<string, unknown>).timezone).toBeUndefined();
  });
});

describe('documents', () => {
  // docker/compose#103: with YAML 1.1, 06:30 became 390, no false, and 010 eight.
  test('%YAML 1.1 is read as 1.2, with a warning on it', () => {
    const text = '%YAML 1.1\n---\nat: 06:30\nok: no\nn: 010\n';
    const parsed = parseText(text);
    expect(['at', 'ok', 'n'].map((key) => scalar(parsed, key).text)).toEqual(['06:30', 'no', '010']);
    expect(found(text)).toEqual(['syntax/yaml-version %YAML 1.1']);
    expect(parsed.findings[0]?.severity).toBe('warning');
    expect(found('%YAML 1.1 # why\na: 1\n')).toEqual(['syntax/yaml-version %YAML 1.1']);
    expect(parseText('%YAML 1.2\n---\na: 1\n').findings[0]?.severity).toBe('hint');
    expect(found('%TAG ! x\n---\na: 1\n')).toEqual(['syntax/directive %TAG ! x']);
  });

  test('of several documents the first is read, and one finding says so', () => {
    const text = 'a: 1\n---\nb: [\n---\nc: 3\n';
    const parsed = parseText(text);
    expect(entries(parsed).map((entry) => entry.key.text)).toEqual(['a']);
    expect(found(text)).toEqual(['syntax/second-document ---']);
    expect(found('a: 1\n...\nb: 2\n')).toEqual(['syntax/second-document ...']);
    expect(found('---\na: 1\n---\n')).toEqual([]);
    expect(found('a: 1\n...\n# end\n')).toEqual([]);
    expect(scalar(parseText('--- # first\na: 1\n'), 'a').text).toBe('1');
    expect(scalar(parseText('--- {a: 1}\n'), 'a').text).toBe('1');
  });

  test('nothing at all', () => {
    for (const text of ['', '\n', '# note\n', '---\n', '...\n', '\uFEFF']) {
      const parsed = parseText(text);
      expect(parsed.root.kind).toBe('empty');
      expect(parsed.findings).toEqual([]);
    }
  });
});

describe('what is said of broken lines', () => {
  test.each<[string, string, string[]]>([
    ['a half-typed key above another', 'suns\nb: 2\n', ['syntax/half-written-line suns']],
    [
      'a half-typed key in an item',
      'spots:\n  - id: a\n    na\n    at: 1\nb: 2\n',
      ['syntax/half-written-line na'],
    ],
    [
      'a half-typed key below its parent',
      'walk:\n  dist\n  climb: 4 m\nb: 2\n',
      ['syntax/half-written-line dist'],
    ],
    ['a forgotten colon', 'aperture f/14\nb: 2\n', ['syntax/colon-missing aperture f/14']],
    ['a forgotten colon above a block', 'shots\n  - id: a\nb: 2\n', ['syntax/colon-missing shots']],
    ['a forgotten space', 'iso:64\nb: 2\n', ['syntax/space-missing iso:64']],
    ['a dash without its space', 'spots:\n  - id: a\n  -id: c\nb: 2\n', ['syntax/space-missing -id: c']],
    ['a colon in a value', 'name: North: steps\nb: 2\n', ['syntax/colon-in-value name: North: steps']],
    ['a reserved character', 'lens: @ 24 mm\nb: 2\n', ['syntax/reserved-character lens: @ 24 mm']],
    ['a backtick', 'lens: `wide`\nb: 2\n', ['syntax/reserved-character lens: `wide`']],
    [
      'a comparison that looks like a text',
      'wind: > 5 km/h\nb: 2\n',
      ['syntax/reserved-character wind: > 5 km/h'],
    ],
    ['a dash in a value', 'tilt: - 3°\nb: 2\n', ['syntax/reserved-character tilt: - 3°']],
    [
      'an unclosed bracket',
      'hazards: [deep water, ice   # now\nb: 2\n',
      ['syntax/unclosed-bracket hazards: [deep water, ice   # now'],
    ],
    ['an unclosed brace', 'walk: { distance: 6 m\nb: 2\n', ['syntax/unclosed-bracket walk: { distance: 6 m']],
    ['an unclosed quote', 'at: "54.4, -2.6\nb: 2\n', ['syntax/unclosed-quote at: "54.4, -2.6']],
    ['a wrong bracket', 'a: [1, 2}\nb: 2\n', ['syntax/bracket a: [1, 2}']],
    ['text behind a quote', 'a: "x" y\nb: 2\n', ['syntax/after-value a: "x" y']],
    ['a tab', 'walk:\n\tclimb: 4 m\nb: 2\n', ['syntax/tab climb: 4 m']],
    ['a column of its own', 'spots:\n  - id: a\n   at: 1\n    x: 2\nb: 2\n', ['syntax/indentation at: 1']],
    ['a comma too many', 'a: [1,, 2]\nb: 2\n', ['syntax/bracket ,']],
    ['an unknown escape', 'a: "\\d"\nb: 2\n', ['syntax/quoted-text \\d']],
    ['a tag', 'a: !!int 5\nb: 2\n', ['syntax/tag !!int']],
  ])('%s', (_, text, expected) => {
    const parsed = parseText(text);
    expect(found(text, parsed)).toEqual(expected);
    expect(scalar(parsed, 'b').text).toBe('2');
  });

  test('what is certain is kept: the line computes on, with its finding', () => {
    expect(scalar(parseText('a: "54.4, -2.6\n'), 'a').text).toBe('54.4, -2.6');
    expect(scalar(parseText('a: [x, y   # note\n'), 'a', 1).text).toBe('y');
    expect(scalar(parseText('iso:64\nb: 1\n'), 'iso').text).toBe('64');
    expect(scalar(parseText('wind: > 5 km/h\n'), 'wind').text).toBe('> 5 km/h');
    expect(scalar(parseText('spots:\n  - id: a\n  -id: c\n'), 'spots', 1, 'id').text).toBe('c');
    const several = 'a: [x, # note\n  y,\n  z\nb: 2\n';
    expect(scalar(parseText(several), 'a', 2).text).toBe('z');
    expect(scalar(parseText(several), 'b').text).toBe('2');
    const text = 'a: {b: 1, c: "x\nd: 2\n';
    const { span } = scalar(parseText(text), 'a', 'c');
    expect(text.slice(span.start, span.end)).toBe('"x');
  });

  test('lines given up are named', () => {
    const text = 'a: 1\nsuns\nb: 2\n';
    const parsed = parseText(text);
    expect(parsed.blanked).toEqual([{ start: 5, end: 9 }]);
  });

  test('an unclosed brace in one spot does not swallow the next', () => {
    const text = 'spots:\n  - id: a\n    water: { state: calm\n    name: A\n  - id: b\n    name: B\n';
    const parsed = parseText(text);
    expect(scalar(parsed, 'spots', 0, 'name').text).toBe('A');
    expect(scalar(parsed, 'spots', 1, 'name').text).toBe('B');
    expect(parsed.findings).toHaveLength(1);
  });

  test('no message uses words of a parser', () => {
    const texts = [
      'a: [1 2: 3\n',
      'a: {b c: d: e}\n',
      '- a\nb: 1\n',
      'a: *\n',
      'a: &\n',
      '&a *b\n',
      'a: |x\n  y\n',
      ']\n',
      'a: "\n',
      '!<x y\n',
    ];
    for (const text of texts) {
      for (const { message, code } of parseText(text).findings) {
        expect(message).not.toMatch(/implicit|flow|scalar|token|mapping|sequence|node|parse|stream/i);
        expect(syntaxCodes.map((row) => row.code)).toContain(code);
      }
    }
  });
});

describe('limits', () => {
  test('a file beyond 5 MiB: one finding', () => {
    const parsed = parseText(`a: ${'x'.repeat(5 * 1024 * 1024)}\n`);
    expect(parsed.findings.map((finding) => finding.code)).toEqual(['syntax/too-large']);
    expect(parsed.root.kind).toBe('empty');
  });

  test('a file with very many values: one finding, and the start is read', () => {
    const parsed = parseText(`a: 1\nb:\n${'  - [1, 2, 3, 4, 5, 6, 7, 8]\n'.repeat(40_000)}`);
    expect(parsed.findings.map((finding) => finding.code)).toEqual(['syntax/too-large']);
    expect(scalar(parsed, 'a').text).toBe('1');
  });

  test('deep nesting: one finding, and the neighbours are read', () => {
    const brackets = `a: ${'['.repeat(100)}${']'.repeat(100)}\nb: 2\n`;
    expect(parseText(brackets).findings.map((finding) => finding.code)).toEqual(['syntax/too-deep']);
    expect(scalar(parseText(brackets), 'b').text).toBe('2');
    const steps = Array.from({ length: 100 }, (_, depth) => `${' '.repeat(depth)}k:\n`).join('');
    expect(parseText(`b: 2\n${steps}`).findings.map((finding) => finding.code)).toEqual(['syntax/too-deep']);
  });

  test('nesting that would exhaust a parser', () => {
    for (const hostile of ['[', '{', '- ', '? ', '[{', 'a: [', '{a: ']) {
      const parsed = parseText(`b: 2\na: ${hostile.repeat(20_000)}\nc: 3\n`);
      expect(scalar(parsed, 'b').text).toBe('2');
      expect(scalar(parsed, 'c').text).toBe('3');
      expect(parsed.findings.length).toBeGreaterThan(0);
    }
  });
});

test('every code is documented once', () => {
  const codes = syntaxCodes.map((row) => row.code);
  expect(new Set(codes).size).toBe(codes.length);
  for (const { code, doc } of syntaxCodes) {
    expect(code).toMatch(/^syntax\/[a-z]+(-[a-z]+)*$/);
    expect(doc).toMatch(/^[A-Z].*\.$/);
  }
});
