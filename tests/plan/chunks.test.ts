import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Piece, split } from '../../server/plan/chunks.ts';
import { compose } from '../../server/plan/compose.ts';
import { readFrame } from '../../server/plan/frame.ts';
import { holdsNothing } from '../../server/plan/outline.ts';
import { rowsOf } from '../../server/plan/rows.ts';
import type { Node } from '../../server/plan/tree.ts';
import { createChunkCache, parseText, readYaml } from '../../server/plan/yaml.ts';
import { awkward, plan } from './samples.ts';
import { yamlText } from './yamlText.ts';

/** The text with everything in front of its first document turned into spaces. */
function documentOf(text: string): string {
  const frame = readFrame(text);
  const start = frame.rows[0]?.start ?? text.length;
  const end = frame.rows.at(-1)?.next ?? text.length;
  return text.slice(0, start).replace(/[^\r\n]/g, ' ') + text.slice(start, end);
}

/** Takes the text apart with every size of chunk and compares with parsing it at once. */
function expectSameAsWhole(text: string): void {
  const whole = readYaml(documentOf(text));
  expect(whole.faults, text).toEqual([]);
  const codes = whole.findings.map(({ code, span }) => ({ code, span }));
  for (const smallBlock of [0, 60, 2048]) {
    const parsed = compose(text, readFrame(text), {
      cache: createChunkCache(),
      read: readYaml,
      nodeLimit: 100_000,
      smallBlock,
      holds: holdsNothing,
    });
    expect(parsed.blanked).toEqual([]);
    if (whole.root.kind === 'empty') expect(parsed.root.kind).toBe('empty');
    else expect(parsed.root).toEqual(whole.root);
    const found = parsed.findings.map(({ code, span }) => ({ code, span }));
    expect(found).toHaveLength(codes.length);
    expect(found).toEqual(expect.arrayContaining(codes));
  }
}

function scalarsOf(node: Node): string[] {
  if (node.kind === 'scalar') return [node.text];
  if (node.kind === 'sequence') return node.items.flatMap(scalarsOf);
  if (node.kind === 'map')
    return node.entries.flatMap((entry) => [entry.key.text, ...scalarsOf(entry.value)]);
  return [];
}

function chunkCount(piece: Piece): number {
  if (piece.kind === 'chunk') return 1;
  if (piece.kind === 'sequence') return piece.items.reduce((sum, item) => sum + chunkCount(item), 0);
  return piece.parts.reduce(
    (sum, part) => sum + 1 + (part.value === undefined ? 0 : chunkCount(part.value)),
    0,
  );
}

/** A plan of many shots, all in one spot or spread over several. */
function longPlan(shots: number, perSpot: number): string {
  let text = 'plan: Long\nspots:\n';
  for (let shot = 0; shot < shots; shot += 1) {
    if (shot % perSpot === 0) text += `  - id: spot-${shot}\n    at: 54.43, -2.61\n    shots:\n`;
    text += `      - id: shot-${shot}\n        facing: 118°   # east\n        subject: { at: "54.4, -2.6", height: 3 m }\n        lens: wide @ 24 mm\n`;
  }
  return `${text}    pack: 10 min\nkit: bag\n`;
}

describe('chunks say the same as the whole', () => {
  test.each(awkward.filter((text) => text.charCodeAt(0) !== 0xfeff).map((text) => [text]))('%j', (text) => {
    expectSameAsWhole(text);
    expectSameAsWhole(text.replace(/\n/g, '\r\n'));
  });

  test('a plan, with LF, CRLF and mixed line ends', () => {
    expectSameAsWhole(plan);
    expectSameAsWhole(plan.replace(/\n/g, '\r\n'));
    let line = 0;
    expectSameAsWhole(plan.replace(/\n/g, () => (line++ % 3 === 0 ? '\r\n' : '\n')));
  });

  test('long plans, whatever the number of shots in a spot', () => {
    for (const perSpot of [1, 7, 60]) expectSameAsWhole(longPlan(60, perSpot));
  });

  test('generated texts', () => {
    fc.assert(fc.property(yamlText(), expectSameAsWhole), { numRuns: 400 });
  });

  test('generated texts keep all that was written', () => {
    fc.assert(
      fc.property(yamlText(), fc.constantFrom('\n', '\r\n', '\r'), (text, lineEnd) => {
        const expected = scalarsOf(readYaml(text).root);
        expect(scalarsOf(parseText(text.replace(/\n/g, lineEnd)).root)).toEqual(expected);
      }),
      { numRuns: 100 },
    );
  });
});

describe('taking apart', () => {
  test('every entry and every item of a list at the top is a chunk of its own', () => {
    const text = 'a: 1\nb: { c: 2 }\nspots:\n  - id: x\n    y: 1\n  - id: z\nkit: k\n';
    expect(chunkCount(split(text, rowsOf(text)))).toBe(6);
  });

  test('lists inside a large item are taken apart too', () => {
    const text = longPlan(60, 60);
    expect(chunkCount(split(text, rowsOf(text)))).toBeGreaterThan(60);
  });

  test('an edit parses one chunk again, and what stands above keeps its nodes', () => {
    const text = longPlan(30, 10);
    const cache = createChunkCache();
    const before = parseText(text, cache);
    const at = text.indexOf('shot-25') + 4;
    const after = parseText(`${text.slice(0, at)}x${text.slice(at)}`, cache);
    expect(after).toEqual(parseText(`${text.slice(0, at)}x${text.slice(at)}`));
    const shot = (node: Node, spot: number, index: number): unknown => {
      if (node.kind !== 'map') return undefined;
      const spots = node.entries[1]?.value;
      const item = spots?.kind === 'sequence' ? spots.items[spot] : undefined;
      const shots = item?.kind === 'map' ? item.entries[2]?.value : undefined;
      return shots?.kind === 'sequence' ? shots.items[index] : undefined;
    };
    expect(shot(after.root, 0, 3)).toBeDefined();
    expect(shot(after.root, 0, 3)).toBe(shot(before.root, 0, 3));
    expect(shot(after.root, 2, 5)).not.toEqual(shot(before.root, 2, 5));
  });

  test('what two parses have not used is forgotten', () => {
    const cache = createChunkCache();
    parseText('a: 1\nb: 2\n', cache);
    expect(cache.get('map:a: 1\n')).toBeDefined();
    for (let turn = 0; turn < 3; turn += 1) parseText('b: 2\n', cache);
    expect(cache.get('map:a: 1\n')).toBeUndefined();
    expect(cache.get('map:b: 2\n')).toBeDefined();
  });

  test('any series of edits gives with a cache what it gives without', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(), fc.nat(30), fc.constantFrom('', ' ', '\n', 'x', ': ', '[', '"', '- ')), {
          maxLength: 8,
        }),
        (edits) => {
          const cache = createChunkCache();
          let text = plan;
          for (const [place, length, inserted] of edits) {
            const at = place % (text.length + 1);
            text = text.slice(0, at) + inserted + text.slice(at + length);
            expect(parseText(text, cache)).toEqual(parseText(text));
          }
        },
      ),
      { numRuns: 30 },
    );
  });
});
