import { shortened } from '../quantities/scan.ts';
import type { Edit } from '../text/edit.ts';
import { type Anatomy, dissect, hasMore, scanFlow } from './anatomy.ts';
import { LineRepairs, type Repair } from './lineRepairs.ts';
import type { Holds } from './outline.ts';
import type { Placed } from './placed.ts';
import { Placement } from './placement.ts';
import { beginsItem, hasContent, isTabbed, keyColon, nextContent, type Row, trimmedEnd } from './rows.ts';
import type { SyntaxCode } from './syntax.ts';

/** How many lines are repaired at once; a text with more broken lines has other troubles. */
const repairLimit = 1000;
/** Within how many lines a bracket or quote must close. */
const lookAhead = 500;

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
  holds: Holds,
): Repair | undefined {
  const repairs = new LineRepairs(text, rows);
  new Surgeon(text, rows, repairs, holds).operate();
  return repairs.outcome(atFault);
}

/** Closing brackets for a message: the first few, and how many more. */
function closersText(closers: string): string {
  const shown = 8;
  if (closers.length <= shown) return closers;
  return `${closers.slice(0, shown)} and ${closers.length - shown} more`;
}

class Surgeon {
  readonly #text: string;
  readonly #rows: readonly Row[];
  readonly #repairs: LineRepairs;
  readonly #placement: Placement;

  constructor(text: string, rows: readonly Row[], repairs: LineRepairs, holds: Holds) {
    this.#text = text;
    this.#rows = rows;
    this.#repairs = repairs;
    this.#placement = new Placement(text, rows, repairs, holds);
  }

  operate(): void {
    let index = 0;
    while (index < this.#rows.length && this.#repairs.size < repairLimit) {
      index = hasContent(this.#row(index)) ? this.#line(index) : index + 1;
    }
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
    if (this.#placement.place(index, anatomy, row.indent)) return this.#value(index, anatomy);
    return this.#misplaced(index, anatomy);
  }

  #continues(row: Row, anatomy: Anatomy): boolean {
    const last = this.#placement.last;
    if (last === undefined || anatomy.dashes.length > 0 || anatomy.key !== undefined) return false;
    return row.indent > last.owner && (last.opens || last.plain);
  }

  #continueValue(index: number, anatomy: Anatomy): number {
    const last = this.#placement.last as Placed;
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
    const placed = this.#placement.last as Placed;
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
    if (anatomy.form === 'block') return this.#endOfText(index, anatomy, owner);
    if (anatomy.open === '') return index + 1;
    const end = this.#closingLine(index, anatomy.open, owner);
    return end === undefined ? this.#close(index, anatomy) : end + 1;
  }

  /** The line behind a text after `|` or `>`: the first one less indented than the text's first line. */
  #endOfText(index: number, anatomy: Anatomy, owner: number): number {
    const given = /[1-9]/.test(this.#text.slice(anatomy.value.start, anatomy.value.end));
    let column: number | undefined;
    let at = index + 1;
    for (; at < this.#rows.length; at += 1) {
      const row = this.#row(at);
      if (row.first === 0) continue;
      if (row.indent <= owner || row.indent < (column ?? 0)) break;
      if (!given) column ??= row.indent;
    }
    return at;
  }

  /** The line further down where everything closes that is open at the end of this one. */
  #closingLine(index: number, open: string, owner: number): number | undefined {
    let left = open;
    const limit = Math.min(this.#rows.length, index + lookAhead);
    for (let at = index + 1; at < limit; at += 1) {
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
    const last = this.#placement.last as Placed;
    const next = this.#next(index);
    if (
      end === anatomy.value.start + 1 &&
      next !== undefined &&
      next.indent > last.owner &&
      this.#blockFollows(index)
    ) {
      last.opens = true;
      const edit = { span: { start: anatomy.value.start, end }, text: ' ' };
      this.#repairs.change(
        index,
        code,
        `${opener} opens here and is never closed. Remove it: the lines below are a block.`,
        [edit],
      );
      return index + 1;
    }
    last.plain = false;
    const { line, at, open } = this.#lastOfBrackets(index, anatomy);
    const closers = [...open].reverse().join('');
    const message = `${quoted ? 'This quote' : 'This bracket'} is not closed. Write ${closersText(closers)} at the end of the value.`;
    const edit = { span: { start: at, end: at }, text: closers };
    this.#repairs.change(index, code, message, [edit]);
    return line + 1;
  }

