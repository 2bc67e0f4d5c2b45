import { type Anatomy, dissect } from '../../plan/anatomy.ts';
import {
  closingQuote,
  hasContent,
  indexOfRow,
  isBlank,
  type Row,
  rowsOf,
  trimmedEnd,
  withoutBareReturns,
} from '../../plan/rows.ts';
import type { Span } from '../../text/span.ts';
import type { Quote } from '../scalarText.ts';
import { climb, type Step, siblingsBelow, stepsOf } from './climb.ts';
import { type FlowPlace, flowPlace } from './flow.ts';
import { openQuoteEnd } from './openQuote.ts';

/**
 * Where the cursor is, found from lines and indentation alone: the line is half typed, and the parser may have given it
 * up. `path` leads from the document to the place; what may stand there the table of fields says.
 */
export interface Cursor {
  readonly text: string;
  readonly offset: number;
  /** `line`: at the start of a line; `item`: behind a dash; `value`: behind the colon of a key; `entry`: in braces; `flow item`: in brackets. */
  readonly place: 'line' | 'item' | 'value' | 'entry' | 'flow item';
  readonly path: readonly Step[];
  /** What is replaced: the whole scalar or key, between its quotes. */
  readonly token: Span;
  /** The token up to the cursor. */
  readonly typed: string;
  readonly quote: Quote;
  readonly quoteClosed: boolean;
  readonly colonFollows: boolean;
  /** Whether it lies between brackets or braces. */
  readonly inFlow: boolean;
  /** Keys of the same mapping, or items of the same list between brackets. */
  readonly siblings: ReadonlySet<string>;
  /** The column at which a key or an item on this line belongs. */
  readonly column: number;
  /** The innermost bracket, when it stands on the line of the cursor and closes there: the span between both. */
  readonly inside?: Span;
  readonly row: Row;
  readonly rows: readonly Row[];
}

/** How many lines further up a collection in brackets may have begun. */
const farthest = 300;

/** The cursor at an offset; undefined where nothing can be offered: in comments, in running text, behind a finished value. */
export function cursorAt(original: string, offset: number): Cursor | undefined {
  const text = withoutBareReturns(original);
  const rows = rowsOf(text);
  if (text === '' || text.endsWith('\n')) rows.push(emptyRow(text.length));
  const index = indexOfRow(rows, offset);
  const row = rows[index];
  if (row === undefined) return undefined;
  const line: Line = { text, offset, rows, index, row, anatomy: dissect(text, row) };
  return inBrackets(line) ?? (bracketsClosed(line) ? undefined : inBlock(line));
}

interface Line {
  readonly text: string;
  readonly offset: number;
  readonly rows: readonly Row[];
  readonly index: number;
  readonly row: Row;
  readonly anatomy: Anatomy;
}

function emptyRow(at: number): Row {
  return { start: at, end: at, next: at, indent: 0, body: at, first: 0 };
}

/** Whether the value of the cursor's line is a collection in brackets that begins before the cursor. */
function bracketsClosed({ anatomy, offset }: Line): boolean {
  return anatomy.form === 'brackets' && offset > anatomy.value.start;
}

function inBrackets(line: Line): Cursor | undefined {
  const { text, offset, rows, index, row } = line;
  const start = openingOf(line);
  if (start === undefined) return undefined;
  const { anatomy, flow } = start;
  const path = [
    ...climb(text, rows, start.index, anatomy).path,
    ...stepsOf(text, rows[start.index] as Row, anatomy),
  ];
  for (const [level, frame] of flow.frames.entries()) {
    if (frame.open === '[') path.push({ kind: 'item', at: flow.frames[level + 1]?.at ?? flow.token.start });
    else if (frame.key !== undefined) path.push({ kind: 'key', name: frame.key, at: frame.at });
  }
  const top = flow.frames.at(-1);
  if (top === undefined) return undefined;
  const place = top.open === '[' ? 'flow item' : top.key === undefined ? 'entry' : 'value';
  const inside =
    top.open === '[' && top.at >= row.start && flow.close !== undefined && flow.close <= row.end
      ? { inside: { start: top.at + 1, end: flow.close } }
      : {};
  return {
    text,
    offset,
    place,
    path,
    token: flow.token,
    typed: text.slice(flow.token.start, offset),
    quote: flow.quote,
    quoteClosed: flow.quoteClosed,
    colonFollows: flow.colonFollows,
    inFlow: true,
    siblings: top.open === '[' ? new Set(top.items) : top.keys,
    column: 0,
    ...inside,
    row,
    rows: rows.slice(0, index + 1),
  };
}

/** The line on which the outermost bracket around the cursor opens. */
function openingOf(
  line: Line,
): { readonly index: number; readonly anatomy: Anatomy; readonly flow: FlowPlace } | undefined {
  const { text, offset, rows, index, row } = line;
  let found: { index: number; anatomy: Anatomy; flow: FlowPlace } | undefined;
  let limit = row.first === 0 ? offset - row.start : row.indent;
  for (let at = index; at >= 0 && at > index - farthest; at -= 1) {
    const above = rows[at] as Row;
    if (at !== index && (!hasContent(above) || above.indent >= limit)) continue;
    const anatomy = at === index ? line.anatomy : dissect(text, above);
    const opens = anatomy.form === 'brackets' && anatomy.value.start < offset;
    if (opens && (at === index || anatomy.open !== '')) {
      const flow = flowPlace(text, anatomy.value.start, offset, flowEnd(rows, index, above.indent));
      if (flow !== undefined) found = { index: at, anatomy, flow };
    }
    limit = Math.min(limit, at === index ? limit : above.indent);
    if (limit === 0) break;
  }
  return found;
}

