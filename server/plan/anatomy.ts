import { beginsItem, indexWithin, isBlank, isBreak, keyColon, type Row, trimmedEnd } from './rows.ts';

/** What kind of value begins on a line. `none`: there is none, or only a comment. */
export type Form = 'none' | 'plain' | 'quoted' | 'brackets' | 'block' | 'alias';

/** Why a line cannot stand as it is, whatever is around it. */
export type Flaw =
  /** A closing bracket that does not fit the opening one. */
  | 'mismatch'
  /** Text behind a quote or bracket that has closed the value. */
  | 'trailing'
  /** A character that cannot begin a value without quotes. */
  | 'reserved'
  /** A colon and a space inside a value without quotes. */
  | 'colon';

/** The parts of one line of block YAML. Offsets count in the text. */
export interface Anatomy {
  /** The columns of the dashes that begin it. */
  readonly dashes: readonly number[];
  /** The column where its key, or else its value, starts. */
  readonly column: number;
  /** Where its key starts and where the colon behind it stands. */
  readonly key: { readonly start: number; readonly colon: number } | undefined;
  readonly form: Form;
  /** The value without blanks and comment around it. */
  readonly value: { readonly start: number; readonly end: number };
  /** What must still close, the outermost first: `}`, `]`, `"` or `'`. */
  readonly open: string;
  readonly flaw: Flaw | undefined;
}

/** Takes one line apart. What a quote or bracket left open holds further down is not looked at. */
export function dissect(text: string, row: Row): Anatomy {
  const dashes: number[] = [];
  let at = row.body;
  while (beginsItem(text, { ...row, body: at, first: text.charCodeAt(at) }) && at < row.end) {
    dashes.push(at - row.start);
    at = afterBlanks(text, at + 1, row.end);
  }
  at = afterProperties(text, at, row.end);
  const colon = keyColon(text, at, row.end);
  const key = colon === -1 ? undefined : { start: at, colon };
  const begins =
    key === undefined ? at : afterProperties(text, afterBlanks(text, colon + 1, row.end), row.end);
  return { dashes, column: at - row.start, key, ...valueAt(text, begins, row) };
}

function valueAt(text: string, start: number, row: Row): Pick<Anatomy, 'form' | 'value' | 'open' | 'flaw'> {
  const first = text[start];
  const plainEnd = trimmedEnd(text, { start, end: commentStart(text, start, row.end) });
  const whole = { start, end: plainEnd };
  if (start >= row.end || plainEnd <= start || first === undefined) {
    return { form: 'none', value: { start, end: start }, open: '', flaw: undefined };
  }
  if (first === '|' || first === '>') {
    const flaw = /^[|>][-+0-9]*$/.test(text.slice(start, plainEnd)) ? undefined : 'reserved';
    return { form: flaw === undefined ? 'block' : 'plain', value: whole, open: '', flaw };
  }
  if ('[{"\''.includes(first)) {
    const scan = scanFlow(text, start, row.end, '');
    const form = first === '[' || first === '{' ? 'brackets' : 'quoted';
    const end = scan.open === '' && !scan.mismatch ? scan.at : openEnd(text, start, scan, row);
    const flaw = scan.mismatch
      ? 'mismatch'
      : scan.open === '' && hasMore(text, scan.at, row.end)
        ? 'trailing'
        : undefined;
    return { form, value: { start, end }, open: scan.open, flaw };
  }
  if (first === '*' && !isBreak(text.charCodeAt(start + 1))) {
    return { form: 'alias', value: whole, open: '', flaw: undefined };
  }
  if ('@`%,]}*&'.includes(first) || ('-?:'.includes(first) && isEnd(text, start + 1, row.end))) {
    return { form: 'plain', value: whole, open: '', flaw: 'reserved' };
  }
  return {
    form: 'plain',
    value: whole,
    open: '',
    flaw: holdsColon(text, start, plainEnd) ? 'colon' : undefined,
  };
}

/** Where a value ends that is left open: before its comment. What looks like one inside a quote is taken for one. */
function openEnd(text: string, start: number, scan: FlowScan, row: Row): number {
  const quoted = scan.open.endsWith('"') || scan.open.endsWith("'");
  const end = quoted ? commentStart(text, start, row.end) : scan.at;
  return trimmedEnd(text, { start, end: scan.mismatch ? row.end : end });
}

/** What is open after the text from `from` to `end`, given what was open before it. */
export interface FlowScan {
  /** Behind the last closing quote or bracket, when nothing is open any more; else where a comment or the line ends it. */
  readonly at: number;
  readonly open: string;
  readonly mismatch: boolean;
}

/** Reads brackets and quotes up to the end of the line, or to where all of them are closed. */
export function scanFlow(text: string, from: number, end: number, before: string): FlowScan {
  // A list, as there may be very many: a text that grows by one character is copied when its last one is asked for.
  const closers = [...before];
  let atToken = true;
  for (let at = from; at < end; at += 1) {
    const unit = text[at] as string;
    const closer = closers.at(-1);
    if (closer === '"' || closer === "'") {
      if (closer === '"' && unit === '\\') at += 1;
      else if (closer === "'" && unit === "'" && text[at + 1] === "'") at += 1;
      else if (unit === closer) {
        closers.pop();
        atToken = false;
      }
    } else if (unit === '[' || unit === '{') {
      closers.push(unit === '[' ? ']' : '}');
      atToken = true;
    } else if (unit === ']' || unit === '}') {
      if (unit !== closer) return { at, open: closers.join(''), mismatch: true };
      closers.pop();
      atToken = false;
    } else if ((unit === '"' || unit === "'") && atToken) closers.push(unit);
    else if (unit === '#' && (at === from || isBlank(text.charCodeAt(at - 1)))) {
      return { at, open: closers.join(''), mismatch: false };
    } else if (unit === ',' || unit === ':') atToken = true;
    else if (!isBlank(unit.charCodeAt(0))) atToken = false;
    if (closers.length === 0) return { at: at + 1, open: '', mismatch: false };
  }
  return { at: end, open: closers.join(''), mismatch: false };
}

/** Whether anything but a comment stands from `from` on. */
export function hasMore(text: string, from: number, end: number): boolean {
  const at = afterBlanks(text, from, end);
  return at < end && text[at] !== '#';
}

function afterBlanks(text: string, from: number, end: number): number {
  let at = from;
  while (at < end && isBlank(text.charCodeAt(at))) at += 1;
  return at;
}

/** Behind the anchors and tags that stand at `from`. */
function afterProperties(text: string, from: number, end: number): number {
  let at = from;
  while (at < end && (text[at] === '&' || text[at] === '!') && !isBreak(text.charCodeAt(at + 1))) {
    while (at < end && !isBlank(text.charCodeAt(at))) at += 1;
    at = afterBlanks(text, at, end);
  }
  return at;
}

/** Where a comment starts at or after `from`: a `#` at the very start or behind a blank; `end` when there is none. */
function commentStart(text: string, from: number, end: number): number {
  for (let at = indexWithin(text, '#', from, end); at !== -1; at = indexWithin(text, '#', at + 1, end)) {
    if (at === from || isBlank(text.charCodeAt(at - 1))) return at;
  }
  return end;
}

function holdsColon(text: string, from: number, end: number): boolean {
  for (let at = indexWithin(text, ':', from, end); at !== -1; at = indexWithin(text, ':', at + 1, end)) {
    if (isEnd(text, at + 1, end)) return true;
  }
  return false;
}

function isEnd(text: string, at: number, end: number): boolean {
  return at >= end || isBlank(text.charCodeAt(at));
}
