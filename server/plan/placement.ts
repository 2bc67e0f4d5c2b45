import { shortened } from '../quantities/scan.ts';
import { type Anatomy, dissect } from './anatomy.ts';
import { closedBy, enter, type Level } from './levels.ts';
import type { LineRepairs } from './lineRepairs.ts';
import type { Holds } from './outline.ts';
import { entrance, isLostItem, type Placed } from './placed.ts';
import { beginsItem, isBlank, isTabbed, nextContent, type Row } from './rows.ts';

/** How many steps are spent, at most, to find out which of several lines is out of place. */
const effortLimit = 300_000;
/** How many lines further up one out of place is looked for, and how many are tried. */
const lookBack = 500;
const tryLimit = 8;

/** Follows which blocks are open from line to line, and finds out which line is out of place when one does not fit. */
export class Placement {
  readonly #text: string;
  readonly #rows: readonly Row[];
  readonly #repairs: LineRepairs;
  readonly #holds: Holds;
  #levels: readonly Level[] = [];
  #last: Placed | undefined;
  /** Steps spent so far. */
  #effort = 0;

  constructor(text: string, rows: readonly Row[], repairs: LineRepairs, holds: Holds) {
    this.#text = text;
    this.#rows = rows;
    this.#repairs = repairs;
    this.#holds = holds;
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
    return this.#place(index, anatomy, column, column - this.#offset(index));
  }

