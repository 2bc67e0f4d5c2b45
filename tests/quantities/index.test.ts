import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { quantities } from '../../server/quantities/index.ts';

const folder = new URL('../../server/quantities/', import.meta.url);

test('every kind that a file of the folder exports is in the list, once', () => {
  const sources = readdirSync(folder).map((name) => readFileSync(new URL(name, folder), 'utf8'));
  const exported = sources.flatMap((source) => [...source.matchAll(/^export const (\w+): Quantity</gm)]);
  expect(new Set(quantities).size).toBe(quantities.length);
  expect(quantities).toHaveLength(exported.length);
  const list = readFileSync(new URL('index.ts', folder), 'utf8').split('quantities: readonly')[1];
  for (const [, name] of exported) expect(list).toMatch(new RegExp(`^  ${name},$`, 'm'));
});

describe.each(quantities.map((kind) => [kind.name, kind] as const))('%s', (name, kind) => {
  test('has a name of its own', () => {
    expect(name).toMatch(/\S/);
    expect(quantities.filter((other) => other.name === name)).toHaveLength(1);
  });

  test('says in its documentation what it is and how it is written', () => {
    expect(kind.documentation.split('\n')[0]).toMatch(/^[A-Z].*\.$/);
    expect(kind.documentation).toMatch(/`[^`]+`/);
  });

  test('has examples that can be read', () => {
    expect(kind.examples[0]).toBeDefined();
    for (const example of kind.examples) expect(kind.parse(example), example).toMatchObject({ problems: [] });
  });

  test('every spelling in its documentation can be read, or is there as one that is refused', () => {
    const spellings = [...kind.documentation.matchAll(/`([^`]+)`/g)].map(([, spelling]) => spelling ?? '');
    const refusedOnPurpose = name === 'filter strength' ? ['3.0'] : name === 'id' ? ['-', '_'] : [];
    for (const spelling of spellings) {
      if (refusedOnPurpose.includes(spelling)) expect(kind.parse(spelling).value, spelling).toBeUndefined();
      else expect(kind.parse(spelling), spelling).toMatchObject({ problems: [] });
    }
  });
});
