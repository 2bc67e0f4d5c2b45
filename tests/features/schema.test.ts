import { readFileSync, writeFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { schema } from '../../server/features/schema.ts';
import { planSection } from '../../server/plan/fields.ts';
import { kitSection } from '../../server/plan/kitFields.ts';
import { plan as wholePlan } from '../plan/samples.ts';
import { demoKit, demoPlan } from './demo.ts';

const kinds = ['plan', 'kit'] as const;

function published(kind: 'plan' | 'kit'): URL {
  return new URL(`../../syntaxes/shoot${kind}.schema.json`, import.meta.url);
}

// UPDATE=1 writes the published files anew from the table of fields.
if (process.env.UPDATE === '1') {
  for (const kind of kinds) writeFileSync(published(kind), `${JSON.stringify(schema(kind), null, 2)}\n`);
}

test.each(kinds)('the published schema of a %s is the one that the table gives', (kind) => {
  expect(JSON.parse(readFileSync(published(kind), 'utf8'))).toEqual(schema(kind));
});

/** What is wrong with a text by the schema, as a general YAML reader takes it; empty when nothing is. */
function complaints(kind: 'plan' | 'kit', text: string, yamlSchema: 'failsafe' | 'core'): readonly string[] {
  const ajv = new Ajv({ allErrors: true, strict: true, allowUnionTypes: true });
  const validate = ajv.compile(schema(kind));
  validate(parse(text, { schema: yamlSchema }));
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

describe.each(['failsafe', 'core'] as const)('read with the %s schema of YAML', (yamlSchema) => {
  test('sensible documents are accepted', () => {
    expect(complaints('plan', demoPlan, yamlSchema)).toEqual([]);
    expect(complaints('plan', wholePlan, yamlSchema)).toEqual([]);
    expect(complaints('kit', demoKit, yamlSchema)).toEqual([]);
    const inline =
      'plan: a\ndate: 2027-03-20\nkit:\n  bodies: { id: main, noise-reduction: on, film: false }\n';
    expect(complaints('plan', inline, yamlSchema)).toEqual([]);
  });

  test('what the reader refuses by its shape is refused', () => {
    expect(complaints('plan', 'plan: a\n', yamlSchema)).toEqual([" must have required property 'date'"]);
    expect(complaints('plan', 'plan: a\ndate: 2027-03-20\nspot: []\n', yamlSchema)).toEqual([
      ' must NOT have additional properties',
    ]);
    const refused = (line: string) => complaints('plan', `plan: a\ndate: 2027-03-20\n${line}\n`, yamlSchema);
    expect(refused('spots: [{ id: a, at: x, permission: perhaps }]')).not.toEqual([]);
    expect(refused('party: { person: 2 }')).not.toEqual([]);
    expect(refused('checks: { time/late-arrival: loud }')).not.toEqual([]);
    expect(refused('bearings: left')).not.toEqual([]);
    expect(complaints('kit', 'kit: a\nlenses: [{ id: wide }]\n', yamlSchema)).not.toEqual([]);
  });
});

test('a plan that is not finished is accepted', () => {
  const begun = 'plan: a\ndate: 2027-03-20\nbearings: true\nspots:\nparty:\nchecks:\nnote:\n';
  expect(complaints('plan', begun, 'core')).toEqual([]);
});

test.each([
  ['plan', planSection],
  ['kit', kitSection],
] as const)('the schema of a %s has every key of the document with its meaning', (kind, section) => {
  const { properties, required, additionalProperties } = schema(kind) as {
    properties: Record<string, { description: string }>;
    required: readonly string[];
    additionalProperties: boolean;
  };
  expect(Object.keys(properties)).toEqual(Object.keys(section.fields));
  for (const [key, { doc }] of Object.entries(section.fields)) {
    expect(properties[key]?.description.startsWith(doc)).toBe(true);
  }
  expect(required).toContain(kind);
  expect(additionalProperties).toBe(false);
});
