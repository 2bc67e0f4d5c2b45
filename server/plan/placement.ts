import { type Anatomy, dissect } from './anatomy.ts';
import { closedBy, type Entrance, enter, type Level } from './levels.ts';
import type { LineRepairs } from './lineRepairs.ts';
import { beginsItem, isTabbed, nextContent, type Row } from './rows.ts';

/** How many steps are spent, at most, to find out which of several lines is out of place. */
const effortLimit = 300_000;
/** How many lines further up one out of place is looked for, and how many are tried. */
const lookBack = 500;
const tryLimit = 8;

/** A line that has taken its place among the blocks. */
export interface Placed {
  readonly index: number;
  readonly anatomy: Anatomy;
  /** Where it starts, or is taken to start. */
  readonly column: number;
  /** The blocks that were open before it. */
  readonly before: readonly Level[];
  readonly prior: Placed | undefined;
  /** Lines further in than this belong to its value. */
  readonly owner: number;
  /** Whether its value is still to come, on deeper lines. */
  opens: boolean;
  /** Whether its value is text without quotes, which may go on below. */
  plain: boolean;
  /** Lines taken as text that goes on from it. */
  readonly continued: number[];
}

/** Follows which blocks are open from line to line, and finds out which line is out of place when one does not fit. */
export class Placement {
  readonly #text: string;
  readonly #rows: readonly Row[];
  readonly #repairs: LineRepairs;
  #levels: readonly Level[] = [];
  #last: Placed | undefined;
  /** Steps spent so far. */
  #effort = 0;

  constructor(text: string, rows: readonly Row[], repairs: LineRepairs) {
    this.#text = text;
    this.#rows = rows;
    this.#repairs = repairs;
  }

  /** The latest line that has taken its place. */
  get last(): Placed | undefined {
    return this.#last;
  }

  /** The column of the innermost open block. */
  get column(): number {
    return this.#levels.at(-1)?.column ?? 0;
  }

  /** Takes back the latest line. */
  withdraw(): void {
    if (this.#last !== undefined) this.#levels = this.#last.before;
    this.#last = this.#last?.prior;
  }

  /** Enters the line into the open blocks as if it started at `column`; false when it does not belong there. */
  place(index: number, anatomy: Anatomy, column: number): boolean {
    this.#effort += this.#levels.length + 1;
    const levels = enter(this.#levels, entrance(this.#row(index), anatomy, column), this.#opens());
    if (levels === undefined) return false;
    const shift = column - this.#offset(index);
    this.#last = {
      index,
      anatomy,
      column,
      before: this.#levels,
      prior: this.#last,
      owner: anatomy.key === undefined ? (anatomy.dashes.at(-1) ?? 0) + shift : anatomy.column + shift,
      opens: anatomy.form === 'none',
      plain: anatomy.form === 'plain',
      continued: [],
    };
    this.#levels = levels;
    return true;
  }

  /** The column where the line's first character stands, tabs counting as one. */
  #offset(index: number): number {
    const row = this.#row(index);
    return row.body - row.start;
  }

