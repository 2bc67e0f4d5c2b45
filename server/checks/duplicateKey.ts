import type { Analysis } from '../analysis.ts';
import { dissect } from '../plan/anatomy.ts';
import { hasContent, isBlank, type Row, rowsOf, withoutBareReturns } from '../plan/rows.ts';
import type { Node } from '../plan/tree.ts';
import type { Edit } from '../text/edit.ts';
import type { Finding, Fix } from '../text/finding.ts';
import { lineEnd, lineStart } from '../text/lines.ts';
import type { Span } from '../text/span.ts';

/** The later of two equal keys is taken out, with its value; comments stay where they are. */
export function duplicateKeyFixes({ uri, span, facts }: Finding, analysis: Analysis): readonly Fix[] {
  const { text } = analysis;
  const [whole] = Array.isArray(facts.edits) ? (facts.edits as readonly Span[]) : [];
  if (whole === undefined) return [];
  const { start, end } = whole;
  const lines = rowsOf(withoutBareReturns(text), lineStart(text, start), nextLine(text, end));
  const first = lines[0];
  if (first === undefined) return [];
  const root = (analysis.kind === 'plan' ? analysis.plan : analysis.kit)?.root;
  const isBlock = first.body === start && !(root !== undefined && inBrackets(root, start));
  const edits = isBlock ? withoutLines(text, lines, start, end) : [withoutEntry(text, start, end)];
  const name = text.slice(span.start, span.end).slice(0, 40);
  return [{ title: `Remove the later ${name}`, edits: edits.map((edit) => ({ uri, ...edit })) }];
}

/** Takes the lines of an entry out of a block, but for their comments. */
function withoutLines(text: string, lines: readonly Row[], start: number, end: number): readonly Edit[] {
  const indent = text.slice(lines[0]?.start ?? start, start);
  const edits: Edit[] = [];
  let textColumn: number | undefined;
  let inText = false;
  for (const row of lines) {
    const column = row.body - row.start;
    if (inText && (row.first === 0 || column > (textColumn ?? 0))) {
      edits.push({ span: { start: row.start, end: row.next }, text: '' });
      continue;
    }
    inText = false;
    if (!hasContent(row)) continue;
    const anatomy = dissect(text, row);
    if (anatomy.form === 'block') {
      inText = true;
      textColumn = column;
    }
    const comment = commentOf(text, row, Math.min(Math.max(anatomy.value.end, row.body), row.end), end);
    if (comment === undefined) edits.push({ span: { start: row.start, end: row.next }, text: '' });
    else edits.push({ span: { start: row.start, end: comment }, text: indent });
  }
  return edits;
}

/** Where the comment behind the value of a line begins. */
function commentOf(text: string, row: Row, valueEnd: number, end: number): number | undefined {
  let at = row.next > end && end >= row.body ? Math.max(valueEnd, Math.min(end, row.end)) : valueEnd;
  while (at < row.end && isBlank(text.charCodeAt(at))) at += 1;
  return text[at] === '#' && isBlank(text.charCodeAt(at - 1)) ? at : undefined;
}

/** Takes an entry out of braces, with the comma before it. */
function withoutEntry(text: string, start: number, end: number): Edit {
  let comma = start - 1;
  while (comma >= 0 && /\s/.test(text[comma] as string)) comma -= 1;
  return { span: { start: text[comma] === ',' ? comma : start, end }, text: '' };
}

/** Whether a place lies in a map or list between brackets. */
function inBrackets(node: Node, at: number): boolean {
  if ((node.kind !== 'map' && node.kind !== 'sequence') || at < node.span.start || at > node.span.end)
    return false;
  if (node.flow) return true;
  const parts = node.kind === 'map' ? node.entries.map(({ value }) => value) : node.items;
  return parts.some((part) => inBrackets(part, at));
}

/** Behind the line end of the line on which an offset lies. */
function nextLine(text: string, at: number): number {
  const end = lineEnd(text, at);
  return Math.min(text.length, text.startsWith('\r\n', end) ? end + 2 : end + 1);
}
