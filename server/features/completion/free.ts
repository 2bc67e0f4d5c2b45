import type { Quantity, Suggestion } from '../../quantities/quantity.ts';
import { shutterRange } from '../../quantities/shutterRange.ts';
import { effectTable } from '../../schedule/effects.ts';
import { thresholds } from '../../schedule/thresholds.ts';
import type { Cursor } from './cursor.ts';
import { type CompletionItem, type CompletionOptions, ordered } from './item.ts';
import { placedKey, placedScalar } from './placed.ts';

interface FreeKey {
  readonly text: string;
  readonly detail?: string;
  readonly documentation?: string;
}

/** The keys that make sense in a mapping whose keys are free. */
export function freeKeyItems(
  cursor: Cursor,
  field: string,
  keys: Quantity<unknown>,
  options: CompletionOptions,
): readonly CompletionItem[] {
  return freeKeys(field, keys, cursor.typed, options)
    .filter(({ text }) => !cursor.siblings.has(text))
    .map((key, index) => ({
      ...placedKey(cursor, key.text, ': '),
      label: key.text,
      ...(key.detail === undefined ? {} : { detail: key.detail }),
      ...(key.documentation === undefined ? {} : { documentation: key.documentation }),
      kind: field === 'checks' ? ('code' as const) : ('key' as const),
      sort: ordered(1, index),
    }));
}

function freeKeys(
  field: string,
  keys: Quantity<unknown>,
  typed: string,
  { rules = [] }: CompletionOptions,
): readonly FreeKey[] {
  if (field === 'checks') {
    const sorted = [...rules].sort((a, b) => (a.code < b.code ? -1 : 1));
    return sorted.map(({ code, severity, doc }) => ({ text: code, detail: severity, documentation: doc }));
  }
  if (field === 'thresholds') {
    return thresholds.map(({ name, value, unit, doc }) => ({
      text: name,
      detail: `${written(value)} ${unit}`,
      documentation: doc,
    }));
  }
  if (field === 'effects') {
    return effectTable.map((row) => ({
      text: row.water === undefined ? row.effect : `${row.effect} ${row.water}`,
      detail: rangeText(row),
    }));
  }
  return keys
    .complete(typed)
    .map(({ text, detail }) => ({ text, ...(detail === undefined ? {} : { detail }) }));
}

/** The value that a free key has when nobody sets it, where there is one. */
export function freeValueItems(
  cursor: Cursor,
  field: string,
  key: string,
  values: Quantity<unknown>,
): readonly CompletionItem[] {
  return freeValues(field, key, values, cursor.typed).map((value, index) => ({
    ...placedScalar(cursor, value.text),
    label: value.text,
    ...(value.detail === undefined ? {} : { detail: value.detail }),
    kind: field === 'checks' ? ('word' as const) : ('value' as const),
    sort: ordered(2, index),
  }));
}

function freeValues(
  field: string,
  key: string,
  values: Quantity<unknown>,
  typed: string,
): readonly Suggestion[] {
  const own = values.complete(typed);
  if (field === 'thresholds') {
    const threshold = thresholds.find(({ name }) => name === key);
    if (threshold === undefined) return own;
    const unit = threshold.unit === '×' || threshold.unit === 'share' ? '' : ` ${threshold.unit}`;
    return [{ text: written(threshold.value) + unit, detail: 'as it is when left out' }];
  }
  if (field !== 'effects') return own;
  const row = effectTable.find(
    ({ effect, water }) => key === (water === undefined ? effect : `${effect} ${water}`),
  );
  const usual = row === undefined ? undefined : rangeText(row);
  if (usual === undefined || shutterRange.parse(usual).value === undefined) return own;
  return [{ text: usual, detail: 'as it is when left out' }, ...own.filter(({ text }) => text !== usual)];
}

function rangeText({ shortest, longest }: { readonly shortest: number; readonly longest: number }): string {
  if (!Number.isFinite(longest)) return `from ${written(shortest)} s`;
  return shortest === 0 ? `up to ${shutterText(longest)}` : shutterRange.format({ shortest, longest });
}

function shutterText(seconds: number): string {
  return seconds < 1 ? `1/${Math.round(1 / seconds)} s` : `${written(seconds)} s`;
}

/** `1/3`, `0.3`, `90`: as it would be typed. */
function written(value: number): string {
  return Math.abs(value * 3 - Math.round(value * 3)) < 1e-9 && !Number.isInteger(value)
    ? `${Math.round(value * 3)}/3`
    : String(value);
}
