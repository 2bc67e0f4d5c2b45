import type { Analysis } from '../../analysis.ts';
import type { Target } from '../../plan/table.ts';
import { lensChoice } from '../../quantities/focal.ts';
import { moment } from '../../quantities/moment.ts';
import { momentRange } from '../../quantities/momentRange.ts';
import type { Quantity } from '../../quantities/quantity.ts';
import { closedWords } from '../words.ts';
import type { Cursor } from './cursor.ts';
import type { Expected } from './expected.ts';
import { canBeMounted, shotAt, stackProposals, timeWith } from './filters.ts';
import { offeredIds } from './ids.ts';
import { type CompletionItem, type CompletionKind, type CompletionOptions, ordered } from './item.ts';
import { kitPaths } from './kitPaths.ts';
import { type TimedSuggestion, withTimes } from './moments.ts';
import { placed, placedScalar } from './placed.ts';

/** Focal lengths that zooms are usually set to, in millimetres. Common practice, no source. */
const usualFocals = [14, 16, 18, 20, 24, 28, 35, 50, 70, 85, 100, 135, 200, 300, 400];

interface Context {
  readonly analysis: Analysis;
  readonly cursor: Cursor;
  readonly options: CompletionOptions;
}

interface Value extends TimedSuggestion {
  readonly kind: CompletionKind;
}

/** What may be written as one scalar, or as the id of something declared. `dash`: as a new item of a list. */
export function scalarItems(context: Context, expected: Expected, dash: boolean): readonly CompletionItem[] {
  const { cursor } = context;
  return valuesFor(context, expected).map((value, index) => ({
    ...placedScalar(cursor, value.text, { dash }),
    label: value.text.trim(),
    ...(value.detail === undefined ? {} : { detail: value.detail }),
    ...(value.documentation === undefined ? {} : { documentation: value.documentation }),
    kind: value.kind,
    sort: ordered(2, index),
  }));
}

/** What may be written behind the key of a list: its items, each in brackets; for filters whole stacks too. */
export function listItems(context: Context, expected: Expected): readonly CompletionItem[] {
  const { cursor } = context;
  const items = valuesFor(context, expected).map((value, index): CompletionItem => {
    const inner = placedScalar({ ...cursor, inFlow: true }, value.text);
    return {
      ...placed(cursor, `[${inner.text.trim()}]`),
      filter: value.text,
      label: value.text.trim(),
      ...(value.detail === undefined ? {} : { detail: value.detail }),
      kind: value.kind,
      sort: ordered(2, index),
    };
  });
  return [...stackItems(context, expected), ...items];
}

/** Whole stacks of filters, in place of all that stands between the brackets. */
export function stackItems({ analysis, cursor }: Context, expected: Expected): readonly CompletionItem[] {
  if (expected.kind.shape !== 'reference' || expected.kind.target !== 'filter' || cursor.quote !== '')
    return [];
  const here = shotAt(analysis, cursor.path, cursor.offset);
  const inBrackets = cursor.place === 'flow item';
  if (here === undefined || (inBrackets && cursor.inside === undefined)) return [];
  const span = cursor.inside ?? cursor.token;
  const written = analysis.text.slice(span.start, span.end);
  return stackProposals(here, analysis, [...cursor.siblings]).map((stack, index) => ({
    ...(inBrackets ? { span, text: stack.ids.join(', ') } : placed(cursor, `[${stack.ids.join(', ')}]`)),
    label: stack.label,
    detail: stack.detail,
    documentation: 'A stack from the kit that gives the effect of this shot.',
    kind: 'stack',
    sort: ordered(0, index),
    filter: written.trim() === '' ? stack.label : `${written} ${stack.label}`,
    ...(stack.additional.length === 0 ? {} : { additional: stack.additional }),
  }));
}

