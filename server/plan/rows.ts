/** One line of a text, with what tells its place among the others. Offsets are UTF-16 units of that text. */
export interface Row {
  readonly start: number;
  /** Without the line end. */
  readonly end: number;
  /** Where the next line starts. */
  readonly next: number;
  /** How many spaces lead it. */
  readonly indent: number;
  /** Where its first character other than space and tab stands; `end` for a blank line. */
  readonly body: number;
  /** The code of that character; 0 for a blank line. */
  readonly first: number;
}

export const space = 32;
export const tab = 9;
export const lineFeed = 10;
export const carriageReturn = 13;
export const byteOrderMark = 0xfeff;
const hash = 35;
const colon = 58;
const dash = 45;

/** The lines of `text` in the range. Lines end with LF or CRLF; a text with CR alone must have been through `withoutBareReturns`. */
export function rowsOf(text: string, from = 0, to = text.length): Row[] {
  const rows: Row[] = [];
  let start = from;
  while (start < to) {
    let lineEnd = text.indexOf('\n', start);
    if (lineEnd === -1 || lineEnd >= to) lineEnd = to;
    const next = Math.min(lineEnd + 1, to);
    const end = lineEnd > start && text.charCodeAt(lineEnd - 1) === carriageReturn ? lineEnd - 1 : lineEnd;
    rows.push(rowAt(text, start, end, next));
    start = next;
  }
  return rows;
}

function rowAt(text: string, start: number, end: number, next: number): Row {
  let body = start;
  while (body < end && text.charCodeAt(body) === space) body += 1;
  const indent = body - start;
  while (body < end && isBlank(text.charCodeAt(body))) body += 1;
  return { start, end, next, indent, body, first: body < end ? text.charCodeAt(body) : 0 };
}

/** The text with every CR that stands alone turned into LF, which YAML reads as the same. Offsets stay. */
export function withoutBareReturns(text: string): string {
  if (!text.includes('\r')) return text;
  return text.replace(/\r(?!\n)/g, '\n');
}

export function isBlank(code: number): boolean {
  return code === space || code === tab;
}

/** Whether a token ends before this code: a blank, a line end, or (as NaN) the end of the text. */
export function isBreak(code: number): boolean {
  return code === space || code === tab || code === lineFeed || code === carriageReturn || Number.isNaN(code);
}

/** Whether the line holds more than blanks and a comment. */
export function hasContent(row: Row): boolean {
  return row.first !== 0 && row.first !== hash;
}

/** Whether tabs stand among the blanks in front of the line. */
export function isTabbed(row: Row): boolean {
  return row.body > row.start + row.indent;
}

/** Whether the line begins an item of a block sequence. */
export function beginsItem(text: string, row: Row): boolean {
  return row.first === dash && (row.body + 1 >= row.end || isBlank(text.charCodeAt(row.body + 1)));
}

/** The index of the first line with content at or after `index`, or `limit`. */
export function nextContent(rows: readonly Row[], index: number, limit = rows.length): number {
  let at = index;
  while (at < limit && !hasContent(rows[at] as Row)) at += 1;
  return at;
}

/** The offset behind the last character of the line that is not blank. */
export function trimmedEnd(text: string, row: { start: number; end: number }): number {
  let end = row.end;
  while (end > row.start && isBlank(text.charCodeAt(end - 1))) end -= 1;
  return end;
}

/**
 * Where the colon stands that ends the key beginning at `from`; -1 when there is none on this line. The key is plain
 * or quoted; a colon counts when a blank or the line's end follows.
 */
export function keyColon(text: string, from: number, end: number): number {
  const first = text[from];
  if (first === undefined || from >= end || '[]{},#&*!|>%@`'.includes(first)) return -1;
  if (first === '"' || first === "'") {
    const close = closingQuote(text, from, end);
    if (close === -1) return -1;
    let at = close + 1;
    while (at < end && isBlank(text.charCodeAt(at))) at += 1;
    return isColon(text, at, end) ? at : -1;
  }
  if ((first === '?' || first === '-') && (from + 1 >= end || isBlank(text.charCodeAt(from + 1)))) return -1;
  for (let at = from; at < end; at += 1) {
    const code = text.charCodeAt(at);
    if (code === hash && at > from && isBlank(text.charCodeAt(at - 1))) return -1;
    if (code === colon && isColon(text, at, end)) return at;
  }
  return -1;
}

/** Where a character stands next, before `end`; -1 when it does not. Looks no further than that, unlike `indexOf`. */
export function indexWithin(text: string, character: string, from: number, end: number): number {
  const code = character.charCodeAt(0);
  for (let at = from; at < end; at += 1) if (text.charCodeAt(at) === code) return at;
  return -1;
}

function isColon(text: string, at: number, end: number): boolean {
  return at < end && text[at] === ':' && (at + 1 >= end || isBlank(text.charCodeAt(at + 1)));
}

/** Where the quote closes that opens at `from`, before `end`; -1 when it does not. */
export function closingQuote(text: string, from: number, end: number): number {
  const quote = text[from] as string;
  for (let at = from + 1; at < end; at += 1) {
    if (quote === '"' && text[at] === '\\') at += 1;
    else if (text[at] === quote) {
      if (quote === "'" && at + 1 < end && text[at + 1] === "'") at += 1;
      else return at;
    }
  }
  return -1;
}

/** The index of the line that an offset lies on. */
export function indexOfRow(rows: readonly Row[], offset: number): number {
  let low = 0;
  let high = rows.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((rows[middle] as Row).start <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
