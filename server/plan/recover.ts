import type { Span } from '../text/span.ts';
import type { ChunkReading } from './chunk-cache.ts';
import type { Expected } from './chunks.ts';
import { beginsItem, hasContent, nextContent, type Row, rowsOf, trimmedEnd } from './rows.ts';
import { type SyntaxCode, type TextFinding, textFinding } from './syntax.ts';
import type { Node } from './tree.ts';

/** Something in a text that its parser does not accept. */
export interface Fault {
  readonly at: number;
  readonly code: SyntaxCode;
  readonly message: string;
  /** Whether nothing of the text could be parsed. */
  readonly whole?: boolean;
}

/** What a parser makes of a text. The tree holds only while there are no faults. */
export interface RawText {
  readonly root: Node;
  readonly findings: readonly TextFinding[];
  readonly faults: readonly Fault[];
  readonly size: number;
}

/** How many lines, at most, are looked for one after the other in one chunk. */
const roundLimit = 10;
/** How many characters, at most, are parsed to find them. */
const effortLimit = 300_000;

/** The first thing that keeps the reading from being what was expected; undefined when it is sound. */
export function firstFault(raw: RawText, expected: Expected): Fault | undefined {
  let first: Fault | undefined;
  for (const fault of raw.faults) {
    if (first === undefined || fault.at < first.at) first = fault;
  }
  return first ?? (fits(raw.root, expected) ? undefined : misfit(raw.root, expected));
}

function fits(root: Node, expected: Expected): boolean {
  if (expected === 'any' || root.kind === 'empty') return true;
  if (expected === 'map') return root.kind === 'map' && !root.flow;
  return root.kind === 'sequence' && !root.flow && root.items.length === 1;
}

function misfit(root: Node, expected: Expected): Fault {
  const wanted = expected === 'map' ? '`key: value`' : '`- item`';
  const message = `This is no ${wanted}. Complete it, or remove it.`;
  return { at: root.span.start, code: 'syntax/half-written-line', message };
}

/** Lines to give up together, the first one being the one at fault. */
type Sacrifice = readonly number[];

/**
 * Reads a chunk that is at fault: gives up line after line until the rest can be read. Each step tries the lines
 * around the first fault, with or without the block below them, and takes what brings the parser furthest. After
 * `rounds` steps, all that stands behind the fault is given up. Offsets count from the start of the chunk.
 */
export function mend(
  text: string,
  expected: Expected,
  read: (text: string) => RawText,
  rounds = Math.max(1, Math.min(roundLimit, Math.floor(effortLimit / (6 * text.length + 1)))),
): Omit<ChunkReading, 'at'> {
  const findings: TextFinding[] = [];
  const blanked: Span[] = [];
  let current = text;
  let raw = read(current);
  let fault = firstFault(raw, expected);
  for (let round = 0; round < rounds && fault !== undefined && fault.whole !== true; round += 1) {
    const step = bestStep(current, fault, expected, read);
    if (step === undefined) break;
    report(text, step.rows, fault, findings, blanked);
    current = step.text;
    raw = step.raw;
    fault = step.fault;
  }
  if (fault === undefined)
    return { root: raw.root, findings: [...findings, ...raw.findings], blanked, size: raw.size };
  const step = keepFront(current, fault, expected, read);
  report(text, step.rows, fault, findings, blanked);
  return { root: step.raw.root, findings: [...findings, ...step.raw.findings], blanked, size: step.raw.size };
}

interface Step {
  readonly text: string;
  readonly rows: readonly Row[];
  readonly raw: RawText;
  readonly fault: Fault | undefined;
}

function bestStep(
  text: string,
  fault: Fault,
  expected: Expected,
  read: (text: string) => RawText,
): Step | undefined {
  const rows = rowsOf(text);
  let best: Step | undefined;
  for (const sacrifice of candidates(rows, fault.at)) {
    const blankedText = without(text, rows, sacrifice);
    const raw = read(blankedText);
    const left = firstFault(raw, expected);
    const step = { text: blankedText, rows: sacrifice.map((index) => rows[index] as Row), raw, fault: left };
    if (best === undefined || reach(step) > reach(best)) best = step;
  }
  return best;
}

