import type { Analysis } from '../analysis.ts';
import { type Anatomy, dissect } from '../plan/anatomy.ts';
import { hasContent, indexOfRow, isBlank, nextContent, type Row, trimmedEnd } from '../plan/rows.ts';
import type { Node } from '../plan/tree.ts';
import { parseText } from '../plan/yaml.ts';
import { applyEdits, type Edit } from '../text/edit.ts';
import type { Span } from '../text/span.ts';
import { nextToken } from './flowTokens.ts';
import { type Layout, layoutOf, meaning } from './format/layout.ts';

/** How many empty lines may follow one another. */
const mostEmpty = 2;

/**
 * The edits that tidy a document: no blanks at the ends of lines, one space behind a colon, a dash and a comma between
 * brackets, at most two empty lines, a line end at the end. Indentation, quotes, comments and their columns, long lines
 * and line ends stay as they are. A document with errors of YAML is left alone, and so is one that would say something
 * else afterwards.
 */
export function format(analysis: Analysis): readonly Edit[] {
  const document = analysis.kind === 'plan' ? analysis.plan : analysis.kit;
  if (document === undefined) return [];
  const isBroken = document.findings.some(
    ({ code, severity }) => code.startsWith('syntax/') && severity === 'error',
  );
  const isSecond = document.findings.some(({ code }) => code === 'syntax/second-document');
  if (isBroken || isSecond) return [];
  const edits = tidied(layoutOf(analysis.text, document.root));
  return edits.length > 0 && says(applyEdits(analysis.text, edits), document.root) ? edits : [];
}

/** Whether a text says what the tree says, without errors. */
function says(text: string, root: Node): boolean {
  const after = parseText(text);
  const isSound = after.findings.every(({ severity }) => severity !== 'error');
  return isSound && JSON.stringify(meaning(after.root)) === JSON.stringify(meaning(root));
}

function tidied(layout: Layout): readonly Edit[] {
  const { rows, kept, text } = layout;
  const spacing = new Map<number, Edit[]>();
  const comments = new Map<number, number>();
  const inner = tidyBrackets(layout, spacing, comments);
  for (const [index, row] of rows.entries()) {
    if (kept.has(index) || inner.has(index) || !hasContent(row)) continue;
    const anatomy = dissect(text, row);
    add(spacing, index, [...dashSpaces(layout, index, anatomy), ...colonSpace(text, row, anatomy)]);
    const comment = commentOf(text, row, anatomy);
    if (comment !== undefined) comments.set(index, comment);
  }
  const edits = [...spacing].flatMap(([index, list]) =>
    kept.has(index) ? [] : [...list, ...commentGap(layout, index, list, comments)],
  );
  return [...edits, ...lineEnds(layout), ...emptyLines(layout), ...lastLineEnd(layout)].sort(
    (a, b) => a.span.start - b.span.start,
  );
}

function add(spacing: Map<number, Edit[]>, index: number, edits: readonly Edit[]): void {
  if (edits.length === 0) return;
  const list = spacing.get(index) ?? [];
  list.push(...edits);
  spacing.set(index, list);
}

/** The edit that makes a run of blanks one space; none where that stands already. */
function oneSpace(text: string, start: number): readonly Edit[] {
  let end = start;
  while (isBlank(text.charCodeAt(end))) end += 1;
  return text.slice(start, end) === ' ' ? [] : [{ span: { start, end }, text: ' ' }];
}

/** The first character behind the blanks at `at`; a line end at the end of the text. */
function charBehind(text: string, at: number): string {
  let next = at;
  while (isBlank(text.charCodeAt(next))) next += 1;
  return text[next] ?? '\n';
}

/** Whether something other than a comment stands on the line behind the blanks at `at`. */
function isFollowed(text: string, at: number): boolean {
  return !'\n\r#'.includes(charBehind(text, at));
}

/** Behind dashes; only where the item ends with its line, since the lines below it would have to move along. */
function dashSpaces({ text, rows }: Layout, index: number, anatomy: Anatomy): readonly Edit[] {
  const { dashes } = anatomy;
  const [first] = dashes;
  if (first === undefined) return [];
  const row = rows[index] as Row;
  const below = rows[nextContent(rows, index + 1)];
  if (below !== undefined && below.indent > first) return [];
  return dashes.flatMap((dash) => {
    const behind = row.start + dash + 1;
    return isFollowed(text, behind) ? oneSpace(text, behind) : [];
  });
}

