import { applyEdits, type Edit } from '../text/edit.ts';
import type { Span } from '../text/span.ts';
import { type Anatomy, dissect, hasMore, scanFlow } from './anatomy.ts';
import { closedBy, type Entrance, enter, type Level } from './levels.ts';
import { backThrough, type TextMap } from './move.ts';
import { beginsItem, hasContent, isTabbed, keyColon, nextContent, type Row, trimmedEnd } from './rows.ts';
import { type SyntaxCode, type TextFinding, textFinding } from './syntax.ts';

/** A text that can be read further than the one it was made from. */
export interface Repair {
  readonly text: string;
  /** From its offsets to those of the text it was made from. */
  readonly toOriginal: TextMap;
  /** In offsets of the text it was made from. */
  readonly findings: readonly TextFinding[];
  readonly blanked: readonly Span[];
}

/** What is done about one line. */
interface LineRepair {
  readonly finding: TextFinding | undefined;
  readonly edits: readonly Edit[];
  readonly blanked: Span | undefined;
}

/** A line that has taken its place among the blocks. */
interface Placed {
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
  plain: boolean;
  /** Lines taken as text that goes on from it. */
  readonly continued: number[];
}

/**
 * Looks for what is broken, line by line, and for the smallest change with which the other lines keep their meaning: a
 * colon, a closing quote or bracket is supplied, a line is moved to the column of its neighbours, a value is taken as
 * quoted; where none of that is certain, the line is given up. Only lines for which `atFault` holds are changed, for a
 * line judged alone may look broken and be none. Undefined when there is nothing to change.
 */
export function repair(
  text: string,
  rows: readonly Row[],
  atFault: (index: number) => boolean,
): Repair | undefined {
  const repairs = new Surgeon(text, rows).operate();
  const chosen = [...repairs].filter(([index]) => atFault(index)).sort(([a], [b]) => a - b);
  if (chosen.length === 0) return undefined;
  const edits = chosen.flatMap(([, line]) => line.edits);
  return {
    text: applyEdits(text, edits),
    toOriginal: backThrough(edits),
    findings: chosen.flatMap(([, line]) => line.finding ?? []),
    blanked: chosen.flatMap(([, line]) => line.blanked ?? []),
  };
}

class Surgeon {
  readonly #text: string;
  readonly #rows: readonly Row[];
  readonly #repairs = new Map<number, LineRepair>();
  #levels: readonly Level[] = [];
  #last: Placed | undefined;

  constructor(text: string, rows: readonly Row[]) {
    this.#text = text;
    this.#rows = rows;
  }

  operate(): ReadonlyMap<number, LineRepair> {
    let index = 0;
    while (index < this.#rows.length) {
      index = hasContent(this.#row(index)) ? this.#line(index) : index + 1;
    }
    return this.#repairs;
  }

  #row(index: number): Row {
    return this.#rows[index] as Row;
  }

  /** Judges one line and gives the next one to judge. */
  #line(index: number): number {
    const row = this.#row(index);
    const anatomy = dissect(this.#text, row);
    if (isTabbed(row)) return this.#tabbed(index, anatomy);
    if (this.#continues(row, anatomy)) return this.#continueValue(index, anatomy);
    if (anatomy.dashes.length === 0 && anatomy.key === undefined) return this.#word(index, anatomy);
    if (this.#place(index, anatomy, row.indent)) return this.#value(index, anatomy);
    return this.#misplaced(index, anatomy);
  }

  #opens(): boolean {
    return this.#last?.opens ?? true;
  }

  /** Enters the line into the open blocks as if it started at `column`; false when it does not belong there. */
  #place(index: number, anatomy: Anatomy, column: number): boolean {
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

  #continues(row: Row, anatomy: Anatomy): boolean {
    const last = this.#last;
    if (last === undefined || anatomy.dashes.length > 0 || anatomy.key !== undefined) return false;
    return row.indent > last.owner && (last.opens || last.plain);
  }

  #continueValue(index: number, anatomy: Anatomy): number {
    const last = this.#last as Placed;
    const ends = anatomy.open === '' || this.#closingLine(index, anatomy.open, last.owner) !== undefined;
    const half = anatomy.form === 'plain' || !ends;
    if (last.opens && half && this.#blockFollows(index)) return this.#word(index, anatomy);
    last.continued.push(index);
    if (!last.opens) return index + 1;
    last.opens = false;
    last.plain = anatomy.form === 'plain';
    return this.#restOfValue(index, anatomy, last.owner);
  }

