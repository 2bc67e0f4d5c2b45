import { describe, expect, test } from 'vitest';
import { planSection } from '../../server/plan/fields.ts';
import { kitSection } from '../../server/plan/kitFields.ts';
import { type Mark, type ReadDocument, readDocument } from '../../server/plan/reader.ts';
import { camel, type Fields, type Kind, type Section } from '../../server/plan/table.ts';

const uri = 'file:///reader/test.shootplan.yaml';

function read<F extends Fields>(text: string, section: Section<F>): ReadDocument<F> {
  return readDocument(uri, text, section);
}

const plan = (text: string) => read(text, planSection);

/** The findings as `code “text under them”`. */
function found({ findings, text }: Pick<ReadDocument<Fields>, 'findings' | 'text'>): readonly string[] {
  return findings.map(({ code, span }) => `${code} “${text.slice(span.start, span.end)}”`);
}

/** One scalar of a text that was made from the table: where its value stands, and how it is reached in the model. */
interface Written {
  readonly path: readonly string[];
  readonly example: string;
  readonly start: number;
}

/** A text with every key of a table, each with the first example of its kind. */
class Filled {
  text = '';
  readonly written: Written[] = [];

  section(section: Section, indent: string, path: readonly string[]): void {
    for (const [key, { kind }] of Object.entries(section.fields))
      this.#field(key, kind, indent, [...path, camel(key)]);
  }

  #field(key: string, kind: Kind, indent: string, path: readonly string[]): void {
    this.text += `${indent}${key}:`;
    switch (kind.shape) {
      case 'scalar':
        this.#value(kind.quantity.examples[0] ?? 'anything', path, '\n');
        return;
      case 'either':
        this.#value(kind.quantity.examples[0] ?? 'anything', [...path, 'scalar'], '\n');
        return;
      case 'reference':
        this.#value(`any-${kind.target}`, path, '\n');
        return;
      case 'dictionary':
        this.text += `\n${indent}  ${JSON.stringify(kind.keys.examples[0] ?? 'anything')}:`;
        this.#value(kind.values.examples[0] ?? 'anything', [...path, 'entries', '0', 'value'], '\n');
        return;
      case 'section':
        this.text += '\n';
        this.section(kind.section, `${indent}  `, path);
        return;
      case 'list': {
        const of: Kind = kind.of;
        this.text += `\n${indent}  -`;
        if (of.shape === 'section') {
          const before = this.text.length;
          this.section(of.section, `${indent}    `, [...path, '0']);
          // The first key of an item stands behind its dash.
          const shift = indent.length + 4 - 1;
          this.text = this.text.slice(0, before) + this.text.slice(before + shift);
          for (const [at, each] of this.written.entries()) {
            if (each.start > before) this.written[at] = { ...each, start: each.start - shift };
          }
          return;
        }
        const example = of.shape === 'scalar' ? (of.quantity.examples[0] ?? 'anything') : 'any-id';
        this.#value(example, [...path, '0'], '\n');
        return;
      }
    }
  }

  #value(example: string, path: readonly string[], end: string): void {
    this.text += ' "';
    this.written.push({ path, example, start: this.text.length });
    this.text += `${example}"${end}`;
  }
}

/** What the model holds at the end of a path. */
function at(model: unknown, path: readonly string[]): unknown {
  return path.reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], model);
}

describe.each([
  ['plan', planSection as Section, 90],
  ['kit', kitSection as Section, 40],
] as const)('Every key of a %s', (_, section, atLeast) => {
  const filled = new Filled();
  filled.section(section, '', []);
  const document = read(filled.text, section);

  test('is written into the text of this test', () => {
    expect(filled.written.length).toBeGreaterThan(atLeast);
  });

  test('is known, and its first example is read without a word', () => {
    expect(found(document)).toEqual([]);
  });

  test('is in the model with its value, its spelling, its span and its key', () => {
    for (const { path, example, start } of filled.written) {
      expect({ path, read: at(document.model, path) }).toEqual({
        path,
        read: expect.objectContaining({
          text: example,
          uri,
          span: { start, end: start + example.length },
          value: expect.anything(),
        }),
      });
    }
  });

  test('has one mark, in the order of the text', () => {
    const starts = document.marks.map(({ span }) => span.start);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    for (const { start } of filled.written) expect(starts.filter((each) => each === start)).toEqual([start]);
    for (const { key, name, section: around } of document.marks) {
      const text = filled.text.slice(key.start, key.end);
      if (Object.hasOwn(around.fields, name) && Object.hasOwn(around.fields, text)) expect(text).toBe(name);
    }
  });
});

