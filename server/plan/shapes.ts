import type { Quantity } from '../quantities/quantity.ts';
import type { Field, Fields, ScalarKind, Section } from './table.ts';
import type { Entry, Node } from './tree.ts';
import { quotedFor } from './writing.ts';

/** The keys under which a value would be right that stands where keys belong: `walk: 10 min` is `walk: { time: 10 min }`. */
export function withItsKey({ fields }: Section, node: Node): readonly string[] {
  if (node.kind !== 'scalar') return [];
  const written = node.text.trim();
  const names = Object.keys(fields);
  if (names.some((name) => name.startsWith(written))) return [];
  const fitting = names.filter((name) => {
    const { kind } = fields[name] as Field;
    return kind.shape === 'scalar' && takes(kind.quantity, written);
  });
  return likeliest(fields, fitting, written).map(
    (name) => `{ ${name}: ${quotedFor(written, 'plain', true)} }`,
  );
}

/** Of keys that would all take a text: the id; or those that would spell it just so; or those that do not take any text. */
function likeliest(fields: Fields, names: readonly string[], written: string): readonly string[] {
  if (names.includes('id')) return ['id'];
  const quantityOf = (name: string) => ((fields[name] as Field).kind as ScalarKind<unknown>).quantity;
  const narrow = names.filter((name) => !takesAnything(quantityOf(name)));
  if (narrow.length === 0) return names.filter((name) => name !== 'note').slice(0, 1);
  const exact = narrow.filter((name) => {
    const { value } = quantityOf(name).parse(written);
    return value !== undefined && quantityOf(name).format(value) === written;
  });
  return exact.length > 0 ? exact : narrow;
}

/** What keys with values, or a list of one, may have been meant to be where one value belongs. */
export function asOneValue(quantity: Quantity<unknown>, node: Node, inFlow: boolean): string | undefined {
  const parts = partsOf(node);
  if (parts.length === 0) return undefined;
  const written = [', ', ' @ ', ' ']
    .map((between) => parts.join(between))
    .find((text) => takes(quantity, text));
  return written === undefined ? undefined : quotedFor(written, 'plain', inFlow);
}

/** Pairs such as a field of free keys takes: those of its documentation, or else the first examples of each kind. */
export function pairsOf({ doc }: Field, keys: Quantity<unknown>, values: Quantity<unknown>): string {
  return /`(\{[^`]*\})`/.exec(doc)?.[1] ?? `{ ${keys.examples[0] ?? '...'}: ${values.examples[0] ?? '...'} }`;
}

/** The texts in a map, a latitude first, or that in a list of one. */
function partsOf(node: Node): readonly string[] {
  if (node.kind === 'sequence') {
    const [only] = node.items;
    return node.items.length === 1 && only?.kind === 'scalar' ? [only.text] : [];
  }
  if (node.kind !== 'map') return [];
  const isLatitude = ({ key }: Entry): number => (key.text.toLowerCase().startsWith('lat') ? 0 : 1);
  const entries = [...node.entries].sort((a, b) => isLatitude(a) - isLatitude(b));
  const texts = entries.flatMap(({ value }) => (value.kind === 'scalar' ? [value.text] : []));
  return texts.length === entries.length ? texts : [];
}

function takes(quantity: Quantity<unknown>, text: string): boolean {
  const { value, problems } = quantity.parse(text);
  return value !== undefined && problems.length === 0;
}

/** Whether the kind is any text at all. */
function takesAnything(quantity: Quantity<unknown>): boolean {
  return takes(quantity, '§');
}
