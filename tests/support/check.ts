import { expect } from 'vitest';
import { type Analysis, analyse, type Opened, type Settings } from '../../server/analysis.ts';
import { rules } from '../../server/checks/list.ts';
import { applyEdits } from '../../server/text/edit.ts';
import type { Finding, Fix, Severity } from '../../server/text/finding.ts';
import { Lines } from '../../server/text/lines.ts';
import type { Span } from '../../server/text/span.ts';

/**
 * Marked text: under a line of a plan or a kit stand comment lines that say what is found in it.
 *
 *     start: 05:40
 *     #      ^^^^^ warning time/late-start
 *
 * The carets cover the range; behind them stand severity and code, and if wanted a colon and a part of the message.
 * Several such lines may follow one line. What begins in the first column is marked `#<^^`, with the `<` and its
 * neighbour counting as the first two columns; what goes on below its line ends in dots, `^^^...`; an empty range is a
 * bar, `|`. The marks are taken out before the text is read.
 */

/** Where the documents of these tests live. */
export const planUri = 'file:///outing/plans/test.shootplan.yaml';
export const kitUri = 'file:///outing/kit/field-bag.shootkit.yaml';

export interface CheckOptions {
  /** The text of the kit file that plans name as `../kit/field-bag.shootkit.yaml`; `smallKit()` when left out. */
  readonly kit?: string;
  readonly settings?: Settings;
  /** Compare only findings of these codes or families (`time/late-start`, `time/`). Rules still run all together. */
  readonly only?: readonly string[];
  /** Read the text as a kit file. */
  readonly asKit?: boolean;
}

interface Mark {
  /** The line of the plain text that it stands under. */
  readonly line: number;
  readonly start: number;
  /** Of the line; Infinity when the range goes on below. */
  readonly end: number;
  readonly severity: string;
  readonly code: string;
  readonly part: string;
  readonly written: string;
}

const markLine = /^([ \t]*)#(<?)([ \t]*)(\^*|\|)(\.\.\.)? (error|warning|hint) ([a-z]+\/[a-z-]+)(?:: (.*))?$/;