/** How far the parser came; with fewer lines lost before more. */
function reach(step: Step): number {
  return (step.fault?.at ?? Number.MAX_SAFE_INTEGER / 2) - step.rows.length / 1e6;
}

/** The line of the fault, those before and after it, and each with the block below. */
function candidates(rows: readonly Row[], at: number): Sacrifice[] {
  let index = rows.length - 1;
  while (index > 0 && (rows[index] as Row).start > at) index -= 1;
  let before = index - 1;
  while (before >= 0 && !hasContent(rows[before] as Row)) before -= 1;
  const found: Sacrifice[] = [];
  for (const line of [index, before, nextContent(rows, index + 1)]) {
    const row = rows[line];
    if (row === undefined || !hasContent(row)) continue;
    const below = blockBelow(rows, line);
    found.push([line]);
    if (below.length > 0) found.push([line, ...below]);
  }
  return found;
}

function blockBelow(rows: readonly Row[], index: number): number[] {
  const column = (rows[index] as Row).indent;
  const below: number[] = [];
  for (let at = index + 1; at < rows.length; at += 1) {
    const row = rows[at] as Row;
    if (!hasContent(row)) continue;
    if (row.indent <= column) break;
    below.push(at);
  }
  return below;
}

/**
 * The text with the lines emptied: line ends take the place of their characters, so that offsets stay and no blanks are
 * left to lengthen a text after `|`. A dash with a block below it stays, so that the item remains one.
 */
function without(text: string, rows: readonly Row[], lines: Sacrifice): string {
  let result = text;
  for (const line of lines) {
    const row = rows[line] as Row;
    const below = rows[nextContent(rows, line + 1)];
    const rest = row.body + 2;
    const keepsDash =
      lines.length === 1 &&
      beginsItem(text, row) &&
      below !== undefined &&
      below.indent > row.indent &&
      text.slice(rest, row.end).trim() !== '';
    const from = keepsDash ? rest : row.start;
    result = result.slice(0, from) + '\n'.repeat(row.end - from) + result.slice(row.end);
  }
  return result;
}

/** The last resort: what stands before the fault, if that can be read; otherwise nothing. */
function keepFront(text: string, fault: Fault, expected: Expected, read: (text: string) => RawText): Step {
  const rows = rowsOf(text);
  const contents = rows.map((_, index) => index).filter((index) => hasContent(rows[index] as Row));
  const until = fault.whole === true ? 0 : fault.at;
  const front = contents.filter((index) => (rows[index] as Row).next <= until);
  for (const kept of [front.length, front.length - 1]) {
    if (kept <= 0) continue;
    const lost = contents.slice(kept);
    const from = rows[lost[0] ?? rows.length]?.start ?? text.length;
    const cut = text.slice(0, from);
    const raw = read(cut);
    if (firstFault(raw, expected) === undefined) {
      return { text: cut, rows: lost.map((index) => rows[index] as Row), raw, fault: undefined };
    }
  }
  const root: Node = { kind: 'empty', span: { start: 0, end: 0 } };
  const raw = { root, findings: [], faults: [], size: 1 };
  return { text: '', rows: contents.map((index) => rows[index] as Row), raw, fault: undefined };
}

function report(
  text: string,
  rows: readonly Row[],
  fault: Fault,
  findings: TextFinding[],
  blanked: Span[],
): void {
  rows.forEach((row, index) => {
    const original = rowsOf(text, row.start, row.next)[0];
    if (original === undefined) return;
    const span = { start: original.body, end: trimmedEnd(text, original) };
    blanked.push(span);
    if (index > 0) return;
    const more = rows.length > 1 ? ` It is left out, with the ${rows.length - 1} lines that go with it.` : '';
    findings.push(textFinding(fault.code, span, fault.message + more, { facts: { lines: rows.length } }));
  });
}
