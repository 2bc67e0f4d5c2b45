import type { Analysis } from '../analysis.ts';
import { planSection } from '../plan/fields.ts';
import { kitSection } from '../plan/kitFields.ts';
import type { Kind, Section } from '../plan/table.ts';
import { sizeLimit } from '../plan/yaml.ts';
import type { Quantity } from '../quantities/quantity.ts';
import { type Cursor, cursorAt } from './completion/cursor.ts';
import { type Expected, expectedAt } from './completion/expected.ts';
import { freeKeyItems, freeValueItems } from './completion/free.ts';
import type { CompletionItem, CompletionOptions } from './completion/item.ts';
import { keyAwaitingItems, keyItems } from './completion/keys.ts';
import { listItems, scalarItems, stackItems } from './completion/values.ts';

export type { CompletionItem, CompletionKind, CompletionOptions } from './completion/item.ts';

/**
 * What may be written at an offset: keys of the section that are still missing, spellings of the kind of scalar, ids
 * that are declared. Where the cursor is follows from lines and indentation alone, so that it works on a line that is
 * half typed. Every item says which span it replaces and brings its own line ends and indentation.
 */
export function completion(
  analysis: Analysis,
  offset: number,
  options: CompletionOptions = {},
): readonly CompletionItem[] {
  if (analysis.text.length > sizeLimit) return [];
  const cursor = cursorAt(analysis.text, offset);
  if (cursor === undefined) return [];
  const document: Section = analysis.kind === 'plan' ? planSection : kitSection;
  const expected = expectedAt(document, cursor.path);
  const offered = expected === undefined ? [] : offer({ analysis, cursor, options }, expected);
  return [...offered, ...itemsOfKeyAbove({ analysis, cursor, options }, document)];
}

interface Context {
  readonly analysis: Analysis;
  readonly cursor: Cursor;
  readonly options: CompletionOptions;
}

function offer(context: Context, expected: Expected): readonly CompletionItem[] {
  const { cursor } = context;
  const { kind } = expected;
  const mayBeKey = cursor.place !== 'value';
  switch (kind.shape) {
    case 'section':
      return mayBeKey && cursor.place !== 'flow item' ? keyItems(cursor, kind.section as Section, false) : [];
    case 'either': {
      const keys = mayBeKey ? keyItems(cursor, kind.section as Section, false) : [];
      return cursor.place === 'entry' || cursor.colonFollows
        ? keys
        : [...scalarItems(context, expected, false), ...keys];
    }
    case 'dictionary':
      return mayBeKey
        ? freeKeyItems(cursor, expected.name ?? '', kind.keys as Quantity<unknown>, context.options)
        : [];
    case 'list':
      return offerList(context, expected, kind.of as Kind);
    case 'reference':
      if (cursor.colonFollows || cursor.place === 'entry') return [];
      return cursor.place === 'flow item'
        ? [...stackItems(context, expected), ...scalarItems(context, expected, false)]
        : scalarItems(context, expected, false);
    case 'scalar':
      if (cursor.colonFollows || cursor.place === 'entry') return [];
      return expected.freeKey === undefined
        ? scalarItems(context, expected, false)
        : freeValueItems(cursor, expected.name ?? '', expected.freeKey, kind.quantity as Quantity<unknown>);
  }
}

/** Where lists are not indented, a line below the key of a list and at its column may be an item of it as well. */
function itemsOfKeyAbove(context: Context, document: Section): readonly CompletionItem[] {
  const { cursor } = context;
  const key = cursor.place === 'line' && !cursor.colonFollows ? keyAwaitingItems(cursor) : undefined;
  if (key === undefined) return [];
  const inside: Cursor = { ...cursor, path: [...cursor.path, key], siblings: new Set() };
  const expected = expectedAt(document, inside.path);
  if (expected?.kind.shape !== 'list') return [];
  return offerList({ ...context, cursor: inside }, expected, expected.kind.of as Kind).map((item) => ({
    ...item,
    sort: `3${item.sort}`,
  }));
}

/** At a list itself, not in one of its items: behind its key, or on a line below that has no dash yet. */
function offerList(context: Context, expected: Expected, of: Kind): readonly CompletionItem[] {
  const { cursor } = context;
  const item: Expected = { ...expected, kind: of };
  if (cursor.place === 'value') return of.shape === 'section' ? [] : listItems(context, item);
  if (cursor.place === 'entry' && of.shape === 'section')
    return keyItems(cursor, of.section as Section, false);
  if (cursor.place !== 'line') return [];
  return of.shape === 'section'
    ? keyItems(cursor, of.section as Section, true)
    : scalarItems(context, item, true);
}