  /** Whether the next line begins a block of entries or items at this line's column or further in. */
  #blockFollows(index: number): boolean {
    const next = this.#next(index);
    if (next === undefined || next.indent < this.#row(index).indent) return false;
    return beginsItem(this.#text, next) || keyColon(this.#text, next.body, next.end) !== -1;
  }

  #next(index: number): Row | undefined {
    return this.#rows[nextContent(this.#rows, index + 1)];
  }

  /** Follows the value to its last line, and mends what is wrong with it. */
  #value(index: number, anatomy: Anatomy): number {
    const placed = this.#last as Placed;
    const { flaw, value } = anatomy;
    if (flaw === 'colon' || flaw === 'reserved') return this.#quote(index, anatomy, flaw);
    if (flaw === 'mismatch') {
      return this.#giveUpValue(
        index,
        'syntax/bracket',
        'The brackets in this line do not pair up. Close each one with its own kind.',
      );
    }
    if (flaw === 'trailing') {
      const end = this.#text.slice(value.start, value.end).slice(-12);
      const message = `Nothing may follow after ${end}. Remove the rest, or put the whole value in one pair of quotes.`;
      return this.#giveUpValue(index, 'syntax/after-value', message);
    }
    return this.#restOfValue(index, anatomy, placed.owner);
  }

  #restOfValue(index: number, anatomy: Anatomy, owner: number): number {
    if (anatomy.form === 'block') {
      return this.#endOfText(index, owner);
    }
    if (anatomy.open === '') return index + 1;
    const end = this.#closingLine(index, anatomy.open, owner);
    return end === undefined ? this.#close(index, anatomy) : end + 1;
  }

  /** The line behind a text after `|` or `>`: the first one less indented than the text's first line. */
  #endOfText(index: number, owner: number): number {
    let column = owner + 1;
    let begun = false;
    let at = index + 1;
    for (; at < this.#rows.length; at += 1) {
      const row = this.#row(at);
      if (row.first === 0) continue;
      if (row.indent < column) break;
      if (
        !begun &&
        !/[1-9]/.test(
          this.#text.slice(this.#row(index).body, this.#row(index).end).split(/[|>]/).at(-1) ?? '',
        )
      ) {
        column = row.indent;
      }
      begun = true;
    }
    return at;
  }

  /** The line further down where everything closes that is open at the end of this one. */
  #closingLine(index: number, open: string, owner: number): number | undefined {
    let left = open;
    for (let at = index + 1; at < this.#rows.length; at += 1) {
      const row = this.#row(at);
      const quoted = left.endsWith('"') || left.endsWith("'");
      if (row.first === 0 || (!quoted && !hasContent(row))) continue;
      const closes = row.indent === owner && left.length === 1 && this.#text[row.body] === left;
      if (row.indent <= owner && !closes) return undefined;
      const scan = scanFlow(this.#text, row.body, row.end, left);
      if (scan.mismatch) return undefined;
      left = scan.open;
      if (left === '') return hasMore(this.#text, scan.at, row.end) ? undefined : at;
    }
    return undefined;
  }

  /** Nothing closes what is open: it is closed at the end of its line, or left out when it is all there is before a block. */
  #close(index: number, anatomy: Anatomy): number {
    const { end } = anatomy.value;
    const opener = this.#text[anatomy.value.start] as string;
    const quoted = anatomy.open.endsWith('"') || anatomy.open.endsWith("'");
    const code: SyntaxCode = quoted ? 'syntax/unclosed-quote' : 'syntax/unclosed-bracket';
    const closers = [...anatomy.open].reverse().join('');
    const last = this.#last as Placed;
    const next = this.#next(index);
    if (
      end === anatomy.value.start + 1 &&
      next !== undefined &&
      next.indent > last.owner &&
      this.#blockFollows(index)
    ) {
      last.opens = true;
      const edit = { span: { start: anatomy.value.start, end }, text: ' ' };
      this.#note(
        index,
        code,
        `${opener} opens here and is never closed. Remove it: the lines below are a block.`,
        [edit],
      );
      return index + 1;
    }
    const message = `${quoted ? 'This quote' : 'This bracket'} is not closed. Write ${closers} at the end of the value.`;
    last.plain = false;
    this.#note(index, code, message, [{ span: { start: end, end }, text: closers }], {
      close: closers,
      at: end,
    });
    return index + 1;
  }

  #quote(index: number, anatomy: Anatomy, flaw: 'colon' | 'reserved'): number {
    const { start, end } = anatomy.value;
    const value = this.#text.slice(start, end);
    const code: SyntaxCode = flaw === 'colon' ? 'syntax/colon-in-value' : 'syntax/reserved-character';
    const quote = ["'", '"'].find((mark) => !value.includes(mark) && !(mark === '"' && value.includes('\\')));
    const reason =
      flaw === 'colon'
        ? 'A colon and a space inside a value need quotes'
        : `A value that begins with ${value[0]} needs quotes`;
    if (quote === undefined) return this.#giveUpValue(index, code, `${reason}.`);
    const message = `${reason}: ${quote}${value}${quote}.`;
    (this.#last as Placed).plain = false;
    const edits = [start, end].map((at) => ({ span: { start: at, end: at }, text: quote }));
    this.#note(index, code, message, edits, { start, end, quote });
    return index + 1;
  }

  /** A line of text where only keys or items may stand. */
  #word(index: number, anatomy: Anatomy): number {
    const row = this.#row(index);
    const { start, end } = { start: row.body, end: trimmedEnd(this.#text, row) };
    const written = this.#text.slice(start, anatomy.value.end);
    const supplied = this.#supplied(written, start, anatomy, index);
    if (supplied !== undefined && this.#placeEdited(index, supplied.edit)) {
      const { edit, code, message } = supplied;
      this.#note(index, code, message, [edit], { insert: edit.text, at: edit.span.start });
      return index + 1;
    }
    if (anatomy.open !== '' && anatomy.form === 'quoted') {
      const message = 'This quote is not closed, and no key stands before it. Close it, or remove it.';
      return this.#giveUp(index, 'syntax/unclosed-quote', message);
    }
    const key = /^([\p{L}_][\p{L}\p{N}_-]*)[ \t]+(?=\S)/u.exec(written);
    if (key !== null) {
      const message = `A colon is missing: \`${key[1]}: ${written.slice(key[0].length)}\`?`;
      return this.#giveUp(index, 'syntax/colon-missing', message, {
        insert: ':',
        at: start + (key[1] as string).length,
      });
    }
    const message = `This line is no \`key: value\`. Complete it, as in \`${written.slice(0, 40)}: …\`, or remove it.`;
    return this.#giveUp(index, 'syntax/half-written-line', message, {
      written: this.#text.slice(start, end).slice(0, 80),
    });
  }

  /** The one character with which, or without which, the text would be a line of its own. */
  #supplied(
    written: string,
    start: number,
    anatomy: Anatomy,
    index: number,
  ): { edit: Edit; code: SyntaxCode; message: string } | undefined {
    const code = 'syntax/colon-missing';
    const glued = /^[\p{L}_][\p{L}\p{N}_-]*:(?=\S)/u.exec(written)?.[0];
    if (glued !== undefined) {
      const at = start + glued.length;
      const message = `A space must follow the colon: \`${glued} ${written.slice(glued.length)}\`.`;
      return { edit: { span: { start: at, end: at }, text: ' ' }, code, message };
    }
    const below = this.#next(index);
    if (/^[\p{L}_][\p{L}\p{N}_-]*$/u.test(written) && below !== undefined && this.#blockFollows(index)) {
      if (below.indent <= this.#row(index).indent) return undefined;
      const at = start + written.length;
      const message = `A colon is missing: \`${written}:\`.`;
      return { edit: { span: { start: at, end: at }, text: ':' }, code, message };
    }
    if (anatomy.open === '' || anatomy.form !== 'quoted') return undefined;
    const message = 'A quote opens here and is never closed. Remove it.';
    return { edit: { span: { start, end: start + 1 }, text: '' }, code: 'syntax/unclosed-quote', message };
  }

  /** Enters the line as it would be after an edit behind its indentation; false when that makes no sound line of it. */
  #placeEdited(index: number, edit: Edit): boolean {
    const row = this.#row(index);
    const { start, end } = edit.span;
    const line = this.#text.slice(row.start, start) + edit.text + this.#text.slice(end, row.end);
    const body = row.body - row.start;
    const first = line.charCodeAt(body);
    const anatomy = dissect(line, { ...row, start: 0, end: line.length, next: line.length, body, first });
    if (anatomy.key === undefined || anatomy.flaw !== undefined || anatomy.open !== '') return false;
    return this.#place(index, anatomy, row.indent);
  }

  /** A line behind tabs: it goes to the column where it fits. */
  #tabbed(index: number, anatomy: Anatomy): number {
    const message = 'A tab stands in front of this line, where only spaces may. Replace it with spaces.';
    for (const column of this.#likelyColumns(index, anatomy)) {
      if (anatomy.dashes.length === 0 && anatomy.key === undefined) break;
      if (!this.#place(index, anatomy, column)) continue;
      const edits = [this.#indentTo(index, column)];
      const next = this.#value(index, anatomy);
      this.#note(index, 'syntax/tab', message, [...edits, ...(this.#repairs.get(index)?.edits ?? [])], {
        column,
      });
      return next;
    }
    return this.#giveUp(index, 'syntax/tab', message);
  }

  #indentTo(index: number, column: number): Edit {
    const row = this.#row(index);
    return { span: { start: row.start, end: row.body }, text: ' '.repeat(column) };
  }

  /** Where the line may have been meant to start, the likeliest first. */
  #likelyColumns(index: number, anatomy: Anatomy): readonly number[] {
    const column = this.#offset(index);
    const kind = anatomy.dashes.length > 0 ? 'sequence' : 'map';
    const next = this.#next(index);
    const columns: number[] = [];
    if (next !== undefined && !isTabbed(next)) {
      const width = anatomy.column - (anatomy.dashes[0] ?? anatomy.column);
      const sameKind = beginsItem(this.#text, next) === (kind === 'sequence');
      const likeNext = sameKind ? next.indent : next.indent - width;
      const top = this.#levels.at(-1)?.column ?? 0;
      if (likeNext >= 0 && (next.indent > column || next.indent > top)) columns.push(likeNext);
    }
    columns.push(...closedBy(this.#levels, column, kind));
    for (let at = this.#levels.length - 1; at >= 0; at -= 1) {
      const level = this.#levels[at] as Level;
      if (level.kind === kind) columns.push(level.column);
    }
    return columns;
  }

  /** A line at a column where it cannot stand: a line above it, or this one, must give way. */
  #misplaced(index: number, anatomy: Anatomy): number {
    const row = this.#row(index);
    const last = this.#last;
    if (last !== undefined && this.#blameText(last, index, anatomy)) return this.#value(index, anatomy);
    if (this.#blameAbove(index, anatomy)) return this.#value(index, anatomy);
    for (const column of this.#likelyColumns(index, anatomy)) {
      if (!this.#place(index, anatomy, column)) continue;
      const edit = this.#indentTo(index, column);
      const next = this.#value(index, anatomy);
      this.#noteColumn(index, row.indent, column, edit);
      return next;
    }
    const message = `This line starts at column ${row.indent + 1}, where no line of its block starts. Align it with its neighbours.`;
    return this.#giveUp(index, 'syntax/indentation', message);
  }

  #noteColumn(index: number, from: number, to: number, edit: Edit): void {
    const by = Math.abs(to - from);
    const change = `${to > from ? 'Indent it by' : 'Remove'} ${by} ${by === 1 ? 'space' : 'spaces'}`;
    const message = `This line starts at column ${from + 1}, its neighbours at column ${to + 1}. ${change}.`;
    const edits = [edit, ...(this.#repairs.get(index)?.edits ?? [])];
    this.#note(index, 'syntax/indentation', message, edits, { column: from, expectedColumn: to });
  }

  /** Tries whether the line fits when the text above it is given up: half-typed words below a key, or behind a dash. */
  #blameText(last: Placed, index: number, anatomy: Anatomy): boolean {
    const row = this.#row(index);
    const afterDash = last.anatomy.dashes.length > 0 && last.anatomy.key === undefined && last.plain;
    if (last.continued.length === 0 && !afterDash) return false;
    const { opens } = last;
    last.opens = last.anatomy.form === 'none' || afterDash;
    if (!this.#place(index, anatomy, row.indent)) {
      last.opens = opens;
      return false;
    }
    const message =
      'This line is no `key: value`. Write a colon and a space behind the key, or remove the line.';
    if (afterDash) this.#blank(last.index, 'syntax/half-written-line', message);
    for (const line of last.continued) this.#blank(line, 'syntax/half-written-line', message);
    return true;
  }

  /**
   * Tries whether the line fits when one further up, which came too far to the left and so closed the blocks that this
   * line belongs to, is moved to the column of its neighbours; or when the line just above is given up.
   */
  #blameAbove(index: number, anatomy: Anatomy): boolean {
    const saved = { levels: this.#levels, last: this.#last };
    const row = this.#row(index);
    const since: Placed[] = [];
    let tries = 0;
    for (let suspect = this.#last; suspect !== undefined && tries < 8; suspect = suspect.prior) {
      const { column } = suspect;
      const closed = suspect.before.some((level) => level.column > column && level.column <= row.indent);
      const holdsItem = since.length === 0 && suspect.anatomy.dashes.length > 0;
      if (closed || (holdsItem && this.#next(index)?.indent === row.indent)) {
        tries += 1;
        if (this.#moveSuspect(suspect, since, index, anatomy)) return true;
        if (since.length === 0 && this.#dropSuspect(suspect, index, anatomy)) return true;
      }
      since.unshift(suspect);
      if (since.length > 500) break;
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
        this.#place(index, anatomy, row.indent);
      if (!fits) continue;
      const from = this.#offset(suspect.index);
      this.#noteColumn(suspect.index, from, column, this.#indentTo(suspect.index, column));
      return true;
    }
    return false;
  }

  #dropSuspect(suspect: Placed, index: number, anatomy: Anatomy): boolean {
    this.#levels = suspect.before;
    this.#last = suspect.prior;
    if (!this.#place(index, anatomy, this.#row(index).indent)) return false;
    const message =
      'This line starts at a column where no line of its block starts. Align it with its neighbours.';
    this.#blank(suspect.index, 'syntax/indentation', message);
    for (const line of suspect.continued) this.#blank(line, undefined, '');
    return true;
  }

  #placeAgain(placed: Placed, column: number): boolean {
    if (!this.#place(placed.index, placed.anatomy, column)) return false;
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

  /** Gives up what stands behind the dashes of a line, or else the line with the block below it. */
  #giveUpValue(index: number, code: SyntaxCode, message: string, facts: TextFinding['facts'] = {}): number {
    const last = this.#last as Placed;
    last.plain = false;
    if (last.anatomy.dashes.length > 0) last.opens = true;
    else {
      this.#levels = last.before;
      this.#last = last.prior;
    }
    return this.#giveUp(index, code, message, facts);
  }

  /** Gives up a line, and what is indented below it unless a dash is left to hold it. Gives the next line to judge. */
  #giveUp(index: number, code: SyntaxCode, message: string, facts: TextFinding['facts'] = {}): number {
    this.#blank(index, code, message, facts);
    const row = this.#row(index);
    let at = index + 1;
    if (beginsItem(this.#text, row)) return at;
    const closes = row.indent < (this.#levels.at(-1)?.column ?? 0);
    const alone = closes || isTabbed(row) || this.#fitsNext(index);
    const column = alone ? Number.POSITIVE_INFINITY : row.indent;
    while (at < this.#rows.length && (!hasContent(this.#row(at)) || this.#row(at).indent > column)) {
      if (hasContent(this.#row(at))) this.#blank(at, undefined, '');
      at += 1;
    }
    return at;
  }

  /** Whether the line below a line that is given up can stand without it. */
  #fitsNext(index: number): boolean {
    const next = this.#next(index);
    if (next === undefined) return true;
    const line = entrance(next, dissect(this.#text, next), next.indent);
    return enter(this.#levels, line, this.#opens()) !== undefined;
  }

  /**
   * Empties a line, with line ends in the place of its characters; its dashes stay when deeper lines follow. Without a
   * code, it goes with a line above it.
   */
  #blank(
    index: number,
    code: SyntaxCode | undefined,
    message: string,
    facts: TextFinding['facts'] = {},
  ): void {
    const row = this.#row(index);
    const span = { start: row.body, end: trimmedEnd(this.#text, row) };
    const next = this.#next(index);
    const anatomy = dissect(this.#text, row);
    const keepsDash = anatomy.dashes.length > 0 && next !== undefined && next.indent > row.indent;
    const from = keepsDash ? row.start + anatomy.column : row.start;
    const edits = [{ span: { start: from, end: row.end }, text: '\n'.repeat(Math.max(0, row.end - from)) }];
    const finding = code === undefined ? undefined : textFinding(code, span, message, { facts });
    this.#repairs.set(index, { finding, edits, blanked: span });
  }

  #note(
    index: number,
    code: SyntaxCode,
    message: string,
    edits: readonly Edit[],
    facts: TextFinding['facts'] = {},
  ): void {
    const row = this.#row(index);
    const span = { start: row.body, end: trimmedEnd(this.#text, row) };
    this.#repairs.set(index, {
      finding: textFinding(code, span, message, { facts }),
      edits,
      blanked: undefined,
    });
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