/** Takes the marks out of a text. */
export function unmarked(marked: string): { readonly text: string; readonly marks: readonly Mark[] } {
  const parts = marked.split(/(?<=\r\n|\n)/);
  const kept: string[] = [];
  const marks: Mark[] = [];
  for (const part of parts) {
    const written = part.replace(/\r?\n$/, '');
    const match = markLine.exec(written);
    if (match === null) {
      if (/^\s*#.*\^/.test(written)) throw new Error(`This looks like a mark and is none: ${written}`);
      kept.push(part);
      continue;
    }
    const [, indent = '', atStart, gap = '', carets = '', dots, severity = '', code = '', text = ''] = match;
    const start = atStart === '<' ? 0 : indent.length + 1 + gap.length;
    const width = carets === '|' ? 0 : carets.length + (atStart === '<' ? 2 : 0);
    const end = dots === undefined ? start + width : Number.POSITIVE_INFINITY;
    marks.push({ line: kept.length - 1, start, end, severity, code, part: text.trim(), written });
  }
  return { text: kept.join(''), marks };
}

/** Analyses a plan, or a kit, with all rules. */
export function analysed(text: string, options: CheckOptions = {}): Analysis {
  const open = (uri: string): Opened =>
    uri === kitUri ? { kind: 'text', uri, text: options.kit ?? smallKit() } : { kind: 'missing' };
  return analyse(
    { uri: options.asKit === true ? kitUri : planUri, text },
    { rules, open, ...(options.settings === undefined ? {} : { settings: options.settings }) },
  );
}

/** Analyses a marked text and compares: every mark must be found, and every finding marked. */
export function check(marked: string, options: CheckOptions = {}): Analysis {
  const { text, marks } = unmarked(marked);
  const analysis = analysed(text, options);
  const shown = remarked(text, marks, wanted(analysis, options));
  expect(shown).toBe(marked.replaceAll('\r\n', '\n'));
  return analysis;
}

/**
 * Takes the fix of that title, which one of the findings must offer exactly once, and returns the text after it;
 * `kit` is the text of the kit after it.
 */
export function mended(
  marked: string,
  title: string,
  options: CheckOptions = {},
): { readonly text: string; readonly kit: string } {
  const { text } = unmarked(marked);
  const analysis = analysed(text, options);
  const offered = wanted(analysis, options).flatMap((finding) => fixesOf(finding, analysis));
  const [fix, ...more] = offered.filter((candidate) => candidate.title === title);
  if (fix === undefined || more.length > 0) {
    throw new Error(`Offered is: ${offered.map((candidate) => candidate.title).join(' | ') || 'nothing'}`);
  }
  const after = (uri: string, before: string) =>
    applyEdits(
      before,
      fix.edits.filter((edit) => edit.uri === uri),
    );
  return { text: after(analysis.uri, text), kit: after(kitUri, options.kit ?? smallKit()) };
}

/**
 * Takes the fix of that title, compares the text after it, and checks it again: `expected` may be marked itself, and
 * what is not marked must be gone.
 */
export function checkFix(marked: string, title: string, expected: string, options: CheckOptions = {}): void {
  const after = mended(marked, title, options);
  expect(after.text.replaceAll('\r\n', '\n')).toBe(unmarked(expected.replaceAll('\r\n', '\n')).text);
  check(expected, { ...options, kit: after.kit });
}

/** The titles of all fixes that the findings of a text offer. */
export function fixTitles(marked: string, options: CheckOptions = {}): readonly string[] {
  const analysis = analysed(unmarked(marked).text, options);
  return wanted(analysis, options).flatMap((finding) => fixesOf(finding, analysis).map(({ title }) => title));
}

function fixesOf(finding: Finding, analysis: Analysis): readonly Fix[] {
  return rules.find((rule) => rule.code === finding.code)?.fixes?.(finding, analysis) ?? [];
}

function wanted(analysis: Analysis, { only }: CheckOptions): readonly Finding[] {
  if (only === undefined) return analysis.findings;
  return analysis.findings.filter(({ code }) =>
    only.some((name) => (name.endsWith('/') ? code.startsWith(name) : code === name)),
  );
}

/** The text with its findings as marks: those that agree with a mark as it was written, others with their message. */
function remarked(text: string, marks: readonly Mark[], findings: readonly Finding[]): string {
  const lines = new Lines(text);
  const unused = new Set(findings);
  const agreed = new Set<Mark>();
  for (const mark of marks) {
    for (const finding of unused) {
      if (!agrees(mark, finding, lines)) continue;
      unused.delete(finding);
      agreed.add(mark);
      break;
    }
  }
  const shown: string[] = [];
  for (let line = 0; line < lines.count; line += 1) {
    const { start, end } = lines.lineSpan(line);
    shown.push(text.slice(start, end));
    for (const mark of marks) if (mark.line === line && agreed.has(mark)) shown.push(mark.written);
    for (const finding of unused) {
      const at = lines.position(finding.span.start);
      if (at.line === line) shown.push(markOf(finding, at.character, end - start));
    }
  }
  return shown.join('\n');
}

function agrees(mark: Mark, { span, severity, code, message }: Finding, lines: Lines): boolean {
  const line = lines.lineSpan(mark.line);
  const ends =
    mark.end === Number.POSITIVE_INFINITY ? span.end > line.end : span.end === line.start + mark.end;
  return (
    span.start === line.start + mark.start &&
    ends &&
    severity === (mark.severity as Severity) &&
    code === mark.code &&
    message.includes(mark.part)
  );
}

function markOf({ span, severity, code, message }: Finding, column: number, lineLength: number): string {
  const length = span.end - span.start;
  const below = column + length > lineLength;
  const width = below ? lineLength - column : length;
  const carets = width === 0 && !below ? '|' : '^'.repeat(Math.max(width - (column === 0 ? 2 : 0), 0));
  const lead = column === 0 ? '#<' : `#${' '.repeat(column - 1)}`;
  return `${lead}${carets}${below ? '...' : ''} ${severity} ${code}: ${message}`;
}

/** What `smallKit` takes instead of its own lines. Each is one flow mapping. */
export interface KitParts {
  readonly bodies?: readonly string[];
  readonly film?: readonly string[];
  readonly lenses?: readonly string[];
  readonly filters?: readonly string[];
  /** Further lines at the top level, such as `carried: [headlamp]`. */
  readonly more?: string;
}

/** A small kit in which everything fits together. */
export function smallKit(parts: KitParts = {}): string {
  const {
    bodies = [
      '{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, shutter: 1/8000 s .. 30 s, dial: 1/3 stop, bulb: up to 30 min, range: 12 stops }',
    ],
    film = [],
    lenses = ['{ id: wide, focal: 16-35 mm, aperture: f/4 .. f/22, thread: 77 mm }'],
    filters = [
      '{ id: nd6, kind: neutral density, strength: 6 stops, thread: 77 mm }',
      '{ id: pol, kind: polarizer, loss: 1.5 stops, thread: 77 mm }',
    ],
    more = '',
  } = parts;
  const lists = { bodies, film, lenses, filters };
  const blocks = Object.entries(lists)
    .filter(([, items]) => items.length > 0)
    .map(([key, items]) => `${key}:\n${items.map((item) => `  - ${item}\n`).join('')}`);
  return `kit: Field bag\n${blocks.join('')}${more === '' ? '' : `${more}\n`}`;
}

/** The span of the first place where a text stands in another. */
export function spanOf(text: string, part: string): Span {
  const start = text.indexOf(part);
  if (start < 0) throw new Error(`“${part}” does not stand in the text.`);
  return { start, end: start + part.length };
}
