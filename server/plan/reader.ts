import type { Quantity } from '../quantities/quantity.ts';
import type { Finding, Problem } from '../text/finding.ts';
import { type Span, shifted } from '../text/span.ts';
import { resolver } from './aliases.ts';
import { type Joined, joined } from './commas.ts';
import { isOnlyOpened } from './opened.ts';
import { holdsOf } from './outline.ts';
import {
  emptyValue,
  itemSpan,
  missingKey,
  replacement,
  type Told,
  unknownKey,
  wrongShape,
} from './readerFindings.ts';
import { createReadings, type Readings } from './readings.ts';
import { roomFor } from './room.ts';
import { asOneValue, pairsOf, withItsKey } from './shapes.ts';
import {
  camel,
  type Dictionary,
  type Field,
  type Fields,
  type Kind,
  type Model,
  type Section,
  type Self,
  type Target,
  type Value,
} from './table.ts';
import type { Entry, MapNode, Node, ScalarNode } from './tree.ts';
import { type Use, usesIn } from './uses.ts';
import { quotedFor, type Writing } from './writing.ts';
import { type ChunkCache, parseText } from './yaml.ts';

/** A scalar of the table as it stands in the text: what hover, completion and rename look up. */
export interface Mark {
  /** Of the content, without quotes. */
  readonly span: Span;
  readonly key: Span;
  /** The key of the field, as written in the table. */
  readonly name: string;
  readonly field: Field;
  readonly section: Section;
  /** The section of the model that it belongs to. */
  readonly owner: Self;
  readonly quantity?: Quantity<unknown>;
  /** Left out when it could not be read. */
  readonly value?: Value<unknown>;
}

/** A text read by a section of the table. */
export interface ReadDocument<F extends Fields> {
  readonly uri: string;
  readonly text: string;
  readonly model: Model<F>;
  readonly findings: readonly Finding[];
  /** In the order of the text. */
  readonly marks: readonly Mark[];
  readonly uses: readonly Use[];
  readonly root: Node;
}

/**
 * Reads a text as a section of the table. Never fails: every value that can be read is in the model, and what cannot
 * be read is reported at its place and leaves a gap only there.
 */
export function readDocument<F extends Fields>(
  uri: string,
  text: string,
  section: Section<F>,
  cache?: ChunkCache,
  readings: Readings = createReadings(),
): ReadDocument<F> {
  const parsed = parseText(text, cache, holdsOf(section));
  const reader = new Reader(uri, text, parsed.root, readings);
  const add = (finding: (typeof parsed.findings)[number]) => {
    const related = finding.related.map((place) => ({ ...place, uri }));
    reader.findings.push({ ...finding, uri, related });
  };
  for (const finding of parsed.findings) add(finding);
  const model = reader.document(section);
  for (const finding of reader.aliasFindings()) add(finding);
  reader.findings.sort((a, b) => a.span.start - b.span.start);
  reader.marks.sort((a, b) => a.span.start - b.span.start);
  return {
    uri,
    text,
    model,
    findings: reader.findings,
    marks: reader.marks,
    uses: reader.uses,
    root: parsed.root,
  };
}

/** Where the reader stands: which row of the table, in which section of the model. */
interface Row {
  readonly name: string;
  readonly field: Field;
  readonly section: Section;
  readonly owner: Self & { readonly broken: Set<string> };
  readonly key: Span;
  readonly inFlow: boolean;
  /** Set for what a list holds, where more of them may be written. */
  readonly room?: 'list' | 'items';
  /** Set for the value of a free key: that key. */
  readonly pair?: string;
  /** Set for an item of a list: where it stands. */
  readonly item?: Span;
}

class Reader {
  readonly findings: Finding[] = [];
  readonly marks: Mark[] = [];
  readonly uses: Use[] = [];
  readonly #uri: string;
  readonly #text: string;
  readonly #root: Node;
  readonly #readings: Readings;
  readonly #aliases: ReturnType<typeof resolver>;
  /** How deep the reader is in nested sections; the table is finite, but an alias may point upwards. */
  #depth = 0;
  /** What has been found to have a wrong shape: it may be met again through other aliases. */
  readonly #misshapen = new Set<Node>();