  /** How far brackets that never close go on: as long as a comma ends the line and the next one is deeper. */
  #lastOfBrackets(index: number, anatomy: Anatomy): { line: number; at: number; open: string } {
    const owner = (this.#placement.last as Placed).owner;
    let found = { line: index, at: anatomy.value.end, open: anatomy.open };
    while (this.#text[found.at - 1] === ',' && !/["']$/.test(found.open)) {
      const line = nextContent(this.#rows, found.line + 1);
      const row = this.#rows[line];
      if (row === undefined || row.indent <= owner || line > index + lookAhead) break;
      const scan = scanFlow(this.#text, row.body, row.end, found.open);
      if (scan.mismatch || scan.open === '') break;
      found = { line, at: trimmedEnd(this.#text, { start: row.start, end: scan.at }), open: scan.open };
    }
    return found;
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
    const message = `${reason}: ${quote}${shortened(value)}${quote}.`;
    (this.#placement.last as Placed).plain = false;
    const edits = [start, end].map((at) => ({ span: { start: at, end: at }, text: quote }));
    this.#repairs.change(index, code, message, edits);
    return index + 1;
  }

  /** A line of text where only keys or items may stand. */
  #word(index: number, anatomy: Anatomy): number {
    const row = this.#row(index);
    const start = row.body;
    const written = this.#text.slice(start, anatomy.value.end);
    const supplied = this.#supplied(written, start, anatomy, index);
    if (supplied !== undefined && this.#placeEdited(index, supplied.edit)) {
      const { edit, code, message } = supplied;
      this.#repairs.change(index, code, message, [edit]);
      return index + 1;
    }
    if (anatomy.open !== '' && anatomy.form === 'quoted') {
      const message = 'This quote is not closed, and no key stands before it. Close it, or remove it.';
      return this.#giveUp(index, 'syntax/unclosed-quote', message);
    }
    const key = /^([\p{L}_][\p{L}\p{N}_-]*)[ \t]+(?=\S)/u.exec(written);
    if (key !== null) {
      const message = `A colon is missing: \`${shortened(`${key[1]}: ${written.slice(key[0].length)}`)}\`?`;
      const at = start + (key[1] as string).length;
      return this.#giveUp(index, 'syntax/colon-missing', message, [
        { span: { start: at, end: at }, text: ':' },
      ]);
    }
    const message = `This line is no \`key: value\`. Complete it, as in \`${written.slice(0, 40)}: …\`, or remove it.`;
    return this.#giveUp(index, 'syntax/half-written-line', message);
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
      const message = `A space must follow the colon: \`${shortened(`${glued} ${written.slice(glued.length)}`)}\`.`;
      return { edit: { span: { start: at, end: at }, text: ' ' }, code: 'syntax/space-missing', message };
    }
    const below = this.#next(index);
    if (/^[\p{L}_][\p{L}\p{N}_-]*$/u.test(written) && below !== undefined && this.#blockFollows(index)) {
      if (below.indent <= this.#row(index).indent) return undefined;
      const at = start + written.length;
      const message = `A colon is missing: \`${shortened(written)}:\`.`;
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
    return this.#placement.place(index, anatomy, row.indent);
  }

  /** A line behind tabs: it goes to the column where it fits. */
  #tabbed(index: number, anatomy: Anatomy): number {
    const message = 'A tab stands in front of this line, where only spaces may. Replace it with spaces.';
    for (const column of this.#placement.likelyColumns(index, anatomy)) {
      if (anatomy.dashes.length === 0 && anatomy.key === undefined) break;
      if (!this.#placement.place(index, anatomy, column)) continue;
      const next = this.#value(index, anatomy);
      this.#repairs.move(index, 'syntax/tab', message, column);
      return next;
    }
    return this.#giveUp(index, 'syntax/tab', message);
  }

  /** A line at a column where it cannot stand: a line above it, or this one, must give way. */
  #misplaced(index: number, anatomy: Anatomy): number {
    const row = this.#row(index);
    const placement = this.#placement;
    if (this.#gluedDash(index) || this.#lostDash(index, anatomy)) return index + 1;
    const blamed =
      placement.blameValue(index, anatomy) ||
      placement.blameLostDash(index, anatomy) ||
      placement.blameText(index, anatomy) ||
      placement.blameFirst(index, anatomy) ||
      placement.blameHead(index, anatomy) ||
      placement.blameAbove(index, anatomy);
    if (blamed) return this.#value(index, anatomy);
    for (const column of placement.likelyColumns(index, anatomy)) {
      if (!placement.place(index, anatomy, column)) continue;
      const next = this.#value(index, anatomy);
      placement.moveTo(index, column);
      return next;
    }
    const message = `This line starts at column ${row.indent + 1}, where no line of its block starts. Align it with its neighbours.`;
    return this.#giveUp(index, 'syntax/indentation', message);
  }

  /** Whether the line is an item of a list that lacks the space behind its dash. */
  #gluedDash(index: number): boolean {
    const { body } = this.#row(index);
    if (this.#text[body] !== '-') return false;
    const edit = { span: { start: body + 1, end: body + 1 }, text: ' ' };
    if (!this.#placeEdited(index, edit)) return false;
    const message = 'A space must follow the dash.';
    this.#repairs.change(index, 'syntax/space-missing', message, [edit]);
    return true;
  }

  /** Whether the line is the first of an item that lacks its dash: it would repeat a key of the item above. */
  #lostDash(index: number, anatomy: Anatomy): boolean {
    if (!this.#placement.repeatsKeyAtDash(index, anatomy)) return false;
    const { body } = this.#row(index);
    const edit = { span: { start: body, end: body }, text: '- ' };
    if (!this.#placeEdited(index, edit)) return false;
    const written = this.#text.slice(body, anatomy.value.end).slice(0, 40);
    const message = `This item has no dash, as the one above it has. Write \`- ${written}\`.`;
    this.#repairs.change(index, 'syntax/dash-missing', message, [edit]);
    return true;
  }

  /** Gives up what stands behind the dashes of a line, or else the line with the block below it. */
  #giveUpValue(index: number, code: SyntaxCode, message: string): number {
    const last = this.#placement.last as Placed;
    last.plain = false;
    if (last.anatomy.dashes.length > 0) last.opens = true;
    else this.#placement.withdraw();
    return this.#giveUp(index, code, message);
  }

  /** Gives up a line, and what is indented below it unless a dash is left to hold it. Gives the next line to judge. */
  #giveUp(index: number, code: SyntaxCode, message: string, mend: readonly Edit[] = []): number {
    this.#repairs.empty(index, code, message, mend);
    const row = this.#row(index);
    let at = index + 1;
    if (beginsItem(this.#text, row)) return at;
    const closes = row.indent < this.#placement.column;
    const alone = closes || isTabbed(row) || this.#placement.fitsNext(index);
    const column = alone ? Number.POSITIVE_INFINITY : row.indent;
    while (at < this.#rows.length && (!hasContent(this.#row(at)) || this.#row(at).indent > column)) {
      if (hasContent(this.#row(at))) this.#repairs.empty(at);
      at += 1;
    }
    return at;
  }
}
