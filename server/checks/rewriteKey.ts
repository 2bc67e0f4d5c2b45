import type { Value } from '../plan/table.ts';
import type { Edit } from '../text/edit.ts';
import { lineEnd, lineStart } from '../text/lines.ts';

/**
 * Other values behind a key that is written already. Comments, anchors and the author's way of writing a list stay; what
 * cannot be written without losing one of them is not written at all (undefined).
 */

/** A text, and where in it the key ends. */
export interface AfterKey {
  readonly text: string;
  readonly keyEnd: number;
}

/** Another text in the place of a scalar; of what stands between brackets or braces in one line when there is none. */
export function replaceScalar(
  after: AfterKey,
  value: Value<unknown> | undefined,
  wanted: string,
): readonly Edit[] | undefined {
  const start = startOfValue(after);
  if (start === undefined) return undefined;
  if (value === undefined) {
    const flow = /^(?:\[[^[\]{}\n]*\]|\{[^[\]{}\n]*\})/.exec(after.text.slice(start, start + 2000));
    return flow === null ? undefined : [{ span: { start, end: start + flow[0].length }, text: wanted }];
  }
  const span = withQuotes(after.text, value);
  if (!isPlainGap(after.text, start, span.start)) return undefined;
  return [{ span, text: wanted }];
}

/** Other items in the place of a list: between brackets, in lines of their own, or of a single item. */
export function replaceItems(
  after: AfterKey,
  now: readonly Value<unknown>[],
  wanted: readonly string[],
): readonly Edit[] | undefined {
  const { text } = after;
  const start = startOfValue(after);
  if (start === undefined) return undefined;
  const flow = `[${wanted.join(', ')}]`;
  const spans = now.map((value) => withQuotes(text, value));
  const last = spans.at(-1);
  if (text[start] === '[') {
    const end = closing(text, last?.end ?? start + 1);
    if (end === undefined) return undefined;
    const inside = text.slice(start, end);
    if (/[&*!]/.test(inside)) return undefined;
    if (!inside.includes('#')) return [{ span: { start, end }, text: flow }];
  } else {
    if (last === undefined) return undefined;
    const first = spans[0] ?? last;
    if (first.start === start) return spans.length > 1 ? undefined : [{ span: first, text: flow }];
    if (/[&*!]/.test(text.slice(start, last.end))) return undefined;
  }
  if (spans.some((span) => span.start < start || span.start > start + 5000)) return undefined;
  return itemByItem(after, now, spans, wanted);
}

interface ItemSpan {
  readonly start: number;
  readonly end: number;
}

/** Puts new items in the places of those that go, adds what is left over, or takes lines away. */
function itemByItem(
  { text, keyEnd }: AfterKey,
  now: readonly Value<unknown>[],
  spans: readonly ItemSpan[],
  wanted: readonly string[],
): readonly Edit[] | undefined {
  const added = [...wanted];
  const places: ItemSpan[] = [];
  now.forEach((value, index) => {
    const kept = added.indexOf(value.text);
    if (kept >= 0) added.splice(kept, 1);
    else places.push(spans[index] as ItemSpan);
  });
  const swapped = places.slice(0, added.length);
  const edits: Edit[] = swapped.map((span, index) => ({ span, text: added[index] as string }));
  const last = spans.at(-1);
  if (last === undefined) return undefined;
  const more = added.slice(swapped.length);
  const lead = leadOf(text, last.start);
  const listed = /^ *- +$/.test(lead);
  if (more.length > 0) {
    edits.push(listed ? newLines(text, last, lead, more) : newItems(last, more));
  }
  const gone = places.slice(swapped.length);
  if (gone.length === 0) return edits;
  if (!listed) return undefined;
  if (wanted.length === 0) {
    const end = lineEnd(text, last.end);
    const noted = text.slice(keyEnd, end).includes('#');
    return noted ? undefined : [{ span: { start: keyEnd, end: last.end }, text: ': []' }];
  }
  for (const span of gone) {
    const start = span.start - leadOf(text, span.start).length;
    const end = lineEnd(text, span.end);
    if (text.slice(span.end, end).trim() !== '') return undefined;
    // The line goes with the line break before it, so that the last line of a text can go too.
    edits.push({ span: { start: start - (text.startsWith('\r\n', start - 2) ? 2 : 1), end }, text: '' });
  }
  return edits;
}

function newItems({ end }: ItemSpan, items: readonly string[]): Edit {
  return { span: { start: end, end }, text: items.map((item) => `, ${item}`).join('') };
}

function newLines(text: string, last: ItemSpan, lead: string, items: readonly string[]): Edit {
  const end = lineEnd(text, last.end);
  const lineBreak = text.startsWith('\r\n', end) ? '\r\n' : '\n';
  return { span: { start: end, end }, text: items.map((item) => `${lineBreak}${lead}${item}`).join('') };
}

/** What stands before an offset in its line. */
function leadOf(text: string, offset: number): string {
  return text.slice(lineStart(text, offset), offset);
}

/** Where the value behind a key starts; undefined where it is an anchor, an alias or a tag: others may look at it. */
function startOfValue({ text, keyEnd }: AfterKey): number | undefined {
  const behind = /^["']?[ \t]*:[ \t]*/.exec(text.slice(keyEnd, keyEnd + 200));
  if (behind === null) return undefined;
  const start = keyEnd + behind[0].length;
  return /[&*!|>]/.test(text.charAt(start)) ? undefined : start;
}

/** Whether nothing but blanks, line breaks and comments stands between two places. */
function isPlainGap(text: string, start: number, end: number): boolean {
  if (end < start || end > start + 500) return false;
  const lines = text.slice(start, end).split('\n');
  return lines.every((line) => line.replace(/#.*/, '').trim() === '');
}

/** The span of a scalar with its quotes, where it has them. */
function withQuotes(text: string, { span }: Value<unknown>): ItemSpan {
  const quote = text[span.start - 1];
  const quoted = (quote === '"' || quote === "'") && text[span.end] === quote;
  return quoted ? { start: span.start - 1, end: span.end + 1 } : span;
}

/** The end of the bracket that closes a list, from behind its last item on. */
function closing(text: string, from: number): number | undefined {
  let comment = false;
  for (let at = from; at < Math.min(text.length, from + 2000); at += 1) {
    const character = text.charAt(at);
    if (character === '\n') comment = false;
    else if (character === '#') comment = true;
    if (comment) continue;
    if (character === ']') return at + 1;
    if (!/[\s,]/.test(character)) return undefined;
  }
  return undefined;
}
