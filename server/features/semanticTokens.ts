import type { Analysis } from '../analysis.ts';
import type { Mark } from '../plan/reader.ts';
import type { Target } from '../plan/table.ts';
import { condition } from '../quantities/condition.ts';
import { lensChoice } from '../quantities/focal.ts';
import { quantities } from '../quantities/index.ts';
import { moment } from '../quantities/moment.ts';
import { momentRange } from '../quantities/momentRange.ts';
import type { Quantity } from '../quantities/quantity.ts';
import { timezone } from '../quantities/timezone.ts';
import { flag, identifier } from '../quantities/words.ts';
import type { Span } from '../text/span.ts';
import { marksOf } from './locate.ts';
import { closedWords } from './words.ts';

/** The token types that are used, in the order of the legend; all of them are the protocol's own. */
export const tokenTypes = [
  'number',
  'enumMember',
  'event',
  'keyword',
  'operator',
  'property',
  'class',
  'function',
  'variable',
] as const;

export type TokenType = (typeof tokenTypes)[number];

export const tokenModifiers = ['declaration'] as const;

/** A coloured piece of one line. */
export interface SemanticToken {
  readonly span: Span;
  readonly type: TokenType;
  readonly modifiers?: readonly (typeof tokenModifiers)[number][];
}

const idTypes: { readonly [target in Target]: TokenType } = {
  spot: 'class',
  shot: 'function',
  body: 'variable',
  film: 'variable',
  lens: 'variable',
  filter: 'variable',
};

/**
 * Colours for the kinds of scalar on top of the grammar: quantities, closed words, events, ids where they are declared and used.
 * What could not be read has none. In the order of the text, none overlaps another, each on one line.
 */
export function semanticTokens(analysis: Analysis): readonly SemanticToken[] {
  const document = analysis.kind === 'plan' ? analysis.plan : analysis.kit;
  if (document === undefined) return [];
  const { text } = analysis;
  const ids = new Map<number, SemanticToken>();
  for (const { target, span } of document.uses) ids.set(span.start, { span, type: idTypes[target] });
  for (const { target, uri, span } of analysis.declarations) {
    if (uri === analysis.uri) {
      ids.set(span.start, { span, type: idTypes[target], modifiers: ['declaration'] });
    }
  }
  const tokens = marksOf(analysis).flatMap((mark) => tokensOf(mark, text, ids));
  return inOrder(tokens, text);
}

/** A longer scalar is not taken apart. */
const longestTaken = 1000;

type Ids = ReadonlyMap<number, SemanticToken>;

function tokensOf(mark: Mark, text: string, ids: Ids): readonly SemanticToken[] {
  const { span, value } = mark;
  if (value === undefined) return [];
  const quantity = mark.quantity as Quantity<unknown> | undefined;
  if (quantity === undefined || quantity === (identifier as Quantity<unknown>)) {
    const id = ids.get(span.start);
    return id === undefined ? [] : [id];
  }
  if (quantity === (moment as unknown) || quantity === (momentRange as unknown)) {
    return pieces(span, text, ids, momentType);
  }
  if (quantity === (lensChoice as unknown)) return pieces(span, text, ids, () => 'number');
  if (quantity === (condition as unknown)) return pieces(span, text, ids, conditionType);
  if (quantity === (timezone as unknown)) return [];
  if (quantity === (flag as unknown) || closedWords(quantity)) return [{ span, type: 'enumMember' }];
  const isNumber = quantities.includes(quantity) || typeof value.value === 'number';
  return isNumber ? [{ span, type: 'number' }] : [];
}

/** What a piece is, given the piece before it: the text before it in the scalar, blanks removed, says enough. */
type Judge = (piece: string, before: string) => TokenType | undefined;

const momentWords: ReadonlySet<string> = new Set([
  'after',
  'earlier',
  'later',
  'of',
  'arrive',
  'ready',
  'next',
  'previous',
  'day',
  'first',
  'second',
  'third',
]);

const momentType: Judge = (piece, before) => {
  if (/^\d/.test(piece)) return 'number';
  if (/^\p{L}/u.test(piece)) {
    // A word behind a digit is its unit.
    if (/\d$/.test(before)) return 'number';
    return momentWords.has(piece.toLowerCase()) ? 'keyword' : 'event';
  }
  return piece === ',' ? undefined : 'operator';
};

const conditionType: Judge = (piece, before) => {
  if (/^[<>=≤≥]/.test(piece)) return 'operator';
  if (/[<>=≤≥]/.test(before)) return 'number';
  return before === 'water' ? 'enumMember' : 'property';
};

/** The words, numbers and signs of a scalar, each by itself; ids in it have their own colours. */
function pieces(span: Span, text: string, ids: Ids, judge: Judge): readonly SemanticToken[] {
  if (span.end - span.start > longestTaken) return [];
  const tokens: SemanticToken[] = [];
  let at = span.start;
  while (at < span.end) {
    const id = ids.get(at);
    if (id !== undefined) {
      tokens.push(id);
      at = id.span.end;
      continue;
    }
    const end = pieceEnd(text, at, span.end);
    if (end > at) {
      const before = text.slice(span.start, at).trimEnd();
      const type = text[at] === '@' ? 'operator' : judge(text.slice(at, end), before);
      if (type !== undefined) tokens.push({ span: { start: at, end }, type });
    }
    at = Math.max(end, at + 1);
  }
  return tokens;
}

/** Where the word, number or run of signs ends that begins at `at`; `at` itself for a blank. */
function pieceEnd(text: string, at: number, limit: number): number {
  const kind = kindOf(text[at] as string);
  if (kind === 'blank') return at;
  let end = at + 1;
  while (end < limit) {
    const next = text[end] as string;
    const joins =
      kind === 'number' && (next === ':' || next === '/' || (next === '.' && text[end + 1] !== '.'));
    const hyphen = kind === 'word' && next === '-' && kindOf(text[end + 1] ?? ' ') === 'word';
    if (kindOf(next) !== kind && !joins && !hyphen) break;
    end += 1;
  }
  return end;
}

function kindOf(unit: string): 'blank' | 'number' | 'word' | 'sign' {
  if (/\s/.test(unit)) return 'blank';
  if (/\d/.test(unit)) return 'number';
  // The two halves of a letter beyond the basic plane belong to words.
  return /[\p{L}\p{M}\ud800-\udfff%°]/u.test(unit) ? 'word' : 'sign';
}

/** Sorted; what overlaps an earlier one or goes over a line end is left out. */
function inOrder(tokens: readonly SemanticToken[], text: string): readonly SemanticToken[] {
  const sorted = [...tokens].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  let free = 0;
  return sorted.filter(({ span }) => {
    if (span.start < free || span.end <= span.start) return false;
    if (/[\r\n]/.test(text.slice(span.start, span.end))) return false;
    free = span.end;
    return true;
  });
}
