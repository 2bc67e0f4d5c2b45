import { describe, expect, test } from 'vitest';
import { type Resolver, resolver } from '../../server/plan/aliases.ts';
import type { MapNode, Node } from '../../server/plan/tree.ts';
import { parseText } from '../../server/plan/yaml.ts';

function open(text: string): Resolver & { root: Node } {
  const { root } = parseText(text);
  return { root, ...resolver(root) };
}

/** Everything written out, as plain data; lists of pairs keep __proto__ harmless. */
function written({ resolve }: Resolver, node: Node): unknown {
  const target = resolve(node);
  if (target.kind === 'scalar') return target.text;
  if (target.kind === 'sequence') return target.items.map((item) => written({ resolve, findings: [] }, item));
  if (target.kind !== 'map') return null;
  return new Map(
    target.entries.map((entry) => [entry.key.text, written({ resolve, findings: [] }, entry.value)]),
  );
}

function size({ resolve }: Resolver, node: Node): number {
  const target = resolve(node);
  const children =
    target.kind === 'sequence'
      ? target.items
      : target.kind === 'map'
        ? target.entries.map((entry) => entry.value)
        : [];
  return children.reduce((sum, child) => sum + size({ resolve, findings: [] }, child), 1);
}

describe('aliases', () => {
  test('stand for the nearest anchor of that name further above', () => {
    const text = 'a: &x 1\nb: *x\nc: &x 2\nd: *x\ne: [*x, &x 3, *x]\n';
    const tree = open(text);
    expect(tree.findings).toEqual([]);
    expect(written(tree, tree.root)).toEqual(
      new Map<string, unknown>([
        ['a', '1'],
        ['b', '1'],
        ['c', '2'],
        ['d', '2'],
        ['e', ['2', '3', '3']],
      ]),
    );
  });

  // eemeli/yaml#497: an unknown alias gave no error, and an exception later.
  test('an unknown one: a finding on it, with the names at hand', () => {
    const text = 'tripod: &leg carbon\nbag: &loop x\nspots:\n  - name: Cape\n    gear: *le\n';
    const tree = open(text);
    expect(tree.findings).toHaveLength(1);
    const [finding] = tree.findings;
    expect(finding).toMatchObject({
      code: 'syntax/unknown-alias',
      facts: { name: 'le', known: ['leg', 'loop'] },
    });
    expect(text.slice(finding?.span.start, finding?.span.end)).toBe('*le');
    expect(finding?.message).toMatch(/^Unknown alias le.*\*leg, \*loop/);
    expect(size(tree, tree.root)).toBeGreaterThan(4);
  });

  test('an anchor further below does not count', () => {
    expect(open('a: *x\nb: &x 1\n').findings.map(({ code }) => code)).toEqual(['syntax/unknown-alias']);
  });

  // portainer/portainer#6211: the hundredth use of one anchor was refused.
  test('500 uses of one anchor', () => {
    const uses = Array.from({ length: 500 }, (_, index) => `  - {name: s${index}, zone: *z}\n`).join('');
    const tree = open(`tz: &z Europe/Oslo\nshots:\n${uses}`);
    expect(tree.findings).toEqual([]);
    const shots = (tree.root as MapNode).entries[1]?.value as { items: readonly MapNode[] };
    expect(shots.items).toHaveLength(500);
    for (const shot of shots.items) {
      expect(tree.resolve(shot.entries[1]?.value as Node)).toMatchObject({ text: 'Europe/Oslo' });
    }
  });

  // redhat-developer/yaml-language-server#463: nested aliases took all of the processor.
  test('nested aliases that grow without end: one finding, and a walk that ends', () => {
    const levels = ['a', 'b', 'c', 'd'];
    let text = 'a: &a [x,x,x,x,x,x,x,x]\n';
    for (let level = 1; level < levels.length; level += 1) {
      const inner = Array(8)
        .fill(`*${levels[level - 1]}`)
        .join(',');
      text += `${levels[level]}: &${levels[level]} [${inner}]\n`;
    }
    const tree = open(`${text}spots: [${Array(8).fill('*d').join(',')}]\n`);
    expect(tree.findings.map(({ code }) => code)).toEqual(['syntax/alias-budget']);
    expect(tree.findings[0]?.message).toMatch(/^Alias expansion too large/);
    expect(size(tree, tree.root)).toBeLessThan(31_000);
  });

  test('a billion of them', () => {
    let text = 'k0: &k0 [x,x]\n';
    for (let level = 1; level < 60; level += 1)
      text += `k${level}: &k${level} [*k${level - 1},*k${level - 1}]\n`;
    const tree = open(text);
    expect(tree.findings.map(({ code }) => code)).toEqual(['syntax/alias-budget']);
    expect(size(tree, tree.root)).toBeLessThan(31_000);
  });

  // redhat-developer/vscode-yaml#916: an anchor that holds its own alias overflowed the stack.
  test('one that refers to itself: a finding on it', () => {
    const text = 'spots: &s\n  - name: Loop\n    children: *s\n';
    const tree = open(text);
    const [finding, ...others] = tree.findings;
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ code: 'syntax/alias-cycle' });
    expect(finding?.message).toMatch(/refers to itself/);
    expect(text.slice(finding?.span.start, finding?.span.end)).toBe('*s');
    expect(size(tree, tree.root)).toBe(5);
  });

  test('a longer way round does not exist: the second anchor of the name is meant', () => {
    const tree = open('a: &a [1]\nb: &a [*a]\nc: *a\n');
    expect(tree.findings.map(({ code }) => code)).toEqual(['syntax/alias-cycle']);
  });
});