  constructor(uri: string, text: string, root: Node, readings: Readings) {
    this.#uri = uri;
    this.#text = text;
    this.#root = root;
    this.#readings = readings;
    this.#aliases = resolver(root);
  }

  aliasFindings() {
    return this.#aliases.findings;
  }

  /** Then lists within lists are part of what has been reported. */
  #hasTooManyAliases(): boolean {
    return this.#aliases.findings.some(({ code }) => code === 'syntax/alias-budget');
  }

  document<F extends Fields>(section: Section<F>): Model<F> {
    const root = this.#aliases.resolve(this.#root);
    if (root.kind === 'map') return this.#section(section, root, this.#headOf(root), root.flow);
    if (root.kind !== 'empty') {
      const example = Object.keys(section.fields)[0] ?? 'plan';
      const message = `A ${section.name} is a list of keys: begin with \`${example}: ...\`.`;
      this.#tell({ code: 'plan/wrong-shape', severity: 'error', span: root.span, message, facts: {} });
    }
    return this.#section(
      section,
      { kind: 'map', span: root.span, entries: [], flow: false },
      root.span,
      false,
      true,
    );
  }

  #section<F extends Fields>(
    section: Section<F>,
    node: MapNode,
    head: Span,
    inFlow: boolean,
    empty = false,
  ): Model<F> {
    const broken = new Set<string>();
    const keys = new Map<string, Span>();
    const self = { uri: this.#uri, span: node.span, section: section.name, head, broken, keys };
    const model: Record<string, unknown> = { self };
    const names = Object.keys(section.fields);
    const parts = new Set<Entry>();
    for (const [index, entry] of node.entries.entries()) {
      if (parts.has(entry)) continue;
      const name = entry.key.text;
      if (!Object.hasOwn(section.fields, name)) {
        const meant = this.#unknownKey(section, node, entry);
        if (meant !== undefined) broken.add(meant);
        continue;
      }
      const field = section.fields[name] as Field;
      keys.set(name, entry.key.span);
      const row: Row = {
        name,
        field,
        section,
        owner: self,
        key: entry.key.span,
        inFlow: inFlow || node.flow,
      };
      const whole = this.#whole(joined(this.#text, node, index, field.kind, names), parts);
      const value = this.#depth > 40 ? undefined : this.#kind(field.kind, whole ?? entry.value, row);
      if (value === undefined) broken.add(name);
      else model[camel(name)] = value;
    }
    if (!empty) this.#missing(section, self, node);
    return model as Model<F>;
  }

  #missing(section: Section, self: Self, node: MapNode): void {
    for (const name of section.required) {
      if (self.keys.has(name)) continue;
      this.#tell(missingKey(name, section, self.head, roomFor(this.#text, name, section, node)));
    }
  }

  /** Reports a value that a comma has cut in two, and gives it whole; `parts` takes up what is part of it. */
  #whole(value: Joined | undefined, parts: Set<Entry>): Node | undefined {
    for (const part of value?.parts ?? []) parts.add(part);
    if (value?.finding !== undefined) {
      const { code, span, message, rewrite } = value.finding;
      this.#tell({ code, severity: 'error', span, message, facts: replacement(span, rewrite) });
    }
    return value?.node;
  }

  /** Reports a key that the table does not have; gives the one that is being typed or misspelt, as far as that can be told. */
  #unknownKey(section: Section, node: MapNode, entry: Entry): string | undefined {
    const { told, meant } = unknownKey(section, node, entry);
    this.#tell(told);
    return meant;
  }

  #kind(kind: Kind, raw: Node, row: Row): unknown {
    const node = this.#aliases.resolve(raw);
    this.#depth += 1;
    try {
      return this.#read(kind, node, row);
    } finally {
      this.#depth -= 1;
    }
  }

  #read(kind: Kind, node: Node, row: Row): unknown {
    if (node.kind === 'alias') return undefined;
    if (node.kind === 'empty') {
      this.#empty(node.span, row, kind.shape === 'scalar' ? (kind.quantity as Quantity<unknown>) : undefined);
      return undefined;
    }
    if (isOnlyOpened(this.#text, node, kind.shape)) row.owner.broken.add(row.name);
    switch (kind.shape) {
      case 'scalar':
        return this.#scalar(kind.quantity, node, row);
      case 'reference':
        return this.#reference(kind.target, node, row);
      case 'list':
        return this.#list(kind.of, node, row);
      case 'section':
        if (node.kind === 'map')
          return this.#section(kind.section, node, this.#headOf(node, row), row.inFlow);
        return this.#wrongShape(
          node,
          row,
          `keys such as \`${Object.keys(kind.section.fields).slice(0, 3).join(', ')}\``,
          withItsKey(kind.section, node),
        );
      case 'dictionary':
        return this.#dictionary(kind.keys, kind.values, node, row);
      case 'either': {
        if (node.kind === 'map') {
          return { section: this.#section(kind.section, node, row.key, row.inFlow) };
        }
        const scalar = this.#scalar(kind.quantity, node, row);
        return scalar === undefined ? undefined : { scalar };
      }
    }
  }

  #scalar(quantity: Quantity<unknown>, node: Node, row: Row): Value<unknown> | undefined {
    const written = this.#writing(node);
    if (written === undefined) {
      const meant = asOneValue(quantity, node, row.inFlow);
      const wanted = `one value, such as \`${quantity.examples[0] ?? ''}\``;
      return this.#wrongShape(node, row, wanted, meant === undefined ? [] : [meant]);
    }
    const { text, content, exact } = written;
    const reading = this.#readings.of(quantity, text);
    for (const problem of reading.problems) this.#problem(problem, written, row);
    const value =
      reading.value === undefined
        ? undefined
        : { value: reading.value, text, uri: this.#uri, span: content, key: row.key };
    this.#mark(content, row, quantity, value);
    if (value !== undefined && exact) this.uses.push(...usesIn(quantity, value));
    return value;
  }

  /** The text of a scalar; or of a list that stands for one because its author put a pair in brackets. */
  #writing(node: Node): Writing | undefined {
    if (node.kind === 'scalar') {
      return { text: node.text, content: node.content, exact: node.exact, style: node.style };
    }
    if (node.kind !== 'sequence' || !node.flow) return undefined;
    if (node.items.length < 2 || node.items.some((item) => item.kind !== 'scalar')) return undefined;
    const first = node.items[0] as ScalarNode;
    const last = node.items[node.items.length - 1] as ScalarNode;
    const content = { start: first.span.start, end: last.span.end };
    return { text: this.#text.slice(content.start, content.end), content, exact: true, style: 'bracket' };
  }

  #problem(problem: Problem, written: Writing, row: Row): void {
    const { content, exact } = written;
    const span = exact ? shifted(problem.span, content.start) : content;
    const { rewrite } = problem;
    const facts = { ...problem.facts, key: row.name };
    this.#tell({
      code: problem.code,
      severity: problem.severity ?? 'error',
      span: span.start === span.end ? content : span,
      message: problem.message,
      facts:
        rewrite === undefined
          ? facts
          : { ...facts, ...replacement(content, quotedFor(rewrite, written.style, row.inFlow)) },
    });
  }

  #reference(target: Target, node: Node, row: Row): Value<string> | undefined {
    if (node.kind !== 'scalar') return this.#wrongShape(node, row, `the id of a ${target}`);
    const id = node.text.trim();
    const value = { value: id, text: node.text, uri: this.#uri, span: node.content, key: row.key };
    this.#mark(node.content, row, undefined, value);
    const { room } = row;
    this.uses.push({
      target,
      id,
      uri: this.#uri,
      span: node.content,
      ...(room === undefined ? {} : { several: { span: node.span, room } }),
    });
    return value;
  }

  #list(of: Kind, node: Node, row: Row): readonly unknown[] {
    const items = node.kind === 'sequence' ? node.items : [node];
    const values: unknown[] = [];
    for (const item of items) {
      const resolved = this.#aliases.resolve(item);
      if (resolved.kind === 'empty') {
        this.#empty(
          resolved.span,
          { ...row, ...(node.kind === 'sequence' ? { item: itemSpan(this.#text, item.span) } : {}) },
          of.shape === 'scalar' ? (of.quantity as Quantity<unknown>) : undefined,
        );
        continue;
      }
      if (resolved !== item && resolved.kind === 'sequence' && this.#hasTooManyAliases()) {
        row.owner.broken.add(row.name);
        continue;
      }
      const value = this.#kind(of, item, {
        ...row,
        inFlow: row.inFlow || (node.kind === 'sequence' && node.flow),
        ...(node.kind !== 'sequence' ? { room: 'list' } : { item: item.span }),
        ...(node.kind === 'sequence' && node.flow ? { room: 'items' } : {}),
      });
      if (value === undefined) row.owner.broken.add(row.name);
      else values.push(value);
    }
    return values;
  }

  #dictionary(
    keys: Quantity<unknown>,
    values: Quantity<unknown>,
    node: Node,
    row: Row,
  ): Dictionary<unknown, unknown> | undefined {
    if (node.kind !== 'map') {
      return this.#wrongShape(node, row, `pairs such as \`${pairsOf(row.field, keys, values)}\``);
    }
    const entries: { key: Value<unknown>; value: Value<unknown> }[] = [];
    const parts = new Set<Entry>();
    for (const [index, entry] of node.entries.entries()) {
      if (parts.has(entry)) continue;
      const inner = {
        ...row,
        key: entry.key.span,
        pair: entry.key.text,
        inFlow: row.inFlow || node.flow,
      };
      const whole = this.#whole(
        joined(this.#text, node, index, { shape: 'scalar', quantity: values }),
        parts,
      );
      const key = this.#scalar(keys, entry.key, inner) as Value<unknown> | undefined;
      const value = this.#kind({ shape: 'scalar', quantity: values }, whole ?? entry.value, inner) as
        | Value<unknown>
        | undefined;
      if (key !== undefined && value !== undefined) entries.push({ key, value });
      else row.owner.broken.add(row.name);
    }
    return { uri: this.#uri, span: node.span, entries };
  }

  #empty(span: Span, row: Row, quantity: Quantity<unknown> | undefined): void {
    this.#mark(span, row, quantity, undefined);
    this.#tell(emptyValue(row, quantity));
  }

  /** `rewrites`: what the value may have been meant to be. */
  #wrongShape(node: Node, row: Row, wanted: string, rewrites: readonly string[] = []): undefined {
    if (this.#misshapen.has(node)) return undefined;
    this.#misshapen.add(node);
    this.#tell(wrongShape(node, row, wanted, rewrites));
    return undefined;
  }

  #mark(
    span: Span,
    row: Row,
    quantity: Quantity<unknown> | undefined,
    value: Value<unknown> | undefined,
  ): void {
    const { name, field, section, owner, key } = row;
    const mark: { -readonly [K in keyof Mark]: Mark[K] } = { span, key, name, field, section, owner };
    if (quantity !== undefined) mark.quantity = quantity;
    if (value !== undefined) mark.value = value;
    this.marks.push(mark);
  }

  #headOf(node: MapNode, row?: Row): Span {
    const id = node.entries.find((entry) => entry.key.text === 'id' && entry.value.kind === 'scalar');
    if (id !== undefined) return id.value.span;
    return node.entries[0]?.key.span ?? row?.key ?? node.span;
  }

  #tell(told: Told): void {
    this.findings.push({ ...told, uri: this.#uri, related: [] });
  }
}