  /** Whether the line below a line that is given up can stand without it. */
  fitsNext(index: number): boolean {
    const next = this.#next(index);
    if (next === undefined) return true;
    const line = entrance(next, dissect(this.#text, next), next.indent);
    return enter(this.#levels, line, this.#opens()) !== undefined;
  }

  /** Where the line may have been meant to start, the likeliest first. */
  likelyColumns(index: number, anatomy: Anatomy): readonly number[] {
    const column = this.#offset(index);
    const kind = anatomy.dashes.length > 0 ? 'sequence' : 'map';
    const next = this.#next(index);
    const columns: number[] = [];
    if (next !== undefined && !isTabbed(next)) {
      const width = anatomy.column - (anatomy.dashes[0] ?? anatomy.column);
      const sameKind = beginsItem(this.#text, next) === (kind === 'sequence');
      const likeNext = sameKind ? next.indent : next.indent - width;
      const top = this.column;
      if (likeNext >= 0 && (next.indent > column || next.indent > top)) columns.push(likeNext);
    }
    columns.push(...closedBy(this.#levels, column, kind));
    for (let at = this.#levels.length - 1; at >= 0; at -= 1) {
      const level = this.#levels[at] as Level;
      if (level.kind === kind) columns.push(level.column);
    }
    return columns;
  }

  /** Tries whether the line fits when the text above it is given up: half-typed words below a key, or behind a dash. */
  blameText(index: number, anatomy: Anatomy): boolean {
    const last = this.#last;
    if (last === undefined) return false;
    const row = this.#row(index);
    const afterDash = last.anatomy.dashes.length > 0 && last.anatomy.key === undefined && last.plain;
    if (last.continued.length === 0 && !afterDash) return false;
    const { opens } = last;
    last.opens = last.anatomy.form === 'none' || afterDash;
    if (!this.place(index, anatomy, row.indent)) {
      last.opens = opens;
      return false;
    }
    const message =
      'This line is no `key: value`. Write a colon and a space behind the key, or remove the line.';
    if (afterDash) this.#repairs.empty(last.index, 'syntax/half-written-line', message);
    for (const line of last.continued) this.#repairs.empty(line, 'syntax/half-written-line', message);
    return true;
  }

  /**
   * Tries whether the line fits when one further up, which came too far to the left and so closed the blocks that this
   * line belongs to, is moved to the column of its neighbours; or when the line just above is given up.
   */
  blameAbove(index: number, anatomy: Anatomy): boolean {
    const saved = { levels: this.#levels, last: this.#last };
    const row = this.#row(index);
    const since: Placed[] = [];
    let tries = 0;
    if (this.#effort > effortLimit) return false;
    for (let suspect = this.#last; suspect !== undefined && tries < tryLimit; suspect = suspect.prior) {
      const { column } = suspect;
      const closed = suspect.before.some((level) => level.column > column && level.column <= row.indent);
      const holdsItem = since.length === 0 && suspect.anatomy.dashes.length > 0;
      if (closed || (holdsItem && this.#next(index)?.indent === row.indent)) {
        tries += 1;
        if (this.#moveSuspect(suspect, since, index, anatomy)) return true;
        if (since.length === 0 && this.#dropSuspect(suspect, index, anatomy)) return true;
      }
      since.unshift(suspect);
      if (since.length > lookBack) break;
    }
    this.#levels = saved.levels;
    this.#last = saved.last;
    return false;
  }

  #moveSuspect(suspect: Placed, since: readonly Placed[], index: number, anatomy: Anatomy): boolean {
    const row = this.#row(index);
    const below = since[0] ?? { index, anatomy };
    for (const column of this.#columnsBefore(suspect, this.#row(below.index), below.anatomy)) {
      this.#levels = suspect.before;
      this.#last = suspect.prior;
      const fits =
        this.#placeAgain(suspect, column) &&
        since.every((placed) => this.#placeAgain(placed, placed.column)) &&
        this.place(index, anatomy, row.indent);
      if (!fits) continue;
      this.moveTo(suspect.index, column);
      return true;
    }
    return false;
  }

  #dropSuspect(suspect: Placed, index: number, anatomy: Anatomy): boolean {
    this.#levels = suspect.before;
    this.#last = suspect.prior;
    if (!this.place(index, anatomy, this.#row(index).indent)) return false;
    const message =
      'This line starts at a column where no line of its block starts. Align it with its neighbours.';
    this.#repairs.empty(suspect.index, 'syntax/indentation', message);
    for (const line of suspect.continued) this.#repairs.empty(line);
    return true;
  }

  #placeAgain(placed: Placed, column: number): boolean {
    if (!this.place(placed.index, placed.anatomy, column)) return false;
    const last = this.#last as Placed;
    last.opens = placed.opens;
    last.plain = placed.plain;
    last.continued.push(...placed.continued);
    return true;
  }

  /** Where a line may have been meant to start that stands before `row` and came too far to the left. */
  #columnsBefore(last: Placed, row: Row, anatomy: Anatomy): readonly number[] {
    const width = last.anatomy.column - (last.anatomy.dashes[0] ?? last.anatomy.column);
    const columns: number[] = [];
    if (anatomy.dashes.length === 0) columns.push(row.indent - width);
    else if (width > 0) columns.push(row.indent);
    const kind = width > 0 ? 'sequence' : 'map';
    for (const level of [...last.before].reverse()) if (level.kind === kind) columns.push(level.column);
    const already = this.#row(last.index).indent;
    return columns.filter((column) => column >= 0 && column !== already);
  }

  /** Notes that a line goes to another column, where its neighbours start. */
  moveTo(index: number, column: number): void {
    const from = this.#offset(index);
    const by = Math.abs(column - from);
    const change = `${column > from ? 'Indent it by' : 'Remove'} ${by} ${by === 1 ? 'space' : 'spaces'}`;
    const message = `This line starts at column ${from + 1}, its neighbours at column ${column + 1}. ${change}.`;
    this.#repairs.move(index, 'syntax/indentation', message, column);
  }

  #row(index: number): Row {
    return this.#rows[index] as Row;
  }

  #next(index: number): Row | undefined {
    return this.#rows[nextContent(this.#rows, index + 1)];
  }

  #opens(): boolean {
    return this.#last?.opens ?? true;
  }
}

function entrance(row: Row, anatomy: Anatomy, column: number): Entrance {
  const shift = column - (row.body - row.start);
  return {
    column,
    dashes: anatomy.dashes.map((dash) => dash + shift),
    key: anatomy.key === undefined ? undefined : anatomy.column + shift,
  };
}
