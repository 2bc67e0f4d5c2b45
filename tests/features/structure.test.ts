import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import { documentLinks } from '../../server/features/documentLinks.ts';
import { folding } from '../../server/features/folding.ts';
import { type OutlineEntry, outline } from '../../server/features/outline.ts';
import { analyseKit, analysePlan, demoKit, demoPlan, kitUri, planUri } from './demo.ts';

function shown(entries: readonly OutlineEntry[], depth = 0): string {
  return entries
    .map(
      ({ kind, name, detail, children }) =>
        `${'  '.repeat(depth)}${kind}: ${name}${detail === '' ? '' : ` (${detail})`}\n${shown(children, depth + 1)}`,
    )
    .join('');
}

function everyEntry(entries: readonly OutlineEntry[]): readonly OutlineEntry[] {
  return entries.flatMap((entry) => [entry, ...everyEntry(entry.children)]);
}

describe('outline', () => {
  test('a plan', () => {
    expect(shown(outline(analysePlan(demoPlan)))).toMatchInlineSnapshot(`
      "plan: Dawn on the Hallin reservoirs (2027-03-20)
        spot: North steps (05:29 – 06:33)
          shot: mirror (06:24, 30 s, mirror)
          shot: strands (06:25, 42 s bulb)
      "
    `);
  });

  test('a kit, and a kit inside a plan', () => {
    expect(shown(outline(analyseKit(demoKit)))).toMatchInlineSnapshot(`
      "kit: Field bag
        group: bodies (1)
          body: main (36 x 24 mm)
        group: film (1)
          film: slide-50 (ISO 50)
        group: lenses (1)
          lens: wide (16-35 mm, f/4 .. f/22)
        group: filters (3)
          filter: nd6 (neutral density, 6 stops)
          filter: nd6m (neutral density, 6.4 stops measured)
          filter: pol (polarizer)
      "
    `);
    const inline = demoPlan.replace(
      'kit: ../kit/field-bag.shootkit.yaml',
      'kit:\n  filters:\n    - { id: nd6, kind: neutral density, strength: 6 stops }',
    );
    expect(shown(outline(analysePlan(inline)))).toContain(
      '  group: filters (1)\n    filter: nd6 (neutral density, 6 stops)\n',
    );
  });

  test('what is revealed lies within its entry, and names are never empty', () => {
    const odd = demoPlan
      .replace('name: North steps', 'name: "\\u0007 "')
      .replace('- id: strands', '- effect: mist\n        id:');
    for (const text of [
      demoPlan,
      odd,
      demoPlan.replaceAll('\n', '\r\n'),
      'plan:\nspots:\n  -\n',
      'spots: [ {}, { id: x } ]',
    ]) {
      for (const { name, span, selection } of everyEntry(outline(analysePlan(text)))) {
        expect(name.trim()).not.toBe('');
        expect(span.start).toBeLessThanOrEqual(selection.start);
        expect(span.end).toBeGreaterThanOrEqual(selection.end);
      }
    }
  });

  test('an empty text has none', () => {
    expect(outline(analysePlan(''))).toEqual([]);
    expect(outline(analyseKit(''))).toEqual([]);
  });
});

describe('folding', () => {
  const folded = (text: string) =>
    folding(analysePlan(text)).map(({ span, kind }) => {
      const lines = text.slice(span.start, span.end).split(/\r\n|\n/);
      return `${kind}: ${lines[0]} … ${lines.at(-1)?.trim()}`;
    });

  const text = [
    '# one',
    '# two',
    'plan: P',
    '# alone',
    'spots:',
    '  - id: a',
    '    note: |',
    '      long',
    '      text',
    '    walk: {',
    '      distance: 1 km }',
    '',
    '',
    '  - id: b',
    '',
  ];

  test('sections, items, long values and comments, without the blank lines behind them', () => {
    expect(folded(text.join('\n'))).toEqual([
      'comment: # one … # two',
      'section: spots: … - id: b',
      'section: id: a … distance: 1 km }',
      'section: note: | … text',
      'section: walk: { … distance: 1 km }',
    ]);
    expect(folded(text.join('\r\n'))).toEqual(folded(text.join('\n')));
  });

  test('one line folds nowhere', () => {
    expect(folded('plan: P')).toEqual([]);
    expect(folded('')).toEqual([]);
  });
});

describe('links', () => {
  test('the path of the kit opens the kit', () => {
    const analysis = analysePlan(demoPlan);
    const [link, ...more] = documentLinks(analysis);
    expect(more).toEqual([]);
    expect(demoPlan.slice(link?.span.start, link?.span.end)).toBe('../kit/field-bag.shootkit.yaml');
    expect(link?.target).toBe(kitUri);
  });

  test('a missing kit is linked, so that it can be made; a refused one is not', () => {
    const missing = analyse({ uri: planUri, text: demoPlan }, { rules: [] });
    expect(documentLinks(missing)).toHaveLength(1);
    const refused = analyse(
      { uri: planUri, text: demoPlan },
      { rules: [], open: () => ({ kind: 'refused', reason: 'It lies outside the workspace.' }) },
    );
    expect(documentLinks(refused)).toEqual([]);
    expect(documentLinks(analysePlan(demoPlan.replace('../kit/', '/etc/')))).toEqual([]);
    expect(documentLinks(analyseKit(demoKit))).toEqual([]);
  });
});
