import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isMap, isScalar, isSeq, type Node, parseDocument } from 'yaml';
import { forecastHourSection, planSection, spotSection } from '../../server/plan/fields.ts';
import {
  bodySection,
  filmSection,
  filterSection,
  kitSection,
  lensSection,
} from '../../server/plan/kitFields.ts';
import { shotSection } from '../../server/plan/shotFields.ts';
import type { Fields, Kind, Section } from '../../server/plan/table.ts';
import type { Quantity } from '../../server/quantities/quantity.ts';
import { identifier } from '../../server/quantities/words.ts';

interface Snippet {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}

const text = readFileSync(new URL('../../syntaxes/snippets.json', import.meta.url), 'utf8');
const snippets = new Map(Object.entries(JSON.parse(text) as Record<string, Snippet>));

/** The text that a snippet inserts when nothing is typed over: the text of each place, or its choice number `pick`. */
function filled(snippet: Snippet, pick = 0): string {
  return snippet.body
    .join('\n')
    .replace(/\$\{\d+\|([^|]*)\|\}/g, (_, options: string) => {
      const choices = options.split(',');
      return choices[Math.min(pick, choices.length - 1)] ?? '';
    })
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '');
}

const mostChoices = Math.max(
  ...[...text.matchAll(/\|([^|]*)\|\}/g)].map(([, options = '']) => options.split(',').length),
);

const whole = (section: Section): Kind => ({ shape: 'section', section });
const item = (section: Section): Kind => ({ shape: 'list', of: whole(section) });

/** What each snippet is a piece of: the whole file, some lines of it, or an item of a list. */
const pieces: ReadonlyMap<string, { readonly kind: Kind; readonly complete: boolean }> = new Map([
  ['Plan', { kind: whole(planSection), complete: true }],
  ['Kit', { kind: whole(kitSection), complete: true }],
  ['Tides', { kind: whole(planSection), complete: false }],
  ['Forecast', { kind: whole(planSection), complete: false }],
  ['Forecast hour', { kind: item(forecastHourSection), complete: true }],
  ['Spot', { kind: item(spotSection), complete: true }],
  ['Shot', { kind: item(shotSection), complete: true }],
  ['Bracket', { kind: item(shotSection), complete: true }],
  ['Night shot', { kind: item(shotSection), complete: true }],
  ['Body', { kind: item(bodySection), complete: true }],
  ['Film', { kind: item(filmSection), complete: true }],
  ['Lens', { kind: item(lensSection), complete: true }],
  ['Neutral density filter', { kind: item(filterSection), complete: true }],
  ['Graduated filter', { kind: item(filterSection), complete: true }],
  ['Polarizer', { kind: item(filterSection), complete: true }],
  ['Colour filter', { kind: item(filterSection), complete: true }],
]);

/** What of a node does not belong: keys that the table does not know, values that are not read or not without remarks. */
function faults(node: unknown, kind: Kind, path: string): string[] {
  switch (kind.shape) {
    case 'scalar':
      return scalarFaults(node, kind.quantity, path);
    case 'reference':
      return scalarFaults(node, identifier, path);
    case 'either':
      return isScalar(node)
        ? scalarFaults(node, kind.quantity, path)
        : faults(node, whole(kind.section), path);
    case 'list':
      if (!isSeq(node) || node.items.length === 0) return [`${path}: no list`];
      return node.items.flatMap((child, index) => faults(child, kind.of, `${path}[${index}]`));
    case 'dictionary':
      if (!isMap(node)) return [`${path}: no mapping`];
      return node.items.flatMap(({ key, value }) => [
        ...scalarFaults(key, kind.keys, `${path}, a key`),
        ...scalarFaults(value, kind.values, `${path}, a value`),
      ]);
    case 'section': {
      if (!isMap(node)) return [`${path}: no mapping`];
      const fields = new Map(Object.entries(kind.section.fields as Fields));
      return node.items.flatMap(({ key, value }) => {
        const name = isScalar(key) ? String(key.source) : '?';
        const inner = fields.get(name);
        return inner === undefined
          ? [`${path}.${name}: unknown`]
          : faults(value, inner.kind, `${path}.${name}`);
      });
    }
  }
}

function scalarFaults(node: unknown, quantity: Quantity<unknown>, path: string): string[] {
  if (!isScalar(node)) return [`${path}: no scalar`];
  const { value, problems } = quantity.parse(String(node.source));
  const remarks = problems.map(({ message }) => message);
  return value === undefined || remarks.length > 0 ? [`${path}: ${remarks.join(' ')}`] : [];
}

/** The required keys that the outermost mappings lack. */
function missing(node: unknown, kind: Kind): string[] {
  if (kind.shape === 'list' && isSeq(node)) return node.items.flatMap((child) => missing(child, kind.of));
  if (kind.shape !== 'section' || !isMap(node)) return ['everything'];
  const required = Object.entries((kind.section as Section).fields).filter(([, field]) => field.required);
  return required.map(([name]) => name).filter((name) => !node.has(name));
}

/** The filled snippet, read as YAML 1.2 without an error or a warning. */
function parsed(snippet: Snippet, pick = 0): Node | null {
  const document = parseDocument(filled(snippet, pick), { version: '1.2', schema: 'core' });
  expect(document.errors).toEqual([]);
  expect(document.warnings).toEqual([]);
  return document.contents;
}

describe('snippets', () => {
  test('each is a piece of the language, and each has its own prefix', () => {
    expect([...snippets.keys()].sort()).toEqual([...pieces.keys()].sort());
    const prefixes = [...snippets.values()].map(({ prefix }) => prefix);
    expect(new Set(prefixes).size).toBe(prefixes.length);
  });

  test.each([...snippets])(
    '%s: keys of the table, and values that are read without a remark',
    (name, snippet) => {
      const piece = pieces.get(name);
      if (piece === undefined) throw new Error(`${name} is no known piece.`);
      for (let pick = 0; pick < mostChoices; pick += 1) {
        const node = parsed(snippet, pick);
        expect(faults(node, piece.kind, name)).toEqual([]);
        if (piece.complete) expect(missing(node, piece.kind)).toEqual([]);
      }
    },
  );

  test.each([...snippets])(
    '%s: places are numbered in order, without gaps, and nothing is left over',
    (_, snippet) => {
      const written = snippet.body.join('\n');
      const numbers = [...written.matchAll(/\$\{?(\d+)/g)].map(([, number]) => Number(number));
      expect(numbers).toEqual([...numbers.slice(0, -1).map((_number, index) => index + 1), 0]);
      expect(filled(snippet)).not.toMatch(/[$|\t]/);
      expect(snippet.description).toMatch(/^[A-Z].{10,}[^.]$/);
    },
  );

  test('where work can hurt someone the caution stands', () => {
    expect(filled(snippets.get('Tides') as Snippet)).toContain('ask locally');
    expect(filled(snippets.get('Neutral density filter') as Snippet)).toContain('do not look at the sun');
  });
});
