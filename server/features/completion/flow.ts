import { isBlank, isBreak } from '../../plan/rows.ts';
import type { Span } from '../../text/span.ts';
import { nextToken, type Token } from '../flowTokens.ts';
import type { Quote } from '../scalarText.ts';
import { openQuoteEnd } from './openQuote.ts';

/** A bracket or brace that is open at the cursor. */
export interface Frame {
  readonly open: '{' | '[';
  readonly at: number;
  /** The keys written in it; in the innermost one those behind the cursor too, but not the one at the cursor. */
  readonly keys: Set<string>;
  /** The plain and quoted items written in it, but for the one at the cursor. */
  readonly items: string[];
  /** The key whose value the cursor is in. */
  key?: string;
}

/** What is at the cursor between brackets. */
export interface FlowPlace {
  /** The outermost first; at least one. */
  readonly frames: readonly Frame[];
  /** What is replaced: between the quotes, if there are any. */
  readonly token: Span;
  readonly quote: Quote;
  readonly quoteClosed: boolean;
  readonly colonFollows: boolean;
  /** Where the innermost bracket closes; undefined when it does not. */
  readonly close?: number;
}

/** Brackets nested deeper than the table of fields ever goes: nothing is offered in them. */
const deepest = 40;

/**
 * The brackets that are open at the cursor, for a collection that begins at `from`; `end` is where it ends at the
 * latest. Undefined when it is closed before the cursor, when the cursor is in a comment, or too deep in brackets.
 */
export function flowPlace(text: string, from: number, offset: number, end: number): FlowPlace | undefined {
  const frames: Frame[] = [];
  let at = from;
  let atCursor: Token | undefined;
  while (at < end) {
    const token = nextToken(text, at, end);
    if (token === undefined || token.span.start >= offset) break;
    const isText = token.kind === 'plain' || token.kind === 'quoted';
    if (token.span.end > offset || (token.span.end === offset && isText)) {
      // A closing quote just before the cursor: nothing is left to write.
      if (!isText || offset > token.content.end) return undefined;
      atCursor = token;
      break;
    }
    if (token.kind === 'comment' && token.span.end === offset) return undefined;
    take(text, token, frames);
    if (frames.length === 0 || frames.length > deepest) return undefined;
    at = token.span.end;
  }
  const top = frames.at(-1);
  if (top === undefined) return undefined;
  if (atCursor === undefined && at < offset) at = offset;
  // A text with a blank and the cursor behind it is still being written: `after |`.
  const content = contentAt(text, atCursor, offset, top) ??
    openText(text, frames, from, offset) ?? { start: offset, end: offset };
  const behind = atCursor?.closed === true ? atCursor.span.end : content.end;
  const next = nextToken(text, behind, end);
  return {
    frames,
    token: content,
    quote: atCursor?.kind === 'quoted' ? (text[atCursor.span.start] as Quote) : '',
    quoteClosed: atCursor?.closed ?? true,
    colonFollows: next?.kind === ':',
    ...readOn(text, behind, end, top),
  };
}

/** Between the quotes, where there are any; when nothing closes them, up to what belongs to others. */
function contentAt(text: string, token: Token | undefined, offset: number, top: Frame): Span | undefined {
  if (token === undefined || token.closed) return token?.content;
  return { start: token.content.start, end: openQuoteEnd(text, offset, token.content.end, top.open) };
}

/** Does to the open brackets what a token says. */
function take(text: string, token: Token, frames: Frame[]): void {
  const top = frames.at(-1);
  const { kind, span, content } = token;
  if (kind === '{' || kind === '[') frames.push({ open: kind, at: span.start, keys: new Set(), items: [] });
  else if (kind === 'close') frames.pop();
  else if (top === undefined) return;
  else if (kind === ',') delete top.key;
  else if (kind === 'plain' || kind === 'quoted') {
    const value = text.slice(content.start, content.end);
    if (top.open === '[') top.items.push(value);
    else if (top.key === undefined && beginsEntry(text, span.start)) {
      top.keys.add(value);
      if (colonAfter(text, span.end)) top.key = value;
    }
  }
}

/** A plain text that ends in blanks before the cursor, when nothing else stands between. */
function openText(text: string, frames: readonly Frame[], from: number, offset: number): Span | undefined {
  let end = offset;
  while (end > from && isBlank(text.charCodeAt(end - 1))) end -= 1;
  if (end === offset || ',[]{}:\n\r"\''.includes(text[end - 1] ?? ',')) return undefined;
  let start = end;
  while (start > from && !',[]{}\n\r'.includes(text[start - 1] as string)) {
    if (text[start - 1] === ':' && isBlank(text.charCodeAt(start))) break;
    start -= 1;
  }
  while (start < end && isBlank(text.charCodeAt(start))) start += 1;
  const top = frames.at(-1);
  const written = text.slice(start, end);
  if (top?.open === '[' && top.items.at(-1) === written) top.items.pop();
  else if (top?.open === '{' && top.key === undefined) top.keys.delete(written);
  return { start, end: offset };
}

/** The keys and items behind the cursor in the innermost bracket, and where it closes. */
function readOn(text: string, from: number, end: number, top: Frame): { readonly close?: number } {
  let depth = 0;
  let at = from;
  while (at < end) {
    const token = nextToken(text, at, end);
    if (token === undefined) return {};
    if (token.kind === 'close') {
      if (depth === 0) return { close: token.span.start };
      depth -= 1;
    } else if (token.kind === '{' || token.kind === '[') depth += 1;
    else if (depth === 0 && (token.kind === 'plain' || token.kind === 'quoted')) {
      const value = text.slice(token.content.start, token.content.end);
      if (top.open === '[') top.items.push(value);
      else if (beginsEntry(text, token.span.start)) top.keys.add(value);
    }
    at = token.span.end;
  }
  return {};
}

/** Whether a comma or an opening brace stands before `at`. */
function beginsEntry(text: string, at: number): boolean {
  let before = at - 1;
  while (before >= 0 && isBreak(text.charCodeAt(before))) before -= 1;
  return text[before] === ',' || text[before] === '{';
}

function colonAfter(text: string, at: number): boolean {
  let next = at;
  while (isBlank(text.charCodeAt(next))) next += 1;
  return text[next] === ':';
}