function valuesFor(context: Context, expected: Expected): readonly Value[] {
  const { analysis, cursor } = context;
  const { kind } = expected;
  if (kind.shape === 'reference') return referenceValues(context, kind.target);
  if (kind.shape !== 'scalar' && kind.shape !== 'either') return [];
  const quantity = kind.quantity as Quantity<unknown>;
  if (kind.shape === 'either') {
    return kitPaths(analysis.uri, context.options.kits ?? []).map((text) => ({ text, kind: 'file' }));
  }
  if ((quantity as unknown) === lensChoice) return lensValues(analysis, cursor.typed);
  const closed = closedWords(quantity) !== undefined;
  const own = quantity
    .complete(cursor.typed)
    .map((suggestion): Value => ({ ...suggestion, kind: closed ? 'word' : 'value' }));
  const isMoment = (quantity as unknown) === moment || (quantity as unknown) === momentRange;
  if (!isMoment) return own;
  const shots = afterShots(context);
  if (shots.length > 0) return shots;
  return withTimes(own, analysis, cursor).map((value) => ({ ...value, kind: 'value' as const }));
}

function referenceValues({ analysis, cursor }: Context, target: Target): readonly Value[] {
  const own = target === 'spot' ? spotIdAround(analysis, cursor) : undefined;
  const here = target === 'filter' ? shotAt(analysis, cursor.path, cursor.offset) : undefined;
  return offeredIds(analysis, target)
    .filter(({ id }) => id !== own && !cursor.siblings.has(id))
    .filter(({ id }) => here === undefined || canBeMounted(here, analysis, id))
    .map(({ id, detail }) => {
      const time = here === undefined ? undefined : timeWith(here, analysis, [...cursor.siblings, id]);
      const shown = [detail, time === undefined ? undefined : `then ${time}`].filter(
        (part) => part !== undefined,
      );
      return { text: id, kind: 'id', ...(shown.length === 0 ? {} : { detail: shown.join('; ') }) };
    });
}

/** The id of the spot whose fields the cursor is among. */
function spotIdAround(analysis: Analysis, cursor: Cursor): string | undefined {
  const item = cursor.path.find((step) => step.kind === 'item');
  const spots = (analysis.plan?.model.spots ?? []).filter(
    ({ self }) =>
      self.uri === analysis.uri && self.span.start >= (item?.at ?? 0) && self.span.start <= cursor.offset,
  );
  return spots.at(-1)?.id?.value;
}

/** Lenses; behind the id of a zoom and `@` its focal lengths. */
function lensValues(analysis: Analysis, typed: string): readonly Value[] {
  const at = typed.indexOf('@');
  const lenses = offeredIds(analysis, 'lens').map(
    ({ id, detail }): Value => ({
      text: id,
      kind: 'id',
      ...(detail === undefined ? {} : { detail }),
    }),
  );
  const wanted = at < 0 ? undefined : typed.slice(0, at).trim();
  const zooms = [...analysis.bag.lenses].flatMap(([id, lens]) => {
    const focal = lens.focal?.value;
    if (focal === undefined || focal.longestMillimetres <= focal.shortestMillimetres) return [];
    if (wanted !== undefined && wanted !== id) return [];
    return focalsOf(focal.shortestMillimetres, focal.longestMillimetres).map(
      (millimetres): Value => ({
        text: `${id} @ ${millimetres} mm`,
        kind: 'value',
        detail: lens.focal?.text ?? '',
      }),
    );
  });
  return wanted === undefined ? [...lenses, ...zooms] : zooms;
}

function focalsOf(shortest: number, longest: number): readonly number[] {
  const between = usualFocals.filter((focal) => focal > shortest && focal < longest);
  return [shortest, ...between, longest];
}

/** Behind `after`: the shots of the plan. */
function afterShots({ analysis, cursor }: Context): readonly Value[] {
  const { typed } = cursor;
  const word = typed.toLowerCase().lastIndexOf('after ');
  const isAtStart = word >= 0 && /^$|[\s,.]$/.test(typed.slice(0, word).slice(-1));
  if (!isAtStart || /[,.]/.test(typed.slice(word))) return [];
  const head = typed.slice(0, word + 'after '.length);
  const own = shotAt(analysis, cursor.path, cursor.offset)?.shot.shot.id?.value;
  return offeredIds(analysis, 'shot')
    .filter(({ id }) => id !== own)
    .map(({ id, detail }) => ({ text: head + id, kind: 'id', ...(detail === undefined ? {} : { detail }) }));
}
