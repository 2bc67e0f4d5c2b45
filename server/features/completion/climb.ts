import { type Anatomy, dissect } from '../../plan/anatomy.ts';
import { hasContent, type Row, trimmedEnd } from '../../plan/rows.ts';

/** One step from a collection to what is in it. `at`: the offset of the key, or of the dash. */
export type Step =
  | { readonly kind: 'key'; readonly name: string; readonly at: number }
  | { readonly kind: 'item'; readonly at: number };

/** What stands above a line. */
export interface Above {
  /** From the document to the collection that the line is in. */
  readonly path: readonly Step[];
  /** Keys of the same mapping. */
  readonly siblings: readonly string[];
  /** The column of its neighbours, when the line itself stands at another one but can belong to no other collection. */
  readonly align?: number;
  /** Whether the line continues a text further up, so that nothing begins on it. */
  readonly inText: boolean;
}

/** The name of the key of a line, quotes removed. */
export function keyName(text: string, anatomy: Anatomy): string | undefined {
  const { key } = anatomy;
  if (key === undefined) return undefined;
  const end = trimmedEnd(text, { start: key.start, end: key.colon });
  const name = text.slice(key.start, end);
  return /^(?:".*"|'.*')$/.test(name) ? name.slice(1, -1) : name;
}

/** The steps that a line itself takes: its dashes and its key. */
export function stepsOf(text: string, row: Row, anatomy: Anatomy): readonly Step[] {
  const name = keyName(text, anatomy);
  return [
    ...anatomy.dashes.map((dash): Step => ({ kind: 'item', at: row.start + dash })),
    ...(name === undefined ? [] : [{ kind: 'key', name, at: anatomy.key?.start ?? 0 } as const]),
  ];
}

/** Climbs from a line to the document: what it belongs to, by the indentation of the lines above. */
export function climb(text: string, rows: readonly Row[], index: number, line: Anatomy): Above {
  const climber = new Climber(text, line);
  for (let at = index - 1; at >= 0 && !climber.done; at -= 1) {
    const row = rows[at] as Row;
    if (hasContent(row)) climber.pass(row);
  }
  return climber.above(rows, index);
}

class Climber {
  readonly #text: string;
  readonly #steps: Step[] = [];
  readonly #siblings: string[] = [];
  /** Keys and dashes further right than the line, since the last line that it could belong to. */
  #deeper: { readonly column: number; readonly name?: string }[] = [];
  #align: number | undefined;
  #inText = false;
  #column: number;
  #seeks: 'key' | 'dash';
  /** Where the collection of the line begins: its column must be greater. */
  #parentColumn = -1;

  constructor(text: string, line: Anatomy) {
    this.#text = text;
    this.#seeks = line.dashes.length > 0 ? 'dash' : 'key';
    this.#column = line.dashes[0] ?? line.column;
  }

  /** Whether the mapping of the document is reached and all that is wanted of it is known. */
  get done(): boolean {
    return this.#steps.length > 0 && this.#column === 0 && this.#seeks === 'key';
  }

  /** Takes one line further up into account, from its right end to its left. */
  pass(row: Row): void {
    const anatomy = dissect(this.#text, row);
    this.#passKey(row, anatomy);
    for (const dash of [...anatomy.dashes].reverse()) this.#passDash(row, dash, anatomy);
  }

  #passKey(row: Row, anatomy: Anatomy): void {
    const { column } = anatomy;
    const name = keyName(this.#text, anatomy);
    if (name === undefined) {
      const isText = anatomy.dashes.length === 0 && anatomy.form !== 'none';
      if (isText && column < this.#column && this.#steps.length === 0 && this.#seeks === 'key')
        this.#inText = true;
      return;
    }
    if (this.#seeks === 'key' && column === this.#column) {
      if (this.#steps.length === 0) this.#siblings.push(name);
    } else if (column < this.#column || (this.#seeks === 'dash' && column === this.#column)) {
      if (this.#steps.length === 0 && anatomy.form !== 'none') this.#inText = true;
      this.#enter({ kind: 'key', name, at: anatomy.key?.start ?? row.start }, column, 'key');
    } else this.#passDeeper(column, name);
  }

  #passDash(row: Row, dash: number, anatomy: Anatomy): void {
    if (dash < this.#column) {
      if (this.#steps.length === 0 && this.#seeks === 'key' && anatomy.key === undefined) {
        if (anatomy.form !== 'none') this.#inText = true;
      }
      this.#enter({ kind: 'item', at: row.start + dash }, dash, 'dash');
    } else if (this.#seeks === 'key') this.#passDeeper(dash);
  }

  #passDeeper(column: number, name?: string): void {
    if (this.#steps.length === 0) this.#deeper.push({ column, ...(name === undefined ? {} : { name }) });
  }

  #enter(step: Step, column: number, seeks: 'key' | 'dash'): void {
    if (this.#steps.length === 0) {
      this.#parentColumn = column;
      this.#alignToDeeper(column);
    }
    this.#steps.push(step);
    this.#column = column;
    this.#seeks = seeks;
  }

  /** A line that has no neighbour at its own column belongs to the ones further right, if there are any. */
  #alignToDeeper(parent: number): void {
    if (this.#siblings.length > 0 || this.#seeks !== 'key') return;
    const nearest = this.#deeper.at(-1);
    if (nearest === undefined || nearest.column <= parent) return;
    this.#align = nearest.column;
    for (const { column, name } of this.#deeper) {
      if (column === nearest.column && name !== undefined) this.#siblings.push(name);
    }
  }

  above(rows: readonly Row[], index: number): Above {
    const align = this.#align ?? this.#alignBelow(rows, index);
    return {
      path: [...this.#steps].reverse(),
      siblings: this.#siblings,
      inText: this.#inText,
      ...(align === undefined ? {} : { align }),
    };
  }

  /** Without neighbours above, those below decide. */
  #alignBelow(rows: readonly Row[], index: number): number | undefined {
    if (this.#siblings.length > 0 || this.#deeper.length > 0 || this.#steps.length === 0) return undefined;
    const next = rows.slice(index + 1).find(hasContent);
    if (next === undefined) return undefined;
    return next.indent > this.#parentColumn ? next.indent : undefined;
  }
}

/** The keys of the same mapping on the lines below: those at `column`, up to a line further left or a dash. */
export function siblingsBelow(
  text: string,
  rows: readonly Row[],
  index: number,
  column: number,
  dash: number,
): readonly string[] {
  const names: string[] = [];
  let own = dash >= 0 ? undefined : column;
  for (let at = index + 1; at < rows.length; at += 1) {
    const row = rows[at] as Row;
    if (!hasContent(row)) continue;
    const anatomy = dissect(text, row);
    const starts = anatomy.dashes[0] ?? anatomy.column;
    if (dash >= 0 ? starts <= dash : starts < column) break;
    own ??= starts;
    if (starts !== own) continue;
    // A list that is not indented belongs to the key above it.
    if (anatomy.dashes.length > 0) continue;
    const name = keyName(text, anatomy);
    if (name !== undefined) names.push(name);
  }
  return names;
}
