import { expect, test } from 'vitest';
import { closedWords } from '../../server/features/words.ts';
import { planSection } from '../../server/plan/fields.ts';
import { kitSection } from '../../server/plan/kitFields.ts';
import type { Kind, Section } from '../../server/plan/table.ts';

/** Each key whose value is one of a list of words. */
function keysWithWords(kind: Kind, name: string): readonly string[] {
  if (kind.shape === 'list') return keysWithWords(kind.of as Kind, name);
  if (kind.shape === 'section' || kind.shape === 'either') {
    return Object.entries((kind.section as Section).fields).flatMap(([key, { kind: inner }]) =>
      keysWithWords(inner, key),
    );
  }
  const quantity =
    kind.shape === 'scalar' ? kind.quantity : kind.shape === 'dictionary' ? kind.values : undefined;
  return quantity !== undefined && closedWords(quantity) !== undefined ? [name] : [];
}

test('the closed words of the table, and nothing else', () => {
  const found = [planSection, kitSection].flatMap((section) =>
    keysWithWords({ shape: 'section', section }, 'document'),
  );
  expect([...new Set(found)].sort()).toEqual([
    'bearings',
    'checks',
    'contact',
    'edge',
    'effect',
    'finder',
    'horizon',
    'kind',
    'level',
    'on',
    'orientation',
    'permission',
    'state',
  ]);
});