// The merge key as described for YAML 1.1 (https://yaml.org/type/merge.html): own keys win, then the earlier map.
describe('merging', () => {
  test('own keys win, then those of the earlier map', () => {
    const tree = open(
      'a: &a {x: 1, y: 1}\nb: &b {y: 2, z: 2}\nc:\n  <<: [*a, *b]\n  x: 3\nd:\n  <<: *a\ne:\n  <<: {w: 5}\n  v: 6\n',
    );
    expect(tree.findings).toEqual([]);
    const all = written(tree, tree.root) as Map<string, Map<string, string>>;
    expect(Object.fromEntries(all.get('c') ?? [])).toEqual({ x: '3', y: '1', z: '2' });
    expect(Object.fromEntries(all.get('d') ?? [])).toEqual({ x: '1', y: '1' });
    expect(Object.fromEntries(all.get('e') ?? [])).toEqual({ v: '6', w: '5' });
  });

  test('what was merged is merged again', () => {
    const tree = open('a: &a {x: 1}\nb: &b\n  <<: *a\n  y: 2\nc:\n  <<: *b\n  z: 3\n');
    const all = written(tree, tree.root) as Map<string, Map<string, string>>;
    expect([...(all.get('c')?.keys() ?? [])]).toEqual(['z', 'y', 'x']);
  });

  test('the same map each time', () => {
    const tree = open('a: &a {x: 1}\nb:\n  <<: *a\n');
    const b = (tree.root as MapNode).entries[1]?.value as Node;
    expect(tree.resolve(b)).toBe(tree.resolve(b));
    expect(tree.resolve(tree.root)).toBe(tree.root);
  });

  test('anything but maps: a finding', () => {
    const tree = open('a: &a 1\nb:\n  <<: *a\nc:\n  <<: [{x: 1}, 2]\nd:\n  <<:\ne:\n  <<: *no\n');
    expect(tree.findings.map(({ code }) => code)).toEqual([
      'syntax/merge',
      'syntax/merge',
      'syntax/merge',
      'syntax/unknown-alias',
    ]);
  });

  test('a quoted << is a key', () => {
    const tree = open('a: &a {x: 1}\nb:\n  "<<": *a\n');
    expect(tree.resolve((tree.root as MapNode).entries[1]?.value as Node)).toMatchObject({
      entries: [{ key: { text: '<<' } }],
    });
  });

  // nodeca/js-yaml#533: a merged __proto__ changed the prototype.
  test('a merged __proto__ is an entry', () => {
    const tree = open('a: &a\n  __proto__: {timezone: Europe/Oslo}\nb:\n  <<: *a\n');
    const b = tree.resolve((tree.root as MapNode).entries[1]?.value as Node) as MapNode;
    expect(b.entries.map((entry) => entry.key.text)).toEqual(['__proto__']);
    expect(({} as Record<string, unknown>).timezone).toBeUndefined();
  });

  test('a map that merges itself: a finding', () => {
    const tree = open('a: &a\n  <<: *a\n  x: 1\n');
    expect(tree.findings.map(({ code }) => code)).toEqual(['syntax/alias-cycle']);
    expect(size(tree, tree.root)).toBe(3);
  });
});