function colonSpace(text: string, row: Row, { key }: Anatomy): readonly Edit[] {
  if (key === undefined || key.colon + 1 >= row.end || !isFollowed(text, key.colon + 1)) return [];
  return oneSpace(text, key.colon + 1);
}

/** Where the comment behind the value of a line begins. */
function commentOf(text: string, row: Row, { value }: Anatomy): number | undefined {
  let at = value.end;
  while (at < row.end && isBlank(text.charCodeAt(at))) at += 1;
  return at < row.end && text[at] === '#' ? at : undefined;
}

/** Behind commas and colons between brackets. Gives the lines on which a collection goes on. */
function tidyBrackets(
  { text, rows, kept, brackets }: Layout,
  spacing: Map<number, Edit[]>,
  comments: Map<number, number>,
): ReadonlySet<number> {
  const inner = new Set<number>();
  for (const span of brackets) {
    const first = indexOfRow(rows, span.start);
    const last = indexOfRow(rows, Math.max(span.start, span.end - 1));
    let isKept = false;
    for (let index = first; index <= last; index += 1) {
      if (index > first) inner.add(index);
      isKept ||= kept.has(index);
    }
    // Quotes that go over lines are not taken apart.
    if (isKept) continue;
    for (const { index, edits, comment } of bracketTokens(text, rows, span)) {
      add(spacing, index, edits);
      if (comment !== undefined) comments.set(index, comment);
    }
  }
  return inner;
}

function* bracketTokens(text: string, rows: readonly Row[], span: Span) {
  let at = span.start;
  while (at < span.end) {
    const token = nextToken(text, at, span.end);
    if (token === undefined) return;
    at = token.span.end;
    const index = indexOfRow(rows, token.span.start);
    if (token.kind === 'comment') yield { index, edits: [], comment: token.span.start };
    const isSign = token.kind === ',' || (token.kind === ':' && isBlank(text.charCodeAt(at)));
    if (isSign && isFollowed(text, at) && !']},'.includes(charBehind(text, at))) {
      yield { index, edits: oneSpace(text, at), comment: undefined };
    }
  }
}

/** The blanks before a comment, so that it keeps its column where that is on purpose. */
function commentGap(
  { text, rows }: Layout,
  index: number,
  edits: readonly Edit[],
  comments: ReadonlyMap<number, number>,
): readonly Edit[] {
  const comment = comments.get(index);
  if (comment === undefined) return [];
  const row = rows[index] as Row;
  let start = comment;
  while (start > row.start && isBlank(text.charCodeAt(start - 1))) start -= 1;
  const grown = edits.reduce((sum, edit) => sum + edit.text.length - (edit.span.end - edit.span.start), 0);
  const column = comment - row.start;
  const isAligned =
    comment - start > 1 ||
    [index - 1, index + 1].some((other) => {
      const at = comments.get(other);
      return at !== undefined && at - (rows[other] as Row).start === column;
    });
  if (grown === 0 || !isAligned) return [];
  const gap = ' '.repeat(Math.max(1, comment - start - grown));
  return [{ span: { start, end: comment }, text: gap }];
}

/** Blanks at the ends of lines. */
function lineEnds({ text, rows, kept }: Layout): readonly Edit[] {
  return rows.flatMap((row, index) => {
    if (kept.has(index)) return [];
    const start = trimmedEnd(text, row);
    return start === row.end ? [] : [{ span: { start, end: row.end }, text: '' }];
  });
}

/** Empty lines beyond those that may follow one another. The blanks in them go with the ends of lines. */
function emptyLines({ rows, kept }: Layout): readonly Edit[] {
  const edits: Edit[] = [];
  let run = 0;
  for (const [index, row] of rows.entries()) {
    run = row.first === 0 && !kept.has(index) ? run + 1 : 0;
    if (run > mostEmpty && row.next > row.end)
      edits.push({ span: { start: row.end, end: row.next }, text: '' });
  }
  return edits;
}

function lastLineEnd({ text, rows, kept }: Layout): readonly Edit[] {
  const last = rows.length - 1;
  const row = rows[last];
  if (row === undefined || row.next > row.end || row.first === 0 || kept.has(last)) return [];
  const end = { start: row.end, end: row.end };
  return [{ span: end, text: text.includes('\r\n') ? '\r\n' : '\n' }];
}
