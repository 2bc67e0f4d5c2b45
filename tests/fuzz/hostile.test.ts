import { describe, expect, test } from 'vitest';
import { planSection } from '../../server/plan/fields.ts';
import type { Kind, Section } from '../../server/plan/table.ts';
import { sizeLimit } from '../../server/plan/yaml.ts';
import { exercise, fuzzKit, sharedSky } from './exercise.ts';

const memory = sharedSky();
const head = 'plan: P\ndate: 2027-03-20\ntimezone: Europe/London\n';
const spot = '  - id: north\n    at: 54.43, -2.61\n    arrive: 06:00\n';
const base = `${head}spots:\n${spot}`;

function codes(text: string, uri?: string): readonly string[] {
  const { findings } = exercise(text, [text.length >> 1], {
    memory: memory(),
    ...(uri === undefined ? {} : { uri }),
  });
  return [...new Set(findings.map(({ code }) => code))];
}

describe('A text made to hurt', () => {
  test('an alias that doubles at each step is refused, and the rest is read', () => {
    const lines = ['a0: &a0 [x, x]'];
    for (let step = 1; step <= 40; step += 1)
      lines.push(`a${step}: &a${step} [*a${step - 1}, *a${step - 1}]`);
    const { findings, day } = exercise(`${base}${lines.join('\n')}\n`, [0], { memory: memory() });
    expect(findings.map(({ code }) => code)).toContain('syntax/alias-budget');
    expect(day?.spots[0]?.arriveMs).toBe(Date.UTC(2027, 2, 20, 6));
  });

  test('an anchor inside itself', () => {
    expect(codes(`${base}    shots: &s\n      - id: a\n        water: *s\n`)).toContain('syntax/alias-cycle');
    expect(codes('&a { plan: *a, <<: *a }')).not.toEqual([]);
    expect(codes('<<: *x\nplan: &x { <<: *x }\n')).not.toEqual([]);
  });

  test.each([
    ['lists', '[', ']'],
    ['mappings', '{ a: ', '}'],
    ['open brackets', '[', ''],
    ['dashes', '- ', ''],
    ['question marks', '? ', ''],
    ['keys', 'a: ', ''],
  ])('ten thousand levels of %s', (_, open, close) => {
    const deep = `${open.repeat(10_000)}x${close.repeat(10_000)}`;
    const { findings, day } = exercise(`${base}note: ${deep}\n`, [0], { memory: memory() });
    expect(findings.length).toBeGreaterThan(0);
    expect(day?.spots[0]?.arriveMs).toBe(Date.UTC(2027, 2, 20, 6));
  });

  test('ten thousand levels by indentation', () => {
    const deep = Array.from({ length: 1000 }, (_, level) => `${' '.repeat(level)}a:`).join('\n');
    expect(codes(`${deep}\n${base}`).length).toBeGreaterThan(0);
    expect(codes(`${base}note:\n  ${deep.replaceAll('\n', '\n  ')}\n`)).toContain('syntax/too-deep');
  });

  test('a file of the largest size is read, one beyond it is refused', () => {
    const line = `# ${'filling '.repeat(12)}\n`;
    const filled = base + line.repeat(Math.floor((sizeLimit - base.length) / line.length));
    const full = filled + ' '.repeat(sizeLimit - filled.length);
    expect(full.length).toBe(sizeLimit);
    expect(codes(full)).not.toContain('syntax/too-large');
    expect(codes(`${full} `)).toContain('syntax/too-large');
  });

  test('five million characters on one line', () => {
    expect(codes(`plan: ${'x'.repeat(5_000_000)}`)).toContain('plan/missing-key');
    expect(codes(`${head}spots: [${'a,'.repeat(30_000)}]`).length).toBeGreaterThan(0);
  });

  test('thirty thousand short lines', () => {
    expect(codes(`${base}${'x: 1\n'.repeat(30_000)}`)).toContain('plan/unknown-key');
  });

  test.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf', 'prototype'])(
    'the key %s is a key that is not known, wherever it stands',
    (key) => {
      const text = [
        head.trimEnd(),
        `${key}: { polluted: yes }`,
        `effects: { ${key}: 1 s .. 2 s }`,
        `checks: { ${key}: off }`,
        `thresholds: { ${key}: 3 }`,
        'spots:',
        `  - { id: a, at: "54.43, -2.61", ${key}: 1, <<: { ${key}: { polluted: yes } } }`,
        `  - { id: ${key}, at: "54.43, -2.61", otherwise: ${key}, shots: [{ id: ${key}, lens: ${key}, filters: [${key}], start: after ${key} }] }`,
      ].join('\n');
      expect(codes(text)).toContain('plan/unknown-key');
      expect(({} as Record<string, unknown>).polluted).toBeUndefined();
      expect(codes(`kit: K\nfilters:\n  - { id: ${key}, kind: polarizer }\n${key}: 1\n`, fuzzKit)).toContain(
        'plan/unknown-key',
      );
    },
  );

  test('an anchor that is used five hundred times is read each time', () => {
    const shots = Array.from(
      { length: 500 },
      (_, n) => `      - { id: s${n}, metered: *m, aperture: f/8, iso: 100 }`,
    );
    const text = `${head}note: &m 1/2 s\nspots:\n${spot}    shots:\n${shots.join('\n')}\n`;
    const { day } = exercise(text, [0], { memory: memory() });
    const seconds = day?.spots[0]?.shots.map(({ exposure }) => exposure?.filtered?.correctedSeconds) ?? [];
    expect(seconds).toEqual(Array(500).fill(0.5));
  });

  test('shots that wait for one another, from the last to the first, and in a ring', () => {
    const chain = (count: number, last: string) =>
      Array.from(
        { length: count },
        (_, n) =>
          `      - { id: s${n}, metered: 1 s, aperture: f/8, start: ${n + 1 < count ? `after s${n + 1}` : last} }`,
      ).join('\n');
    const first = (count: number, last: string) => {
      const { day, findings } = exercise(`${base}    shots:\n${chain(count, last)}\n`, [0], {
        memory: memory(),
      });
      return { startMs: day?.spots[0]?.shots[0]?.startMs, codes: findings.map(({ code }) => code) };
    };
    expect(first(100, 'ready').startMs).toBe(Date.UTC(2027, 2, 20, 6) + 99_000);
    expect(first(100, 'after s0').codes).toContain('time/circle');
    expect(first(2000, 'ready').startMs).toBe(Date.UTC(2027, 2, 20, 6) + 1_999_000);
    expect(first(2000, 'after s0').startMs).toBeUndefined();
  });
});

