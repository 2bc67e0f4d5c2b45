import { beginsItem, hasContent, isBlank, isTabbed, keyColon, nextContent, type Row } from './rows.ts';

/** What the lines of a chunk must hold when they are well formed. */
export type Expected = 'any' | 'map' | 'item';

/** Lines that are parsed together: `from` is in, `to` is out. */
export interface Chunk {
  readonly kind: 'chunk';
  readonly expected: Expected;
  readonly from: number;
  readonly to: number;
}

/** A block map that was taken apart. */
export interface SplitMap {
  readonly kind: 'map';
  readonly parts: readonly Part[];
}

/** Entries of a map. Where the value of the last one was taken out of the chunk, it stands in `value`. */
export interface Part {
  readonly head: Chunk;
  readonly value?: Piece;
}

/** A block sequence that was taken apart. */
export interface SplitSequence {
  readonly kind: 'sequence';
  readonly items: readonly (Chunk | SplitMap)[];
}

export type Piece = Chunk | SplitMap | SplitSequence;

/** Blocks up to this many characters usually stay whole: parsing them again costs less than a millisecond. */
export const usualSmallBlock = 2048;
/** Blocks nested deeper than this stay whole. */
const deepest = 20;

/**
 * Takes the lines of a document apart into chunks that can be parsed one by one, so that an edit costs one of them and
 * damage stays in it. For well-formed YAML the chunks together say the same as the whole: inside a block whose lines
 * start at some column, nothing that goes on over several lines (quoted or block text, brackets) may come back to that
 * column, so every line there begins an entry or an item. What does not look like that stays in one chunk. Inside
 * items, blocks up to `smallBlock` characters stay whole.
 */
export function split(text: string, rows: readonly Row[], smallBlock = usualSmallBlock): Piece {
  const whole: Chunk = { kind: 'chunk', expected: 'any', from: 0, to: rows.length };
  const first = nextContent(rows, 0);
  const row = rows[first];
  if (row === undefined || isTabbed(row)) return whole;
  for (let at = first; at < rows.length; at += 1) {
    const other = rows[at] as Row;
    if (hasContent(other) && !isTabbed(other) && other.indent < row.indent) return whole;
  }
  const splitter = new Splitter(text, rows, smallBlock);
  if (beginsItem(text, row)) return splitter.sequence(0, first, rows.length);
  return splitter.beginsMap(first) ? splitter.map(0, rows.length, row.indent, 'map') : whole;
}

class Splitter {
  readonly #text: string;
  readonly #rows: readonly Row[];
  readonly #smallBlock: number;
  #depth = 0;

  constructor(text: string, rows: readonly Row[], smallBlock: number) {
    this.#text = text;
    this.#rows = rows;
    this.#smallBlock = smallBlock;
  }

