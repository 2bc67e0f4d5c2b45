import { nearest } from '../quantities/nearest.ts';
import type { Quantity } from '../quantities/quantity.ts';
import { firstOf } from '../quantities/words.ts';
import type { Finding } from '../text/finding.ts';
import type { Span } from '../text/span.ts';
import { keyBegunBy } from './commas.ts';
import type { Field, Kind, Section } from './table.ts';
import type { Entry, MapNode, Node } from './tree.ts';

/** What the reader tells of a document, as far as it does not depend on which document it is. */
export type Told = Pick<Finding, 'code' | 'severity' | 'span' | 'message' | 'facts'>;

/** Where a value stands, as far as it is told. */
export interface Standing {
  readonly name: string;
  readonly key: Span;
  /** Set for the value of a free key: that key. */
  readonly pair?: string;
  /** Set for an item of a list: where it stands. */
  readonly item?: Span;
}

/** Facts from which the fix of a misspelling is made. */
export function replacement(span: Span, rewrite: string) {
  return { rewrite, rewriteStart: span.start, rewriteEnd: span.end };
}

/** A key that a section must have; `room` says where it can be written. */
export function missingKey(name: string, section: Section, head: Span, room: Finding['facts']): Told {
  const kind: Kind = (section.fields[name] as Field).kind;
  const example = kind.shape === 'scalar' ? `: ${kind.quantity.examples[0] ?? '...'}` : ': ...';
  return {
    code: 'plan/missing-key',
    severity: 'error',
    span: head,
    message: `This ${section.name} has no \`${name}\`. Write \`${name}${example}\`.`,
    facts: { section: section.name, key: name, ...room },
  };
}

/** A key that the table does not have; and the one that is being typed or misspelt, as far as that can be told. */
export function unknownKey(
  section: Section,
  node: MapNode,
  entry: Entry,
): { readonly told: Told; readonly meant: string | undefined } {
  const key = entry.key.text;
  const { span, content } = entry.key;
  const names = Object.keys(section.fields);
  if (node.flow && entry.value.kind === 'empty') return aloneAfterComma(entry, names);
  const meant = nearest(key, names);
  const advice = meant === undefined ? ` Known here: ${firstOf(names)}.` : ` Did you mean \`${meant}\`?`;
  const message = `A ${section.name} has no key “${shortened(key)}”.${advice}`;
  const facts = meant === undefined ? { key } : { key, ...replacement(content, meant) };
  return { told: { code: 'plan/unknown-key', severity: 'warning', span, message, facts }, meant };
}

/** Between braces: a key that is only begun, or a part of the value before it. */
function aloneAfterComma({ key: { text: key, span, content } }: Entry, names: readonly string[]) {
  const meant = keyBegunBy(key, names);
  const written = shortened(key);
  const told: Told =
    meant === undefined
      ? {
          code: 'plan/comma-in-value',
          severity: 'error',
          span,
          message: `“${written}” stands alone after a comma. Write \`${written}: …\` if it is a key; if it belongs to the value before it, put that between quotes.`,
          facts: { key },
        }
      : {
          code: 'plan/unknown-key',
          severity: 'warning',
          span,
          message: `“${written}” is no key, and has no value yet. Write \`${meant}: …\`.`,
          facts: { key, ...replacement(content, `${meant}:`) },
        };
  return { told, meant };
}

/** A key, or an item of a list, without a value. */
export function emptyValue(at: Standing, quantity: Quantity<unknown> | undefined): Told {
  const { name, pair, item, key } = at;
  const example = quantity?.examples[0];
  const what =
    item === undefined
      ? `\`${shortened(pair ?? name)}\` has no value yet.`
      : `This item of \`${name}\` is empty.`;
  const removed = item === undefined ? 'take the key away' : 'remove it';
  const advice = example === undefined ? '' : ` Write for example \`${example}\`, or ${removed}.`;
  return { code: 'plan/empty-value', severity: 'hint', span: item ?? key, message: what + advice, facts: {} };
}

/** A value that is a list where one value is wanted, and the like; `rewrites` are what it may have been meant to be. */
export function wrongShape(
  { kind, span }: Node,
  { name, key, item }: Standing,
  wanted: string,
  rewrites: readonly string[],
): Told {
  const found = kind === 'map' ? 'keys and values' : kind === 'sequence' ? 'a list' : 'one value';
  const subject = `${item === undefined ? '' : 'An item of '}\`${name}\``;
  const readings = rewrites.slice(0, 3);
  const offered = readings.map((text) => `\`${item === undefined ? `${name}: ` : ''}${text}\``);
  const advice = offered.length === 0 ? '' : ` Write ${offered.join(' or ')}.`;
  const [rewrite] = rewrites;
  return {
    code: 'plan/wrong-shape',
    severity: 'error',
    span: item ?? key,
    message: `${subject} takes ${wanted}; here it has ${found}.${advice}`,
    facts: {
      key: name,
      found: kind,
      ...(rewrite === undefined ? {} : { rewriteStart: span.start, rewriteEnd: span.end }),
      ...(rewrites.length === 1 && rewrite !== undefined ? { rewrite } : { readings }),
    },
  };
}

/** Where an item stands; for an empty one its dash, if it has one. */
export function itemSpan(text: string, { start, end }: Span): Span {
  if (end > start) return { start, end };
  let dash = start - 1;
  while (dash >= 0 && /\s/.test(text[dash] as string)) dash -= 1;
  return text[dash] === '-' ? { start: dash, end: dash + 1 } : { start, end };
}

function shortened(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}
