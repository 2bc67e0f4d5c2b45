import type { Field, Kind, Section } from '../../plan/table.ts';
import type { Quantity } from '../../quantities/quantity.ts';
import type { Step } from './climb.ts';

/** What the table of fields expects at a place. */
export interface Expected {
  readonly kind: Kind;
  /** The field that the place belongs to, and the section that has it; absent for the document. */
  readonly field?: Field;
  readonly name?: string;
  readonly section?: Section;
  /** For the value of a free key: that key. */
  readonly freeKey?: string;
}

/** Follows a path through the table. Undefined where it leaves it: under a key that is not known, or below a scalar. */
export function expectedAt(document: Section, path: readonly Step[]): Expected | undefined {
  let here: Expected = { kind: { shape: 'section', section: document } };
  for (const step of path) {
    const next = step.kind === 'item' ? itemOf(here) : underKey(here, step.name);
    if (next === undefined) return undefined;
    here = next;
  }
  return here;
}

function itemOf(here: Expected): Expected | undefined {
  return here.kind.shape === 'list' ? { ...here, kind: here.kind.of as Kind } : undefined;
}

function underKey(here: Expected, name: string): Expected | undefined {
  // A single item may stand without its list.
  const kind: Kind = here.kind.shape === 'list' ? (here.kind.of as Kind) : here.kind;
  if (kind.shape === 'dictionary') {
    const values = kind.values as Quantity<unknown>;
    return { ...here, kind: { shape: 'scalar', quantity: values }, freeKey: name };
  }
  if (kind.shape !== 'section' && kind.shape !== 'either') return undefined;
  const section = kind.section as Section;
  if (!Object.hasOwn(section.fields, name)) return undefined;
  const field = section.fields[name] as Field;
  return { kind: field.kind, field, name, section };
}
