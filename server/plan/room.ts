import type { Facts } from '../text/finding.ts';
import { lineStart } from '../text/lines.ts';
import type { Section } from './table.ts';
import type { MapNode } from './tree.ts';

/**
 * Where a key that a section lacks would be inserted, as facts for the mend: before its first key, or behind that when the
 * table has it further down. `at` is an offset of the text; `column` that of the keys; `named` the name of the thing.
 */
export function roomFor(text: string, name: string, section: Section, node: MapNode): Facts {
  const [first] = node.entries;
  const { flow } = node;
  if (first === undefined) return { at: node.span.start + 1, before: true, flow };
  const order = Object.keys(section.fields);
  const { value, key, span } = first;
  const isLine = value.kind === 'scalar' && !text.slice(span.start, span.end).includes('\n');
  const before = order.indexOf(name) < order.indexOf(key.text) || !(isLine || flow);
  const title = node.entries.find((entry) => entry.key.text === 'name')?.value;
  return {
    at: before ? span.start : span.end,
    before,
    flow,
    column: span.start - lineStart(text, span.start),
    ...(title?.kind === 'scalar' ? { named: title.text } : {}),
  };
}
