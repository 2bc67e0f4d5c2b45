import type { Edit } from '../text/edit.ts';
import type { Span } from '../text/span.ts';
import { dissect } from './anatomy.ts';
import { backThrough, type TextMap } from './move.ts';
import { nextContent, type Row, trimmedEnd } from './rows.ts';
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
  readonly findings: readonly TextFinding[];
  /** In order. */
  readonly edits: readonly Edit[];
  readonly blanked: Span | undefined;
}

/** What is to be changed in a text, line by line. Nothing changes until all is known. */
export class LineRepairs {
  readonly #text: string;
  readonly #rows: readonly Row[];
  readonly #lines = new Map<number, LineRepair>();

  constructor(text: string, rows: readonly Row[]) {
    this.#text = text;
    this.#rows = rows;
  }

  /** How many lines are to be changed. */
  get size(): number {
    return this.#lines.size;
  }

  /** Whether anything is to be done about a line. */
  has(index: number): boolean {
    return this.#lines.has(index);
  }

  /**
   * Changes a line behind its indentation, in the place of what was to be done about it before. `span` is what the finding
   * marks, if not the line.
   */
  change(index: number, code: SyntaxCode, message: string, edits: readonly Edit[], span?: Span): void {
    const finding = {
      ...this.#finding(index, code, message, edits),
      ...(span === undefined ? {} : { span }),
    };
    this.#lines.set(index, { findings: [finding], edits, blanked: undefined });
  }

  /** Moves a line to another column, on top of what else is done about it. */
  move(index: number, code: SyntaxCode, message: string, column: number): void {
    const { body } = this.#rows[index] as Row;
    const known = this.#lines.get(index);
    if (known?.edits.some((edit) => edit.span.start < body) === true) return;
    this.lead(index, code, message, ' '.repeat(column));
  }

  /** Puts a text in the place of the blanks that lead a line, whatever was to be put there before. */
  lead(index: number, code: SyntaxCode, message: string, text: string): void {
    const { start, body } = this.#rows[index] as Row;
    const known = this.#lines.get(index);
    const others = (known?.edits ?? []).filter((edit) => edit.span.start >= body);
    const edit = { span: { start, end: body }, text };
    const finding = this.#finding(index, code, message, [edit]);
    const edits = [edit, ...others];
    const led = known !== undefined && others.length < known.edits.length;
    this.#lines.set(index, {
      findings: [finding, ...(known?.findings.slice(led ? 1 : 0) ?? [])],
      edits,
      blanked: known?.blanked,
    });
  }

  /**
   * Empties a line, with line ends in the place of its characters; its dashes stay when deeper lines follow. Without a
   * code, it goes with a line above it. `mend` is what might mend it, to be offered and not done.
   */
  empty(index: number, code?: SyntaxCode, message = '', mend: readonly Edit[] = []): void {
    const row = this.#rows[index] as Row;
    const span = this.#content(index);
    const next = this.#rows[nextContent(this.#rows, index + 1)];
    const { dashes, column } = dissect(this.#text, row);
    const keepsDash = dashes.length > 0 && next !== undefined && next.indent > row.indent;
    const start = keepsDash ? row.start + column : row.start;
    const edits = [{ span: { start, end: row.end }, text: '\n'.repeat(Math.max(0, row.end - start)) }];
    const findings = code === undefined ? [] : [this.#finding(index, code, message, mend)];
    this.#lines.set(index, { findings, edits, blanked: span });
  }

  /** The text with the changes of all lines for which `chosen` holds; undefined when there are none. */
  outcome(chosen: (index: number) => boolean): Repair | undefined {
    const lines = [...this.#lines].filter(([index]) => chosen(index)).sort(([a], [b]) => a - b);
    if (lines.length === 0) return undefined;
    const edits = lines.flatMap(([, line]) => line.edits);
    return {
      text: spliced(this.#text, edits),
      toOriginal: backThrough(edits),
      findings: lines.flatMap(([, line]) => line.findings),
      blanked: lines.flatMap(([, line]) => line.blanked ?? []),
    };
  }

  #finding(index: number, code: SyntaxCode, message: string, mend: readonly Edit[]): TextFinding {
    const edits = mend.map(({ span, text }) => ({ start: span.start, end: span.end, text }));
    return textFinding(code, this.#content(index), message, edits.length === 0 ? {} : { facts: { edits } });
  }

  #content(index: number): Span {
    const row = this.#rows[index] as Row;
    return { start: row.body, end: trimmedEnd(this.#text, row) };
  }
}

/** The text after edits that are in order, in one go: there may be very many. */
function spliced(text: string, edits: readonly Edit[]): string {
  const parts: string[] = [];
  let at = 0;
  for (const edit of edits) {
    parts.push(text.slice(at, edit.span.start), edit.text);
    at = edit.span.end;
  }
  parts.push(text.slice(at));
  return parts.join('');
}
