import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resolver } from '../../server/plan/aliases.ts';
import type { Node, ScalarNode } from '../../server/plan/tree.ts';
import { type ParsedText, parseText, readYaml, syntaxCodes } from '../../server/plan/yaml.ts';
import { applyEdits } from '../../server/text/edit.ts';
import { Lines } from '../../server/text/lines.ts';
import type { Span } from '../../server/text/span.ts';
import { awkward, plan } from './samples.ts';
import { yamlText } from './yamlText.ts';

function scalarsOf(node: Node): ScalarNode[] {
  if (node.kind === 'scalar') return [node];
  if (node.kind === 'sequence') return node.items.flatMap(scalarsOf);
  if (node.kind === 'map') return node.entries.flatMap((entry) => [entry.key, ...scalarsOf(entry.value)]);
  return [];
}

/** A scalar as found in a text: what it says, and where in which line of the unbroken text. */
const mark = (line: number, column: number, text: string): string => `${line}:${column} ${text}`;

function marksOf(text: string, parsed: ParsedText): { mark: string; line: number; lastLine: number }[] {
  const lines = new Lines(text);
  return scalarsOf(parsed.root).map((scalar) => {
    const { line, character } = lines.position(scalar.span.start);
    return { mark: mark(line, character, scalar.text), line, lastLine: lines.position(scalar.span.end).line };
  });
}

/** The lines below `index` that are indented further: its own block. */
function ownBlock(lines: readonly string[], index: number): Set<number> {
  const column = (line: string): number => line.search(/\S|$/);
  const own = new Set([index]);
  for (let at = index + 1; at < lines.length; at += 1) {
    const line = lines[at] as string;
    if (line.trim() === '') continue;
    if (column(line) <= column(lines[index] as string)) break;
    own.add(at);
  }
  return own;
}

const lines = plan.split('\n');
const complete = marksOf(plan, parseText(plan));