describe('A hundred thousand characters as the value of', () => {
  const scalars = scalarKeys(planSection);
  const fillings = ['9', 'a', ' ', '1 ', '1/', '-', 'after ', '½', '°', ', ', '(', "'"];

  test('as many keys as there are', () => {
    expect(scalars.length).toBeGreaterThan(80);
  });

  test.each(fillings)('every key, filled with %j', (filling) => {
    const long = JSON.stringify(filling.repeat(Math.ceil(100_000 / filling.length)).slice(0, 100_000));
    for (const keys of scalars) exercise(`${inside(keys, long)}\n`, [], { memory: memory() });
  });
});

/** The ways down to every scalar of a table: `spots`, `-`, `shots`, `-`, `iso`. */
function scalarKeys(section: Section, above: readonly string[] = []): readonly (readonly string[])[] {
  return Object.entries(section.fields).flatMap(([key, { kind }]) => ways(kind, [...above, key]));
}

function ways(kind: Kind, path: readonly string[]): readonly (readonly string[])[] {
  switch (kind.shape) {
    case 'section':
      return scalarKeys(kind.section, path);
    case 'list':
      return ways(kind.of, [...path, '-']);
    case 'either':
      return [path, ...scalarKeys(kind.section, path)];
    case 'dictionary':
      return [[...path, 'silky']];
    default:
      return [path];
  }
}

/** A text in which one way leads to a value, in flow style. */
function inside([first, ...rest]: readonly string[], value: string): string {
  return `${first}: ${flow(rest, value)}`;
}

function flow([first, ...rest]: readonly string[], value: string): string {
  if (first === undefined) return value;
  return first === '-' ? `[${flow(rest, value)}]` : `{ ${first}: ${flow(rest, value)} }`;
}
