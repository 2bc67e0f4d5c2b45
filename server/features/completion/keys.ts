import { dissect } from '../../plan/anatomy.ts';
import { hasContent } from '../../plan/rows.ts';
import type { Field, Kind, Section } from '../../plan/table.ts';
import { type Step, stepsOf } from './climb.ts';
import type { Cursor } from './cursor.ts';
import { type CompletionItem, ordered } from './item.ts';
import { placedKey } from './placed.ts';

/** The keys of a section that are not written yet: what is missing first, then in the order of the table. */
export function keyItems(cursor: Cursor, section: Section, dash: boolean): readonly CompletionItem[] {
  const style = blockStyle(cursor);
  return Object.entries(section.fields).flatMap(([name, field], index) => {
    if (cursor.siblings.has(name)) return [];
    const behind = behindKey(field.kind, cursor, style, dash);
    return [
      {
        ...placedKey(cursor, name, behind.text, { dash, ...behind }),
        label: name,
        detail: field.required === true ? `${kindName(field.kind)}, needed` : kindName(field.kind),
        documentation: documentationOf(field),
        kind: 'key' as const,
        sort: ordered(field.required === true ? 0 : 1, index),
      },
    ];
  });
}

function documentationOf(field: Field): string {
  const kind: Kind = field.kind;
  const quantity = kind.shape === 'scalar' || kind.shape === 'either' ? kind.quantity : undefined;
  return quantity === undefined ? field.doc : `${field.doc}\n\n${quantity.documentation}`;
}

/** A word or two for what a key takes. */
function kindName(kind: Kind): string {
  switch (kind.shape) {
    case 'scalar':
    case 'either':
      return kind.quantity.name;
    case 'reference':
      return `id of a ${kind.target}`;
    case 'list':
      return `list: ${kindName(kind.of)}`;
    case 'section':
      return kind.section.name;
    case 'dictionary':
      return `${kind.keys.name}: ${kind.values.name}`;
  }
}

/** How blocks are indented in this document. */
interface BlockStyle {
  /** Columns from a key to the keys in it. */
  readonly step: number;
  /** Columns from a key to the dashes of its list. */
  readonly dash: number;
  readonly lineEnd: string;
}

function blockStyle({ text, rows }: Cursor): BlockStyle {
  const indented = rows.find((row) => hasContent(row) && row.indent > 0);
  const step = Math.min(indented?.indent ?? 2, 8);
  let dash: number | undefined;
  let keyColumn: number | undefined;
  for (const row of rows) {
    if (!hasContent(row)) continue;
    const anatomy = dissect(text, row);
    const first = anatomy.dashes[0];
    if (first !== undefined && keyColumn !== undefined && first >= keyColumn) {
      dash = first - keyColumn;
      break;
    }
    keyColumn = anatomy.key !== undefined && anatomy.form === 'none' ? anatomy.column : undefined;
  }
  return { step, dash: dash ?? step, lineEnd: text.includes('\r\n') ? '\r\n' : '\n' };
}

/** The key without a value on the line above, at the column of this one, in a document whose lists are not indented. */
export function keyAwaitingItems(cursor: Cursor): Step | undefined {
  const { text, row, rows, column } = cursor;
  const above = rows.filter((other) => hasContent(other) && other.start < row.start).at(-1);
  if (above === undefined) return undefined;
  const anatomy = dissect(text, above);
  const step = stepsOf(text, above, anatomy).at(-1);
  if (step?.kind !== 'key' || anatomy.form !== 'none' || anatomy.column !== column) return undefined;
  return blockStyle(cursor).dash === 0 ? step : undefined;
}

/** What is certain to follow a key: its colon, the brackets of a list, the line and the indentation of what is in it. */
function behindKey(
  kind: Kind,
  cursor: Cursor,
  style: BlockStyle,
  dash: boolean,
): { readonly text: string; readonly snippet?: true } {
  const column = cursor.column + (dash ? 2 : 0);
  const below = (by: number) => `:${style.lineEnd}${' '.repeat(column + by)}`;
  const isMapping = kind.shape === 'section' || kind.shape === 'dictionary';
  if (kind.shape === 'list') {
    const of: Kind = kind.of;
    if (of.shape !== 'section') return { text: ': [$1]', snippet: true };
    if (cursor.inFlow) return { text: ': [{ $1 }]', snippet: true };
    const required = Object.entries((of.section as Section).fields).find(
      ([, field]) => field.required === true,
    );
    return { text: `${below(style.dash)}- ${required === undefined ? '' : `${required[0]}: `}` };
  }
  if (isMapping && cursor.inFlow) return { text: ': { $1 }', snippet: true };
  return { text: isMapping ? below(style.step) : ': ' };
}