/** Where a collection in brackets ends at the latest: before the next line that is not indented more than its first. */
function flowEnd(rows: readonly Row[], index: number, indent: number): number {
  let last = index;
  for (let at = index + 1; at < rows.length && at < index + farthest; at += 1) {
    const row = rows[at] as Row;
    if (row.indent <= indent && row.first !== 0 && row.first !== 93 && row.first !== 125) break;
    last = at;
  }
  return (rows[last] as Row).end;
}

function inBlock(line: Line): Cursor | undefined {
  const { text, offset, rows, index, row, anatomy } = line;
  const { key, dashes, value, form } = anatomy;
  if (form === 'block' || form === 'alias' || isInComment(line)) return undefined;
  const common = { text, offset, inFlow: false, row, rows } as const;
  if (key !== undefined && offset > key.colon) {
    const scalar = scalarToken(line);
    if (scalar === undefined) return undefined;
    const { path } = climb(text, rows, index, anatomy);
    const steps = [...path, ...stepsOf(text, row, anatomy)];
    return {
      ...common,
      ...scalar,
      place: 'value',
      path: steps,
      colonFollows: false,
      siblings: new Set(),
      column: 0,
    };
  }
  const isEmpty = key === undefined && form === 'none';
  const begins = key?.start ?? value.start;
  if (!isEmpty && offset < begins) return undefined;
  // A caret in the blanks between two dashes, or before them, begins nothing.
  if (isEmpty && dashes.length > 0 && offset <= row.start + (dashes.at(-1) as number)) return undefined;
  const column = isEmpty ? offset - row.start : anatomy.column;
  const here: Anatomy = { ...anatomy, column };
  const above = climb(text, rows, index, here);
  if (above.inText) return undefined;
  const items = dashes.map((dash) => ({ kind: 'item', at: row.start + dash }) as const);
  const isItem = dashes.length > 0;
  const wanted = isItem ? column : (above.align ?? column);
  const below = siblingsBelow(text, rows, index, wanted, isItem ? (dashes.at(-1) as number) : -1);
  const scalar = key === undefined ? scalarToken(line) : keyToken(line, key);
  if (scalar === undefined) return undefined;
  return {
    ...common,
    ...scalar,
    place: isItem ? 'item' : 'line',
    path: [...above.path, ...items],
    colonFollows: key !== undefined || (!scalar.quoteClosed && text[scalar.token.end] === ':'),
    siblings: new Set([...(isItem ? [] : above.siblings), ...below]),
    column: wanted,
  };
}

type Token = Pick<Cursor, 'token' | 'typed' | 'quote' | 'quoteClosed'>;

function keyToken({ text, offset }: Line, key: { start: number; colon: number }): Token | undefined {
  const end = trimmedEnd(text, { start: key.start, end: key.colon });
  const first = text[key.start];
  const quote: Quote = first === '"' || first === "'" ? first : '';
  const token = { start: key.start + quote.length, end: end - quote.length };
  if (offset < token.start || offset > token.end) return undefined;
  return { token, typed: text.slice(token.start, offset), quote, quoteClosed: true };
}

/** The scalar at the cursor, which stands in it, at its end or in the blanks behind it. */
function scalarToken({ text, offset, row, anatomy }: Line): Token | undefined {
  const { value, form } = anatomy;
  if (form === 'none' || offset < value.start) {
    const start = offset;
    const end = form === 'none' ? offset : value.end;
    return { token: { start, end }, typed: '', quote: '', quoteClosed: true };
  }
  const first = text[value.start];
  if (first === '"' || first === "'") {
    const close = closingQuote(text, value.start, row.end);
    const start = value.start + 1;
    // Behind a colon the quote cannot open a key.
    const open = anatomy.key === undefined ? openQuoteEnd(text, offset, value.end, '') : value.end;
    const token = { start, end: close === -1 ? Math.max(open, offset) : close };
    if (offset < token.start || offset > token.end) return undefined;
    return { token, typed: text.slice(token.start, offset), quote: first, quoteClosed: close !== -1 };
  }
  const token = { start: value.start, end: Math.max(value.end, offset) };
  return { token, typed: text.slice(value.start, offset), quote: '', quoteClosed: true };
}

/** Whether a `#` that begins a comment stands before the cursor; one between quotes does not. */
function isInComment({ text, offset, row, anatomy }: Line): boolean {
  const { value, form } = anatomy;
  let from = row.body;
  if (form === 'quoted') {
    const close = closingQuote(text, value.start, row.end);
    if (close === -1 || offset <= close) return false;
    from = close + 1;
  }
  for (let at = text.indexOf('#', from); at !== -1 && at < offset; at = text.indexOf('#', at + 1)) {
    if (at === row.body || isBlank(text.charCodeAt(at - 1))) return true;
  }
  return false;
}
