import { isBlank, isBreak } from '../plan/rows.ts';
import { lineEnd } from '../text/lines.ts';
import type { Span } from '../text/span.ts';

/** A sign, a scalar or a comment between brackets. `content`: without quotes; `closed`: its quote ends. */
export interface Token {
  readonly kind: '{' | '[' | 'close' | ',' | ':' | 'comment' | 'plain' | 'quoted';
  readonly span: Span;
  readonly content: Span;
  readonly closed: boolean;
}

/** The first token between brackets at or behind `from`; undefined when only blanks are left. */
export function nextToken(text: string, from: number, end: number): Token | undefined {
  let at = from;
  while (at < end && isBreak(text.charCodeAt(at))) at += 1;
  if (at >= end) return undefined;
  const unit = text[at] as string;
  const single = (kind: Token['kind']): Token => {
    const span = { start: at, end: at + 1 };
    return { kind, span, content: span, closed: true };
  };
  if (unit === '{' || unit === '[' || unit === ',') return single(unit);
  if (unit === '}' || unit === ']') return single('close');
  if (unit === ':' && endsKey(text, at)) return single(':');
  if (unit === '#' && (at === 0 || isBreak(text.charCodeAt(at - 1)))) {
    const span = { start: at, end: Math.min(lineEnd(text, at), end) };
    return { kind: 'comment', span, content: span, closed: true };
  }
  return unit === '"' || unit === "'" ? quotedToken(text, at, end) : plainToken(text, at, end);
}

/** A quoted text; one that is left open ends with its line. */
function quotedToken(text: string, start: number, end: number): Token {
  const quote = text[start];
  let at = start + 1;
  while (at < end) {
    const unit = text[at] as string;
    if (unit === '\n' || unit === '\r') break;
    if (unit === quote && !(quote === "'" && text[at + 1] === "'")) {
      return {
        kind: 'quoted',
        span: { start, end: at + 1 },
        content: { start: start + 1, end: at },
        closed: true,
      };
    }
    const isPair = (quote === '"' && unit === '\\') || unit === quote;
    at += isPair ? 2 : 1;
  }
  const stop = Math.min(at, end);
  return {
    kind: 'quoted',
    span: { start, end: stop },
    content: { start: start + 1, end: stop },
    closed: false,
  };
}

function plainToken(text: string, at: number, end: number): Token {
  let stop = at;
  while (stop < end) {
    const unit = text[stop] as string;
    if (',[]{}\n\r'.includes(unit)) break;
    if (unit === ':' && endsKey(text, stop)) break;
    if (unit === '#' && isBlank(text.charCodeAt(stop - 1))) break;
    stop += 1;
  }
  while (stop > at + 1 && isBlank(text.charCodeAt(stop - 1))) stop -= 1;
  const span = { start: at, end: stop };
  return { kind: 'plain', span, content: span, closed: true };
}

function endsKey(text: string, at: number): boolean {
  const next = text.charCodeAt(at + 1);
  return isBreak(next) || ',[]{}'.includes(text[at + 1] ?? ',') || text[at - 1] === '"';
}