describe('A key', () => {
  test('that is not known is a warning, with the nearest known one to write instead', () => {
    const document = plan('plan: P\ndate: 2027-03-20\nspot: []\nzebra: 1\n');
    expect(found(document)).toEqual(['plan/unknown-key “spot”', 'plan/unknown-key “zebra”']);
    const [near, far] = document.findings;
    expect(near).toMatchObject({
      severity: 'warning',
      message: 'A plan has no key “spot”. Did you mean `spots`?',
      facts: { key: 'spot', rewrite: 'spots', rewriteStart: 25, rewriteEnd: 29 },
    });
    expect(far?.facts).toEqual({ key: 'zebra' });
  });

  test('that comes twice is an error on the second; the first counts', () => {
    const document = plan('plan: P\ndate: 2027-03-20\ndate: 2027-03-21\n');
    expect(found(document)).toEqual(['syntax/duplicate-key “date”']);
    expect(document.model.date?.text).toBe('2027-03-20');
    expect(document.findings[0]).toMatchObject({
      severity: 'error',
      related: [{ span: { start: 8, end: 12 } }],
    });
  });

  test('that is required is missed at the head of its section', () => {
    expect(found(plan('date: 2027-03-20\nspots:\n  - id: a\n'))).toEqual([
      'plan/missing-key “date”',
      'plan/missing-key “a”',
    ]);
    expect(plan('').findings).toEqual([]);
  });

  test('without a value is said once, and counts as broken', () => {
    const document = plan('plan: P\ndate: 2027-03-20\nspots:\n  - id: a\n    at: 54.4, -2.6\n    setup:\n');
    expect(found(document)).toEqual(['plan/empty-value “setup”']);
    expect(document.findings[0]?.severity).toBe('hint');
    expect(document.model.spots?.[0]?.self.broken.has('setup')).toBe(true);
  });

  test('of the wrong shape is an error on the key', () => {
    const text = 'plan: { a: 1 }\ndate: [1, 2]\nspots: 3\nparty: told\nforecast: [1]\neffects: silky\n';
    const document = plan(text);
    expect(found(document)).toEqual([
      'plan/wrong-shape “plan”',
      expect.stringContaining('“'),
      'plan/wrong-shape “spots”',
      'plan/wrong-shape “party”',
      'plan/wrong-shape “forecast”',
      'plan/wrong-shape “effects”',
    ]);
    expect(document.model.spots).toEqual([]);
  });
});

describe('A value', () => {
  test('that cannot be read leaves a gap only there', () => {
    const document = plan(
      'plan: P\ndate: 2027-03-20\nspots:\n  - id: a\n    at: 54.4, -2.6\n    setup: soon\n    pack: 5 min\n',
    );
    expect(document.findings.map(({ code }) => code)).toEqual(['plan/unreadable']);
    const spot = document.model.spots?.[0];
    expect([spot?.setup, spot?.pack?.value, [...(spot?.self.broken ?? [])]]).toEqual([
      undefined,
      300,
      ['setup'],
    ]);
  });

  test('that stands alone is read as a list of one', () => {
    const document = plan(
      'plan: P\ndate: 2027-03-20\nspots:\n  id: a\n  at: 54.4, -2.6\n  hazards: deep water\n  shots: { id: s, filters: nd6 }\n',
    );
    expect(document.findings).toEqual([]);
    expect(document.model.spots?.[0]?.hazards?.map(({ value }) => value)).toEqual(['deep water']);
    expect(document.model.spots?.[0]?.shots?.[0]?.filters?.map(({ value }) => value)).toEqual(['nd6']);
  });

  test.each([
    ['on one line with braces', '{ from: 54.395, -2.640, leave: 05:00 }', ['plan/comma-in-value']],
    ['in brackets', '{ from: [54.395, -2.640], leave: 05:00 }', []],
    ['in quotes', '{ from: "54.395, -2.640", leave: 05:00 }', []],
  ])('that is a pair, %s', (_, start, codes) => {
    const document = plan(`plan: P\ndate: 2027-03-20\nstart: ${start}\n`);
    expect(
      document.findings.map(({ code }) => code).filter((code) => code === 'plan/comma-in-value'),
    ).toEqual(codes);
    expect(document.model.start?.leave?.text).toBe('05:00');
    if (codes.length === 0) {
      expect(document.model.start?.from?.value).toMatchObject({ latitude: 54.395, longitude: -2.64 });
    }
  });

  test('is what was typed, under a YAML 1.1 line too', () => {
    const document = plan(
      '%YAML 1.1\n---\nplan: no\ndate: 2027-03-20\nparty: { back-by: 06:30 }\nspots: [{ id: on, at: "54.4, -2.6", name: 010 }]\n',
    );
    expect(document.model.plan?.text).toBe('no');
    expect(document.model.party?.backBy?.value).toEqual({
      kind: 'clock',
      clock: { hour: 6, minute: 30, second: 0, dayOffset: 0 },
    });
    expect(document.model.spots?.[0]).toMatchObject({ id: { value: 'on' }, name: { value: '010' } });
  });
});

test('ids inside scalars are found where they stand', () => {
  const text =
    'plan: P\ndate: 2027-03-20\nspots:\n  - id: a\n    at: 54.4, -2.6\n    otherwise: b\n    shots:\n      - { id: s, lens: "wide @ 24 mm", body: main, filters: [nd6, pol], start: "later of after t + 5 min, after u" }\n';
  const document = plan(text);
  expect(document.uses.map(({ target, id, span }) => [target, id, text.slice(span.start, span.end)])).toEqual(
    [
      ['spot', 'b', 'b'],
      ['lens', 'wide', 'wide'],
      ['body', 'main', 'main'],
      ['filter', 'nd6', 'nd6'],
      ['filter', 'pol', 'pol'],
      ['shot', 't', 't'],
      ['shot', 'u', 'u'],
    ],
  );
});

test('a mark knows its field, its section and its owner', () => {
  const text = 'plan: P\ndate: 2027-03-20\nspots:\n  - id: a\n    at: 54.4, -2.6\n    setup: 5 min\n';
  const document = plan(text);
  const mark = document.marks.find(({ name }) => name === 'setup') as Mark;
  expect(text.slice(mark.span.start, mark.span.end)).toBe('5 min');
  expect(text.slice(mark.key.start, mark.key.end)).toBe('setup');
  expect(mark.section.name).toBe('spot');
  expect(mark.owner).toBe(document.model.spots?.[0]?.self);
  expect(mark.quantity?.name).toBe('duration');
  expect(mark.value?.value).toBe(300);
});
