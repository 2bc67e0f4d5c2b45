import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { rules } from '../../server/checks/list.ts';
import { readingCodes } from '../../server/checks/reading.ts';
import { findingsTable } from '../../server/checks/table.ts';

const families = [
  ...['syntax', 'plan', 'kit', 'exposure', 'filter', 'light'],
  ...['effect', 'focus', 'time', 'weather', 'tide', 'safety'],
];
const root = join(import.meta.dirname, '../..');

/** Every `'family/name'` in the sources, with the files in which it stands. */
function literals(): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  const pattern = new RegExp(`['"\`]((?:${families.join('|')})/[a-z]+(?:-[a-z]+)*)['"\`]`, 'g');
  for (const file of readdirSync(join(root, 'server'), { recursive: true, encoding: 'utf8' })) {
    if (!file.endsWith('.ts')) continue;
    for (const [, code = ''] of readFileSync(join(root, 'server', file), 'utf8').matchAll(pattern)) {
      found.set(code, [...(found.get(code) ?? []), file]);
    }
  }
  return found;
}

describe('the list of codes', () => {
  const codes = rules.map(({ code }) => code);

  test('holds every code that the sources name', () => {
    const named = literals();
    expect(named.size).toBeGreaterThan(80);
    expect([...named.keys()].filter((code) => !codes.includes(code))).toEqual([]);
  });

  test('holds each code once, in a known family', () => {
    expect(codes.filter((code, place) => codes.indexOf(code) !== place)).toEqual([]);
    const shape = new RegExp(`^(?:${families.join('|')})/[a-z]+(?:-[a-z]+)*$`);
    expect(codes.filter((code) => !shape.test(code))).toEqual([]);
  });

  test('documents each code in whole sentences', () => {
    const bad = rules.filter(({ doc }) => !/^[\p{Lu}\d`].{20,}[.!?]$/su.test(doc));
    expect(bad.map(({ code }) => code)).toEqual([]);
  });

  test('holds no code of reading that nothing reports', () => {
    const named = literals();
    const idle = readingCodes.filter(
      ({ code }) => !(named.get(code) ?? []).some((file) => !file.startsWith('checks')),
    );
    expect(idle.map(({ code }) => code)).toEqual([]);
  });

  test('has a check for every code that is not one of reading', () => {
    const reading = new Set(readingCodes.map(({ code }) => code));
    const idle = rules.filter(({ code, check }) => (check === undefined) !== reading.has(code));
    expect(idle.map(({ code }) => code)).toEqual([]);
  });
});

describe('the table of codes', () => {
  test('has a row for each code, in order', () => {
    const rows = findingsTable(rules).split('\n').slice(2);
    expect(rows).toHaveLength(rules.length);
    expect([...rows].sort()).toEqual(rows);
    expect(
      rows.filter((row) => !/^\| `[a-z/-]+` \| (?:error|warning|hint) \| .+[.!?] \|$/.test(row)),
    ).toEqual([]);
  });

  test('takes the first sentence of the documentation', () => {
    const rule = { code: 'time/x', severity: 'hint', doc: 'One a|b at 6.5 m. Two.' } as const;
    expect(findingsTable([rule]).split('\n')[2]).toBe('| `time/x` | hint | One a\\|b at 6.5 m. |');
  });
});

/** `UPDATE=1 npx vitest run --config tests/vitest.config.ts tests/checks/list.test.ts` writes the table. */
test('README.md holds the table between its marks', () => {
  const path = join(root, 'README.md');
  const [begin, end] = ['<!-- findings -->\n', '<!-- /findings -->'];
  const table = `${findingsTable(rules)}\n`;
  const parts = readFileSync(path, 'utf8')
    .replaceAll('\r\n', '\n')
    .split(new RegExp(`(?<=${begin})|(?=${end})`));
  expect(parts.map((part) => part.includes(begin) || part.startsWith(end))).toEqual([true, false, true]);
  if (process.env.UPDATE === '1') writeFileSync(path, `${parts[0]}${table}${parts[2]}`);
  expect(readFileSync(path, 'utf8').replaceAll('\r\n', '\n')).toBe(`${parts[0]}${table}${parts[2]}`);
});
