import { nearest } from '../quantities/nearest.ts';
import type { Quantity, Reading } from '../quantities/quantity.ts';
import type { Span } from '../text/span.ts';
import type { Kind } from './table.ts';
import type { Entry, MapNode, Node, ScalarNode } from './tree.ts';
import { quotedFor } from './writing.ts';

/** What is said of a value that a comma has cut in two, and what to write in its place. */
export interface CutFinding {
  readonly code: 'plan/comma-in-value' | 'plan/decimal-comma';
  readonly message: string;
  readonly span: Span;
  readonly rewrite: string;
}

/** A value between braces, put together again. */
export interface Joined {
  /** The value as it was meant. */
  readonly node: Node;
  /** Left out where reading the value says what is wrong with it. */
  readonly finding?: CutFinding;
  /** The entries that are parts of it. */
  readonly parts: readonly Entry[];
}

/**
 * What stood between braces before YAML cut it at its commas: `{ at: 54.43, -2.61 }` is a key `at` and a key `-2.61` without
 * a value. Undefined when the value of the entry is whole, or when it cannot be told what was meant. `names` are the keys
 * that may follow, so that one that is half typed is not taken for a part; without them, only numbers are.
 */
export function joined(
  text: string,
  { entries, flow }: MapNode,
  index: number,
  kind: Kind,
  names?: readonly string[],
): Joined | undefined {
  const { key, value } = entries[index] as Entry;
  if (!flow || value.kind !== 'scalar' || value.style !== 'plain') return undefined;
  const parts = partsBehind(text, entries, index, names);
  const last = parts.at(-1);
  if (last === undefined) return undefined;
  const span = { start: value.span.start, end: last.key.span.end };
  if (kind.shape === 'list') return listed(text, key.text, value, parts, kind.of, span);
  if (kind.shape !== 'scalar' && kind.shape !== 'either') return undefined;
  const written = text.slice(span.start, span.end);
  const whole = (content: string): ScalarNode => ({
    kind: 'scalar',
    text: content,
    span,
    content: span,
    exact: content === written,
    style: 'plain',
  });
  const quantity = kind.quantity as Quantity<unknown>;
  const reading = quantity.parse(written);
  const decimals = written.replace(/(\d),(?=\d)/g, '$1.');
  const isNumber = /^[-+]?\d+,\d{1,2}(?: ?[^\s,]+)?$/.test(written);
  const isBroken = !isSound(reading) && reading.problems.every(({ rewrite }) => rewrite === undefined);
  if ((isNumber || isBroken) && !/\d,\d{3}(?!\d)/.test(written) && isSound(quantity.parse(decimals))) {
    const message = `Decimals are written with a point: ${decimals}.`;
    const finding = {
      code: 'plan/decimal-comma',
      message,
      span,
      rewrite: quotedFor(decimals, 'plain', true),
    } as const;
    return { node: whole(decimals), finding, parts };
  }
  if (isSound(reading)) {
    const rewrite = quotedFor(written, 'plain', true);
    const message = `A value that has a comma in it stands between quotes here: ${rewrite}.`;
    return { node: whole(written), finding: { code: 'plan/comma-in-value', message, span, rewrite }, parts };
  }
  return isBroken && !/\d,\d/.test(written) ? undefined : { node: whole(written), parts };
}

/** The key that a text without a value is probably the beginning of, or a misspelling of. */
export function keyBegunBy(typed: string, names: readonly string[]): string | undefined {
  return names.find((name) => name.startsWith(typed)) ?? nearest(typed, names);
}

function isSound({ value, problems }: Reading<unknown>): boolean {
  return (
    value !== undefined && problems.every(({ severity }) => severity === 'warning' || severity === 'hint')
  );
}

/** The entries right behind one that are no keys: texts without a value, cut off by nothing but a comma. */
function partsBehind(
  text: string,
  entries: readonly Entry[],
  index: number,
  names?: readonly string[],
): readonly Entry[] {
  const parts: Entry[] = [];
  let end = (entries[index] as Entry).value.span.end;
  for (let at = index + 1; at < entries.length; at += 1) {
    const entry = entries[at] as Entry;
    const { key, value } = entry;
    const isKey =
      names === undefined ? !/^[-+.\d]/.test(key.text) : keyBegunBy(key.text, names) !== undefined;
    if (isKey || value.kind !== 'empty' || key.style !== 'plain') break;
    if (text.slice(end, key.span.start).trim() !== ',' || text[key.span.end] === ':') break;
    parts.push(entry);
    end = key.span.end;
  }
  return parts;
}

function listed(
  text: string,
  name: string,
  first: ScalarNode,
  parts: readonly Entry[],
  of: Kind,
  span: Span,
): Joined | undefined {
  if (of.shape !== 'scalar' && of.shape !== 'reference') return undefined;
  const items = [first, ...parts.map(({ key }) => key)];
  const rewrite = `[${items.map((item) => text.slice(item.span.start, item.span.end)).join(', ')}]`;
  const message = `Several values stand between brackets: \`${name}: ${rewrite}\`.`;
  return {
    node: { kind: 'sequence', span, items, flow: true },
    finding: { code: 'plan/comma-in-value', message, span, rewrite },
    parts,
  };
}