/** Ways to break a line; undefined where it makes no difference to this one. */
const breakages: Record<string, (line: string) => string | undefined> = {
  'the colon deleted': (line) => (line.includes(':') ? line.replace(':', '') : undefined),
  'cut in the middle': (line) => line.slice(0, Math.floor((line.search(/\S/) + line.trimEnd().length) / 2)),
  'cut behind the key': (line) =>
    /^ *(- )?[\w-]+:/.test(line) ? line.replace(/^( *(?:- )?[\w-]+):.*/, '$1') : undefined,
  'a bracket at the end': (line) => `${line} [`,
  'a brace before the value': (line) => (line.includes(': ') ? line.replace(': ', ': {') : undefined),
  'a quote at the end': (line) => `${line} "`,
  'a quote before the value': (line) => (line.includes(': ') ? line.replace(': ', ': "') : undefined),
  'a quote in front': (line) => line.replace(/\S/, '"$&'),
  'a tab in front': (line) => `\t${line}`,
  'a tab behind the spaces': (line) => line.replace(/^ */, '$&\t'),
  'the indentation deleted': (line) => (line.startsWith(' ') ? line.trimStart() : undefined),
  'one space too many': (line) => ` ${line}`,
  'one space too few': (line) => (line.startsWith(' ') ? line.slice(1) : undefined),
  'a reserved character before the value': (line) =>
    line.includes(': ') ? line.replace(': ', ': @') : undefined,
  'a colon in the value': (line) =>
    /^ *(- )?[\w-]+: [^"'[{|]/.test(line) ? line.replace(/: /, ': x: ') : undefined,
};

interface Loss {
  readonly line: number;
  readonly lost: readonly string[];
}

/** Breaks each line in turn. What other lines have lost, and how many scalars of other lines there were. */
function breakEach(breakage: (line: string) => string | undefined): {
  losses: Loss[];
  kept: number;
  all: number;
} {
  const losses: Loss[] = [];
  let kept = 0;
  let all = 0;
  lines.forEach((line, index) => {
    const broken = line.trim() === '' || line.trim().startsWith('#') ? undefined : breakage(line);
    if (broken === undefined || broken === line) return;
    const text = [...lines.slice(0, index), broken, ...lines.slice(index + 1)].join('\n');
    if (readYaml(text).faults.length === 0) return;
    const parsed = parseText(text);
    const found = new Set(marksOf(text, parsed).map((entry) => entry.mark));
    const own = ownBlock(lines, index);
    const expected = complete.filter((entry) => index < entry.line || index > entry.lastLine);
    const lost = expected.filter((entry) => !found.has(entry.mark));
    all += expected.length;
    kept += expected.length - lost.length;
    const strangers = lost.filter((entry) => !own.has(entry.line)).map((entry) => entry.mark);
    if (strangers.length > 0) losses.push({ line: index, lost: strangers });
  });
  return { losses, kept, all };
}

describe('one broken line costs no other line', () => {
  test.each(Object.entries(breakages))('%s', (_, breakage) => {
    const { losses, kept, all } = breakEach(breakage);
    expect(losses).toEqual([]);
    // Nor, in this plan, anything of the block below it.
    expect(kept).toBe(all);
    expect(all).toBeGreaterThan(5000);
  });

  /** Only on lines that begin an item with a key. */
  const dashless: Record<string, (line: string) => string> = {
    'the dash deleted': (line) => line.replace('-', ' '),
    'the dash and its blank deleted': (line) => line.replace('- ', ''),
    'the line with the dash deleted': () => '',
  };

  test.each(Object.entries(dashless))('%s', (_, breakage) => {
    const { losses, kept, all } = breakEach((line) =>
      /^ *- [\w-]+:/.test(line) ? breakage(line) : undefined,
    );
    expect(losses).toEqual([]);
    expect(kept).toBe(all);
    expect(all).toBeGreaterThan(370);
  });

  test('in a list of many lines too, whatever stands between the lost dash and the next one', () => {
    const shots = Array.from(
      { length: 300 },
      (_, n) => `      - id: s${n}\n        iso: ${n + 1}\n        aperture: f/8\n`,
    );
    const long = `spots:\n  - id: p\n    at: 1, 2\n    shots:\n${shots.join('')}  - id: q\n    at: 3, 4\n`;
    const count = scalarsOf(parseText(long).root).length;
    for (const [line, without, lost] of [
      ['  - id: p\n', '', 2],
      ['      - id: s0\n', '', 2],
      ['  - id: p\n', '  id: p\n', 0],
      ['      - id: s150\n', '      id: s150\n', 0],
    ] as const) {
      const parsed = parseText(long.replace(line, without));
      expect(parsed.findings.map(({ code }) => code)).toEqual(['syntax/dash-missing']);
      expect(scalarsOf(parsed.root).length).toBe(count - lost);
    }
  });

  test('with CRLF too', () => {
    const text = plan.replace('aperture: f/14', 'aperture').replace(/\n/g, '\r\n');
    const whole = scalarsOf(parseText(plan).root).map((node) => node.text);
    const found = scalarsOf(parseText(text).root).map((node) => node.text);
    const at = whole.indexOf('f/14');
    expect(found).toEqual(whole.filter((_, index) => index !== at && index !== at - 1));
  });
});

describe('what would mend a line', () => {
  test.each([
    ['iso:64\nb: 1\n', 'iso: 64\nb: 1\n'],
    ['shots\n  - id: a\n', 'shots:\n  - id: a\n'],
    ['spots:\n  - id: a\n  -id: b\n', 'spots:\n  - id: a\n  - id: b\n'],
    ['aperture f/14\nb: 1\n', 'aperture: f/14\nb: 1\n'],
    ['a: [1, {b: "c   # note\nb: 1\n', 'a: [1, {b: "c"}]   # note\nb: 1\n'],
    ['name: North: steps # n\n', "name: 'North: steps' # n\n"],
    ['wind: > 5 km/h\n', "wind: '> 5 km/h'\n"],
    ['walk:\n  a: 1\n   b: 2\n  c: 3\n', 'walk:\n  a: 1\n  b: 2\n  c: 3\n'],
    ['walk:\n  a: 1\n\tb: 2\n  c: 3\n', 'walk:\n  a: 1\n  b: 2\n  c: 3\n'],
    // The second line at fault shows only when the first one is mended.
    ['a: "x\nspots:\n  - id: a\n    b: [1\n', 'a: "x"\nspots:\n  - id: a\n    b: [1]\n'],
  ])('%j', (text, expected) => {
    const edits = parseText(text).findings.flatMap((finding) =>
      (finding.facts.edits as { start: number; end: number; text: string }[]).map((edit) => ({
        span: { start: edit.start, end: edit.end },
        text: edit.text,
      })),
    );
    const mended = applyEdits(text, edits);
    expect(mended).toBe(expected);
    expect(parseText(mended).findings).toEqual([]);
  });
});

describe('any text at all', () => {
  const lineFeeds = (text: string): string => text.replace(/\r\n?/g, '\n');

  /** No exception, an answer that stays within the text, and nothing given up without a finding. */
  function expectAnswer(text: string): void {
    const parsed = parseText(text);
    const within = ({ start, end }: Span): boolean => 0 <= start && start <= end && end <= text.length;
    const check = (node: Node): void => {
      expect(within(node.span)).toBe(true);
      if (node.kind === 'sequence') node.items.forEach(check);
      if (node.kind === 'scalar') {
        expect(within(node.content)).toBe(true);
        const source = text.slice(node.content.start, node.content.end);
        if (node.exact) expect(lineFeeds(source)).toBe(lineFeeds(node.text));
      }
      if (node.kind !== 'map') return;
      for (const entry of node.entries) {
        expect(within(entry.span)).toBe(true);
        check(entry.key);
        check(entry.value);
      }
    };
    check(parsed.root);
    const codes = new Set(syntaxCodes.map(({ code }) => code));
    for (const finding of parsed.findings) {
      expect(within(finding.span), finding.code).toBe(true);
      expect(codes.has(finding.code)).toBe(true);
    }
    expect(parsed.blanked.every(within)).toBe(true);
    if (parsed.blanked.length > 0) expect(parsed.findings.length).toBeGreaterThan(0);
    expect(resolver(parsed.root).findings.every((finding) => within(finding.span))).toBe(true);
  }

  test('random text', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), expectAnswer), { numRuns: 200 });
    const bytes = fc.uint8Array({ maxLength: 300 }).map((array) => String.fromCharCode(...array));
    fc.assert(fc.property(bytes, expectAnswer), { numRuns: 200 });
  });

  test('text of the characters that YAML cares about', () => {
    const marks = [...'-:?[]{},#&*!|>\'"%@`\t\n\r \\<~ab1\uFEFF\u0002\u001f\u0018'];
    const unit = fc.constantFrom(...marks, '\n  ', '\n- ', ': ', ' #', '---', '...', '<<', 'key: ');
    const text = fc.array(unit, { maxLength: 80 }).map((units) => units.join(''));
    fc.assert(fc.property(text, expectAnswer), { numRuns: 1000 });
  });

  test('well-formed text with a few changes', () => {
    const base = fc.oneof(yamlText(), fc.constantFrom(plan, ...awkward));
    const bits = ['', ' ', '\t', '\n', '[', '}', '"', "'", ':', ': ', '- ', '&a ', '*b', '|', '@', '\n---\n'];
    const change = fc.tuple(fc.nat(), fc.nat(6), fc.constantFrom(...bits));
    fc.assert(
      fc.property(base, fc.array(change, { minLength: 1, maxLength: 5 }), (text, changes) => {
        let changed = text;
        for (const [place, length, inserted] of changes) {
          const at = place % (changed.length + 1);
          changed = changed.slice(0, at) + inserted + changed.slice(at + length);
        }
        expectAnswer(changed);
      }),
      { numRuns: 300 },
    );
  });

  test('every beginning of a plan, as it is typed', () => {
    for (let length = 0; length <= plan.length; length += 5) expectAnswer(plan.slice(0, length));
  });
});
