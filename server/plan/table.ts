import type { Quantity } from '../quantities/quantity.ts';
import type { Place, Span } from '../text/span.ts';

/**
 * The vocabulary in which the table of fields is written. Reader, completion, hover and the published schema
 * all walk that one table; the types of the model follow from it, so that a new field is one row.
 */

/** Lists of things with an `id` that other fields may name. */
export type Target = 'spot' | 'shot' | 'body' | 'film' | 'lens' | 'filter';

export interface ScalarKind<T> {
  readonly shape: 'scalar';
  readonly quantity: Quantity<T>;
}

/** The id of something declared elsewhere. */
export interface ReferenceKind {
  readonly shape: 'reference';
  readonly target: Target;
}

/** A list; a single item without brackets is read as a list of one. */
export interface ListKind<K extends Kind> {
  readonly shape: 'list';
  readonly of: K;
}

/** A mapping with the fields of a section. */
export interface SectionKind<F extends Fields> {
  readonly shape: 'section';
  readonly section: Section<F>;
}

/** A mapping whose keys are free: scalars of one kind. */
export interface DictionaryKind<K, V> {
  readonly shape: 'dictionary';
  readonly keys: Quantity<K>;
  readonly values: Quantity<V>;
}

/** A scalar, or in its place a mapping: `kit: path` or `kit: { bodies: ... }`. */
export interface EitherKind<T, F extends Fields> {
  readonly shape: 'either';
  readonly quantity: Quantity<T>;
  readonly section: Section<F>;
}

export type Kind =
  // biome-ignore lint/suspicious/noExplicitAny: the table holds kinds of every type; each row keeps its own.
  | ScalarKind<any>
  | ReferenceKind
  // biome-ignore lint/suspicious/noExplicitAny: see above.
  | ListKind<any>
  // biome-ignore lint/suspicious/noExplicitAny: see above.
  | SectionKind<any>
  // biome-ignore lint/suspicious/noExplicitAny: see above.
  | DictionaryKind<any, any>
  // biome-ignore lint/suspicious/noExplicitAny: see above.
  | EitherKind<any, any>;

/** One row of the table. */
export interface Field<K extends Kind = Kind> {
  readonly kind: K;
  /** One or two sentences: what it is, in which unit, what it does when left out. */
  readonly doc: string;
  readonly required?: boolean;
}

export type Fields = { readonly [key: string]: Field };

/** A mapping of the language: its name, what it is, and its rows. */
export interface Section<F extends Fields = Fields> {
  readonly name: string;
  readonly doc: string;
  readonly fields: F;
  /** The keys that may not be missing. */
  readonly required: readonly string[];
}

/** A value that was read, where it stands, and how its author spelt it. */
export interface Value<T> extends Place {
  readonly value: T;
  readonly text: string;
  /** The key before it; for an item of a list, the key of the list. */
  readonly key: Span;
}

/** What every section of the model knows of itself. */
export interface Self extends Place {
  readonly section: string;
  /** The key or the first line that stands for it: where a finding about the whole is shown. */
  readonly head: Span;
  /** Keys that are written but could not be read: what depends on them stays silent. */
  readonly broken: ReadonlySet<string>;
  /** Keys that are written, whether read or not, with the span of the key. */
  readonly keys: ReadonlyMap<string, Span>;
}

type Camel<S extends string> = S extends `${infer A}-${infer B}` ? `${A}${Capitalize<Camel<B>>}` : S;

export interface Dictionary<K, V> extends Place {
  readonly entries: readonly { readonly key: Value<K>; readonly value: Value<V> }[];
}

/** The type that the model gives to a kind. */
export type Read<K> =
  K extends ScalarKind<infer T>
    ? Value<T>
    : K extends ReferenceKind
      ? Value<string>
      : K extends ListKind<infer I>
        ? readonly Read<I>[]
        : K extends SectionKind<infer F>
          ? Model<F>
          : K extends DictionaryKind<infer A, infer B>
            ? Dictionary<A, B>
            : K extends EitherKind<infer T, infer F>
              ? { readonly scalar: Value<T> } | { readonly section: Model<F> }
              : never;

/** The type that the model gives to a section: every field may be missing. */
export type Model<F> = { readonly self: Self } & {
  readonly [P in keyof F & string as Camel<P>]?: F[P] extends Field<infer K> ? Read<K> : never;
};

export function section<const F extends Fields>(name: string, doc: string, fields: F): Section<F> {
  const required = Object.keys(fields).filter((key) => fields[key]?.required === true);
  return { name, doc, fields, required };
}

export function field<K extends Kind>(kind: K, doc: string, more: { required?: boolean } = {}): Field<K> {
  return { kind, doc, ...more };
}

/** A field of one scalar. */
export function scalar<T>(
  quantity: Quantity<T>,
  doc: string,
  more: { required?: boolean } = {},
): Field<ScalarKind<T>> {
  return { kind: { shape: 'scalar', quantity }, doc, ...more };
}

export function reference(target: Target, doc: string): Field<ReferenceKind> {
  return { kind: { shape: 'reference', target }, doc };
}

export function list<K extends Kind>(of: K, doc: string): Field<ListKind<K>> {
  return { kind: { shape: 'list', of }, doc };
}

export function nested<F extends Fields>(inner: Section<F>, doc: string): Field<SectionKind<F>> {
  return { kind: { shape: 'section', section: inner }, doc };
}

export function dictionary<K, V>(
  keys: Quantity<K>,
  values: Quantity<V>,
  doc: string,
): Field<DictionaryKind<K, V>> {
  return { kind: { shape: 'dictionary', keys, values }, doc };
}

/** `back-by` in a file is `backBy` in the model. */
export function camel(key: string): string {
  if (!key.includes('-')) return key;
  return key.replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());
}