  /** Whether the first line is a key, or a bare word with keys at its column further down (a half-typed first line). */
  beginsMap(first: number): boolean {
    const row = this.#row(first);
    if (keyColon(this.#text, row.body, row.end) !== -1) return true;
    if (!/[\p{L}\p{N}_]/u.test(this.#text[row.body] ?? '')) return false;
    for (let at = first + 1; at < this.#rows.length; at += 1) {
      const other = this.#row(at);
      if (
        other.indent === row.indent &&
        hasContent(other) &&
        keyColon(this.#text, other.body, other.end) !== -1
      )
        return true;
    }
    return false;
  }

  /** The lines as a map whose keys start at `column`. The first entry starts with the first line, wherever that starts. */
  map(from: number, to: number, column: number, expected: Expected): SplitMap {
    this.#depth += 1;
    const parts: Part[] = [];
    let start = from;
    let begun = nextContent(this.#rows, from, to);
    while (start < to) {
      let end = begun + 1;
      while (end < to && !this.#beginsEntry(end, column)) end += 1;
      parts.push(this.#entry(start, begun, Math.min(end, to), parts.length === 0 ? expected : 'map', column));
      start = end;
      begun = end;
    }
    this.#depth -= 1;
    return { kind: 'map', parts };
  }

  /** The lines as a sequence whose first item starts at line `first`. */
  sequence(from: number, first: number, to: number): SplitSequence {
    const column = this.#row(first).indent;
    const items: (Chunk | SplitMap)[] = [];
    let start = from;
    let begun = first;
    while (start < to) {
      let end = begun + 1;
      while (end < to && !this.#beginsItemAt(end, column)) end += 1;
      items.push(this.#item(start, begun, end));
      start = end;
      begun = end;
    }
    return { kind: 'sequence', items };
  }

  #row(index: number): Row {
    return this.#rows[index] as Row;
  }

  #size(from: number, to: number): number {
    return this.#row(to - 1).next - this.#row(from).start;
  }

  #beginsItemAt(index: number, column: number): boolean {
    const row = this.#row(index);
    return row.indent === column && !isTabbed(row) && beginsItem(this.#text, row);
  }

  /** Any line at the column, but for items, the value of an explicit key, and a bracket closed a little too far left. */
  #beginsEntry(index: number, column: number): boolean {
    const row = this.#row(index);
    if (row.indent !== column || !hasContent(row) || isTabbed(row)) return false;
    if (beginsItem(this.#text, row)) return false;
    const first = this.#text[row.body];
    if (first === ':') return row.body + 1 < row.end && !isBlank(this.#text.charCodeAt(row.body + 1));
    return first !== ']' && first !== '}' && first !== ',';
  }

  #entry(from: number, begun: number, to: number, expected: Expected, column: number): Part {
    const head = (end: number): Chunk => ({ kind: 'chunk', expected, from, to: end });
    const below = nextContent(this.#rows, begun + 1, to);
    if (below >= to || !this.#isHeader(begun)) return { head: head(to) };
    const row = this.#row(below);
    if (isTabbed(row) || row.indent < column || this.#depth > deepest) return { head: head(to) };
    const large = this.#size(below, to) > this.#smallBlock;
    if (beginsItem(this.#text, row)) {
      if (column > 0 && !large) return { head: head(to) };
      return { head: head(below), value: this.sequence(below, below, to) };
    }
    if (!large || row.indent === column || !this.#isMapAt(below, to, row.indent)) return { head: head(to) };
    return { head: head(below), value: this.map(below, to, row.indent, 'map') };
  }

  /** Whether nothing but a comment, or an anchor and a comment, stands behind the key. */
  #isHeader(index: number): boolean {
    const row = this.#row(index);
    let from = row.body;
    if (beginsItem(this.#text, row)) from = this.#afterBlanks(row.body + 1, row.end);
    const colon = keyColon(this.#text, from, row.end);
    if (colon === -1) return false;
    let at = this.#afterBlanks(colon + 1, row.end);
    if (this.#text[at] === '&') {
      while (at < row.end && !isBlank(this.#text.charCodeAt(at))) at += 1;
      at = this.#afterBlanks(at, row.end);
    }
    return at >= row.end || this.#text[at] === '#';
  }

  #afterBlanks(from: number, end: number): number {
    let at = from;
    while (at < end && isBlank(this.#text.charCodeAt(at))) at += 1;
    return at;
  }

  #isMapAt(from: number, to: number, column: number): boolean {
    const row = this.#row(from);
    const body = beginsItem(this.#text, row) ? row.start + column : row.body;
    if (keyColon(this.#text, body, row.end) === -1) return false;
    for (let at = from + 1; at < to; at += 1) {
      const other = this.#row(at);
      if (hasContent(other) && !isTabbed(other) && other.indent < column) return false;
    }
    return true;
  }

  #item(from: number, begun: number, to: number): Chunk | SplitMap {
    const whole: Chunk = { kind: 'chunk', expected: 'item', from, to };
    if (this.#size(from, to) <= this.#smallBlock) return whole;
    const row = this.#row(begun);
    let body = row.body + 1;
    while (body < row.end && this.#text[body] === ' ') body += 1;
    const column = body - row.start;
    if (!this.#isMapAt(begun, to, column)) return whole;
    return this.map(from, to, column, 'item');
  }
}

/**
 * Whether a large chunk is certain to be at fault, so that it need not be parsed. Either its first line is complete (a
 * bare word, or a key with a value without quotes), and the line below it begins a block: this happens as soon as a line
 * is typed too far to the left, as all that follows would belong to it. Or keys stand below its first line and then,
 * further left, an item: its list has lost the dash of its first one.
 */
export function isBroken(text: string, rows: readonly Row[], chunk: Chunk, smallBlock: number): boolean {
  const size = (rows[chunk.to - 1]?.next ?? 0) - (rows[chunk.from]?.start ?? 0);
  if (size <= smallBlock || chunk.expected !== 'map') return false;
  const first = nextContent(rows, chunk.from, chunk.to);
  const below = nextContent(rows, first + 1, chunk.to);
  const row = rows[first];
  const next = rows[below];
  if (row === undefined || next === undefined || below >= chunk.to || next.indent <= row.indent) return false;
  const colon = keyColon(text, row.body, row.end);
  let value = colon === -1 ? row.body : colon + 1;
  while (value < row.end && isBlank(text.charCodeAt(value))) value += 1;
  if (value >= row.end && colon !== -1) return isItemLeftOf(text, rows, below, chunk.to);
  if (!/[\p{L}\p{N}]/u.test(text[value] ?? '')) return false;
  const dash = beginsItem(text, next) ? 2 : 0;
  return keyColon(text, next.body + dash, next.end) !== -1;
}

/** Whether the line is a key, and an item begins further left below it. */
function isItemLeftOf(text: string, rows: readonly Row[], index: number, to: number): boolean {
  const { indent, body, end } = rows[index] as Row;
  if (beginsItem(text, rows[index] as Row) || keyColon(text, body, end) === -1) return false;
  return rows
    .slice(index + 1, to)
    .some((row) => row.indent < indent && !isTabbed(row) && beginsItem(text, row));
}