  /** `shift`: how many columns further right than the anatomy says its dashes and its key stand. */
  #place(index: number, anatomy: Anatomy, column: number, shift: number): boolean {
    this.#effort += this.#levels.length + 1;
    const levels = enter(this.#levels, entrance(anatomy, column, shift), this.#opens());
    if (levels === undefined) return false;
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
    const line = entrance(dissect(this.#text, next), next.indent, next.start + next.indent - next.body);
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
   * Tries whether the line fits when the value behind the key above it is given up: the line begins a block such as that
   * key holds.
   */
  blameValue(index: number, anatomy: Anatomy): boolean {
    const last = this.#last;
    if (last === undefined || last.opens || last.continued.length > 0) return false;
    const { key, value, form, open, flaw } = dissect(this.#text, this.#row(last.index));
    const whole = form !== 'none' && form !== 'block' && open === '' && flaw === undefined;
    if (key === undefined || !whole || this.#repairs.has(last.index)) return false;
    const name = this.#text.slice(key.start, key.colon).trim();
    const start = { item: anatomy.dashes.length > 0, key: this.#nameOf(anatomy) };
    if (!this.#holds(name, start)) return false;
    last.opens = true;
    if (!this.place(index, anatomy, this.#row(index).indent)) {
      last.opens = false;
      return false;
    }
    last.plain = false;
    const written = shortened(this.#text.slice(value.start, value.end));
    const below = start.item ? 'the list' : 'the keys';
    const message = `\`${name}\` has a value here, “${written}”, and ${below} below it as well. Remove “${written}”.`;
    let from = value.start;
    while (isBlank(this.#text.charCodeAt(from - 1))) from -= 1;
    const edit = { span: { start: from, end: value.end }, text: '' };
    this.#repairs.change(last.index, 'syntax/value-above-block', message, [edit], value);
    return true;
  }

  /**
   * Tries whether the line fits when the very first one is moved to its column: the first key of all has come too far to
   * the right.
   */
  blameHead(index: number, anatomy: Anatomy): boolean {
    const column = this.#row(index).indent;
    const since: Placed[] = [];
    for (let placed = this.#last; placed !== undefined; placed = placed.prior) {
      since.unshift(placed);
      if (since.length > lookBack) return false;
    }
    const [head, ...others] = since;
    if (head === undefined || head.column <= column || this.#effort > effortLimit) return false;
    if (others.some((placed) => placed.column <= head.column)) return false;
    const fits = this.#fitsFrom(
      [],
      undefined,
      () =>
        this.#placeAgain(head, column) &&
        others.every((placed) => this.#placeAgain(placed, placed.column)) &&
        this.place(index, anatomy, column),
    );
    if (fits) this.moveTo(head.index, column);
    return fits;
  }

  /**
   * Tries whether the line fits when one further up, which came too far to the left and so closed the blocks that this
   * line belongs to, is moved to the column of its neighbours; or when the line just above is given up.
   */
  blameAbove(index: number, anatomy: Anatomy): boolean {
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
    return false;
  }

  /**
   * Tries whether the line, which begins an item, fits when the keys above it are an item of the same list that has lost
   * its dash: they stand below a key that has no value of its own, where the text of an item stands.
   */
  blameLostDash(index: number, anatomy: Anatomy): boolean {
    const column = this.#row(index).indent;
    if (!this.#isItemOfKeys(index, anatomy, column) || this.#effort > effortLimit) return false;
    const since: Placed[] = [];
    let first = this.#last;
    while (
      first !== undefined &&
      (first.before.at(-1)?.column ?? -1) > column &&
      this.#effort < effortLimit
    ) {
      this.#effort += 1;
      since.push(first);
      first = first.prior;
    }
    since.reverse();
    const owner = first?.prior;
    if (first === undefined || owner === undefined || !isLostItem(first, owner, column)) return false;
    const fits = this.#fitsFrom(
      first.before,
      owner,
      () =>
        this.#placeDashed(first, column) &&
        since.every((placed) => this.#placeAgain(placed, placed.column)) &&
        this.place(index, anatomy, column),
    );
    if (fits) this.#reportLostDash(first, owner, anatomy, column);
    return fits;
  }

  /** Whether the line begins an item that holds keys: one that is only begun may as well be a slip of its own. */
  #isItemOfKeys(index: number, anatomy: Anatomy, column: number): boolean {
    if (anatomy.dashes.length !== 1) return false;
    if (anatomy.form === 'brackets') return true;
    const { key } = anatomy;
    if (key === undefined) return false;
    const next = this.#next(index);
    const goesOn = next !== undefined && (next.indent > column || beginsItem(this.#text, next));
    return goesOn || this.#text.slice(key.start, key.colon) === 'id';
  }

  #placeDashed(first: Placed, column: number): boolean {
    const shift = first.column - this.#offset(first.index);
    const anatomy = { ...first.anatomy, dashes: [column - shift] };
    if (!this.#place(first.index, anatomy, column, shift)) return false;
    this.#restore(first);
    return true;
  }

  /**
   * Whether the line repeats a key that the item above it has already, and stands where the dash of the next item would:
   * then it is the first line of that item.
   */
  repeatsKeyAtDash(index: number, anatomy: Anatomy): boolean {
    const column = this.#row(index).indent;
    const place = this.#levels.findIndex((level) => level.column === column && level.kind === 'sequence');
    const keys = this.#levels[place + 1]?.column;
    if (place < 0 || keys === undefined || anatomy.dashes.length > 0 || anatomy.key === undefined)
      return false;
    const wanted = this.#keyOf(anatomy);
    let steps = 0;
    for (let above = this.#last; above !== undefined && steps < lookBack; above = above.prior, steps += 1) {
      const { dashes, key } = above.anatomy;
      const begins = dashes.length > 0 && above.column === column;
      if (key !== undefined && above.owner === keys && this.#keyOf(above.anatomy) === wanted) return true;
      if (begins) break;
    }
    return false;
  }

  /**
   * Tries whether the line fits when the one above it, which is the first of its block, is moved to the column of this
   * one; so it is when the block goes on there.
   */
  blameFirst(index: number, anatomy: Anatomy): boolean {
    const row = this.#row(index);
    const first = this.#last;
    const header = first?.prior;
    if (first === undefined || header === undefined || first.opens || first.anatomy.dashes.length > 0)
      return false;
    const opened = header.anatomy.form === 'none' && (first.before.at(-1)?.column ?? 0) < first.column;
    if (!opened || anatomy.dashes.length > 0 || row.indent <= first.column) return false;
    let next = nextContent(this.#rows, index + 1);
    while ((this.#rows[next]?.indent ?? 0) > row.indent && next - index < lookBack) {
      next = nextContent(this.#rows, next + 1);
    }
    if (this.#rows[next]?.indent !== row.indent) return false;
    const fits = this.#fitsFrom(
      first.before,
      header,
      () => this.#placeAgain(first, row.indent) && this.place(index, anatomy, row.indent),
    );
    if (fits) this.moveTo(first.index, row.indent);
    return fits;
  }

  #reportLostDash(first: Placed, owner: Placed, anatomy: Anatomy, column: number): void {
    const list = this.#keyOf(owner.anatomy);
    const key = this.#keyOf(first.anatomy);
    const usual = this.#keyOf(anatomy);
    const line =
      usual === 'id' && key !== 'id' ? `\`- id: …\` in a line above \`${shortened(key)}\`, or ` : '';
    const message = `The first item of \`${shortened(list)}\` has no dash. Write ${line}\`- ${shortened(key)}:\`.`;
    const lead = `${' '.repeat(column)}-${' '.repeat(first.column - column - 1)}`;
    this.#repairs.lead(first.index, 'syntax/dash-missing', message, lead);
  }

  #nameOf({ key }: Anatomy): string | undefined {
    return key === undefined ? undefined : this.#text.slice(key.start, key.colon).trim();
  }

  #keyOf(anatomy: Anatomy): string {
    return (this.#nameOf(anatomy) ?? '').slice(0, 40);
  }

  #moveSuspect(suspect: Placed, since: readonly Placed[], index: number, anatomy: Anatomy): boolean {
    const row = this.#row(index);
    const below = since[0] ?? { index, anatomy };
    for (const column of this.#columnsBefore(suspect, this.#row(below.index), below.anatomy)) {
      const fits = this.#fitsFrom(
        suspect.before,
        suspect.prior,
        () =>
          this.#placeAgain(suspect, column) &&
          since.every((placed) => this.#placeAgain(placed, placed.column)) &&
          this.place(index, anatomy, row.indent),
      );
      if (!fits) continue;
      this.moveTo(suspect.index, column);
      return true;
    }
    return false;
  }

  #dropSuspect(suspect: Placed, index: number, anatomy: Anatomy): boolean {
    const { indent } = this.#row(index);
    const fits = this.#fitsFrom(suspect.before, suspect.prior, () => this.place(index, anatomy, indent));
    if (!fits) return false;
    const message =
      'This line starts at a column where no line of its block starts. Align it with its neighbours.';
    this.#repairs.empty(suspect.index, 'syntax/indentation', message);
    for (const line of suspect.continued) this.#repairs.empty(line);
    return true;
  }

  /** Whether lines can be placed when all goes on from there; where they cannot, everything is as it was before. */
  #fitsFrom(levels: readonly Level[], last: Placed | undefined, placeAll: () => boolean): boolean {
    const saved = { levels: this.#levels, last: this.#last };
    this.#levels = levels;
    this.#last = last;
    const fits = placeAll();
    if (!fits) {
      this.#levels = saved.levels;
      this.#last = saved.last;
    }
    return fits;
  }

  #placeAgain(placed: Placed, column: number): boolean {
    if (!this.place(placed.index, placed.anatomy, column)) return false;
    this.#restore(placed);
    return true;
  }

  /** The latest line takes over what became of it when it was placed before. */
  #restore(placed: Placed): void {
    const last = this.#last as Placed;
    last.opens = placed.opens;
    last.plain = placed.plain;
    last.continued.push(...placed.continued);
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
