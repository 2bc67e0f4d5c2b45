import { planSection } from '../plan/fields.ts';
import { kitSection } from '../plan/kitFields.ts';
import type { Field, Kind, Section } from '../plan/table.ts';
import type { Quantity } from '../quantities/quantity.ts';
import { flag } from '../quantities/words.ts';
import { closedWords } from './words.ts';

/** A JSON Schema, or a part of one: plain data. */
export type JsonSchema = { readonly [keyword: string]: JsonValue };
export type JsonValue = string | number | boolean | null | readonly JsonValue[] | JsonSchema;

const note =
  'Every value is read as it is typed, so a scalar may reach a checker as a string, a number, a truth value or nothing at all, as its YAML reader takes it. How a value may be spelt is told by its examples; this schema tells keys, lists and words.';

/**
 * The JSON Schema (draft 7) of plans or of kits, made from the table of fields: keys, which of them are needed, what they
 * mean, words of closed lists, examples of spellings. It tells nothing that the table does not.
 */
export function schema(kind: 'plan' | 'kit'): JsonSchema {
  const section: Section = kind === 'plan' ? planSection : kitSection;
  const definitions = new Map<string, JsonSchema>();
  const document = sectionSchema(section, definitions);
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    $comment: note,
    title: kind === 'plan' ? 'Shoot plan' : 'Shoot kit',
    ...document,
    definitions: Object.fromEntries(definitions),
  };
}

function sectionSchema(section: Section, definitions: Map<string, JsonSchema>): JsonSchema {
  const fields = Object.entries(section.fields);
  const required = fields.filter(([, field]) => field.required === true).map(([name]) => name);
  return {
    description: section.doc,
    type: 'object',
    properties: Object.fromEntries(fields.map(([name, field]) => [name, fieldSchema(field, definitions)])),
    ...(required.length === 0 ? {} : { required }),
    additionalProperties: false,
  };
}

function fieldSchema({ kind, doc }: Field, definitions: Map<string, JsonSchema>): JsonSchema {
  const inner = kindSchema(kind, definitions);
  const { description } = inner;
  return { ...inner, description: typeof description === 'string' ? `${doc} ${description}` : doc };
}

function kindSchema(kind: Kind, definitions: Map<string, JsonSchema>): JsonSchema {
  switch (kind.shape) {
    case 'scalar':
      return scalarSchema(kind.quantity);
    case 'reference':
      return { type: ['string', 'null'], description: `The id of a ${kind.target}.` };
    case 'list': {
      const items = kindSchema(kind.of, definitions);
      // One item may stand without its list.
      return { anyOf: [{ type: 'array', items }, items] };
    }
    case 'section':
      return { anyOf: [sectionReference(kind.section, definitions), { type: 'null' }] };
    case 'dictionary': {
      const { examples } = kind.keys as Quantity<unknown>;
      return {
        type: ['object', 'null'],
        ...(examples.length === 0 ? {} : { propertyNames: { examples } }),
        additionalProperties: scalarSchema(kind.values),
      };
    }
    case 'either':
      return { anyOf: [scalarSchema(kind.quantity), sectionReference(kind.section, definitions)] };
  }
}

/** Sections are written once and referred to: some stand in several places. */
function sectionReference(section: Section, definitions: Map<string, JsonSchema>): JsonSchema {
  const name = section.name.replaceAll(' ', '-');
  if (!definitions.has(name)) {
    definitions.set(name, {});
    definitions.set(name, sectionSchema(section, definitions));
  }
  return { $ref: `#/definitions/${name}` };
}

function scalarSchema(quantity: Quantity<unknown>): JsonSchema {
  const { name, examples, documentation } = quantity;
  if (quantity === (flag as Quantity<unknown>)) return { description: 'Yes or no.', enum: words(examples) };
  const closed = closedWords(quantity);
  if (closed !== undefined) return { description: documentation, enum: words(closed) };
  return {
    description: `(${name})`,
    type: ['string', 'number', 'boolean', 'null'],
    ...(examples.length === 0 ? {} : { examples }),
  };
}

/** The words as they are typed, as truth values where a YAML reader makes these of them, and nothing. */
function words(values: readonly string[]): readonly JsonValue[] {
  const truths = [true, false].filter((truth) => values.includes(String(truth)));
  return [...values, ...truths, null];
}
