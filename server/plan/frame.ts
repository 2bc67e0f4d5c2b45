import { byteOrderMark, hasContent, isBlank, type Row, rowsOf, trimmedEnd } from './rows.ts';
import { type TextFinding, textFinding } from './syntax.ts';

/** The part of a text that is read: its first document, without directives and markers. */
export interface Frame {
  readonly rows: readonly Row[];
  /** Whether the first line is a `---` with content behind it; such a text stays in one piece. */
  readonly marked: boolean;
  /** Where the document starts; an empty one stands there. */
  readonly start: number;
  readonly findings: readonly TextFinding[];
}

const percent = 37;

/** Finds the first document. A byte order mark in front of the text is passed over. */
export function readFrame(text: string): Frame {
  const all = rowsOf(text, text.charCodeAt(0) === byteOrderMark ? 1 : 0);
  const findings: TextFinding[] = [];
  let first = 0;
  let marked = false;
  let begun = false;
  while (first < all.length && !begun) {
    const row = all[first] as Row;
    if (isMarker(text, row, '---')) {
      begun = true;
      marked = hasContentBehindMarker(text, row);
      if (!marked) first += 1;
    } else if (hasContent(row) && !isMarker(text, row, '...')) {
      if (row.indent > 0 || row.first !== percent) break;
      findings.push(directive(text, row));
      first += 1;
    } else first += 1;
  }
  if (!begun) first = firstLineOfDocument(text, all);
  let end = marked ? first + 1 : first;
  while (
    end < all.length &&
    !isMarker(text, all[end] as Row, '---') &&
    !isMarker(text, all[end] as Row, '...')
  )
    end += 1;
  const second = secondDocument(text, all, end);
  if (second !== undefined) findings.push(second);
  const start = all[first]?.start ?? text.length;
  return { rows: all.slice(first, end), marked, start, findings };
}

/** The line behind the directives, of a text that has no marker. */
function firstLineOfDocument(text: string, all: readonly Row[]): number {
  let first = 0;
  for (let at = 0; at < all.length; at += 1) {
    const row = all[at] as Row;
    if (isMarker(text, row, '...') || (row.indent === 0 && row.first === percent)) first = at + 1;
    else if (hasContent(row)) break;
  }
  return first;
}

function isMarker(text: string, row: Row, marker: string): boolean {
  if (!text.startsWith(marker, row.start)) return false;
  const after = row.start + marker.length;
  return after >= row.end || isBlank(text.charCodeAt(after));
}

function hasContentBehindMarker(text: string, row: Row): boolean {
  let at = row.start + 3;
  while (at < row.end && isBlank(text.charCodeAt(at))) at += 1;
  return at < row.end && text[at] !== '#';
}

function directive(text: string, row: Row): TextFinding {
  const words = text
    .slice(row.start, row.end)
    .replace(/[ \t]#.*$/, '')
    .trimEnd();
  const span = { start: row.start, end: row.start + words.length };
  const [name, version] = words.split(/[ \t]+/);
  if (name !== '%YAML') {
    return textFinding('syntax/directive', span, 'Lines that begin with % mean nothing here. Remove it.');
  }
  const message = `Read as YAML 1.2 all the same: 06:30, 010 and no are what you typed. Remove this line.`;
  if (version === '1.2') return { ...textFinding('syntax/yaml-version', span, message), severity: 'hint' };
  return textFinding('syntax/yaml-version', span, message, { facts: { version: version ?? '' } });
}

/** What is said about anything that stands behind the end of the first document, at the line that ends it. */
function secondDocument(text: string, all: readonly Row[], end: number): TextFinding | undefined {
  const marker = all[end];
  if (marker === undefined) return undefined;
  let lines = 0;
  for (let at = end; at < all.length; at += 1) {
    const row = all[at] as Row;
    const bare =
      isMarker(text, row, '...') || (isMarker(text, row, '---') && !hasContentBehindMarker(text, row));
    if (hasContent(row) && !bare) lines += 1;
  }
  if (lines === 0) return undefined;
  const span = { start: marker.start, end: trimmedEnd(text, marker) };
  const message =
    'One file is one document: nothing below this line is read. Remove this line, or move what follows to a file of its own.';
  return textFinding('syntax/second-document', span, message, { facts: { ignoredLines: lines } });
}
