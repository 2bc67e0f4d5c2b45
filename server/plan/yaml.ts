import {
  isAlias,
  isMap,
  isPair,
  isScalar,
  isSeq,
  type Pair,
  parseDocument,
  type Scalar,
  Schema,
  type Node as YamlNode,
} from 'yaml';
import type { Span } from '../text/span.ts';
import { type ChunkCache, createChunkCache } from './chunk-cache.ts';
import { usualSmallBlock } from './chunks.ts';
import { compose } from './compose.ts';
import { readFrame } from './frame.ts';
import { withoutDuplicates } from './keys.ts';
import { isTooDeep } from './nesting.ts';
import { type Holds, holdsNothing } from './outline.ts';
import type { Fault, RawText } from './recover.ts';
import { byteOrderMark, withoutBareReturns } from './rows.ts';
import { type TextFinding, textFinding } from './syntax.ts';
import type { EmptyNode, Entry, MapNode, Node, ScalarNode } from './tree.ts';
import { complaint } from './wording.ts';

export { type ChunkCache, createChunkCache } from './chunk-cache.ts';
export { syntaxCodes, type TextFinding } from './syntax.ts';

/** What a text says. Offsets are UTF-16 units of the text as received. */
export interface ParsedText {
  readonly root: Node;
  /** In the order of the text. */
  readonly findings: readonly TextFinding[];
  /** Lines given up: what they say is missing from the tree. */
  readonly blanked: readonly Span[];
}

/** Files beyond this many UTF-16 units are not read. */
export const sizeLimit = 5 * 1024 * 1024;
/** Blocks and brackets nested deeper than this are ignored. */
export const depthLimit = 64;
/** A text with more nodes than this is read up to there. */
export const nodeLimit = 300_000;
/** So many remarks on one chunk are enough. */
const remarkLimit = 100;
/** Nesting that the parser is not asked to read at all. */
const parserDepthLimit = 500;

/**
 * Reads a text as YAML 1.2: every scalar as it is typed, the first document only. Never throws; what cannot be read is
 * reported and given up, line by line. With a cache, only chunks that have changed are parsed. `holds` tells which blocks
 * the keys may have as values, where that is known.
 */
export function parseText(
  text: string,
  cache: ChunkCache = createChunkCache(),
  holds: Holds = holdsNothing,
): ParsedText {
  if (text.length > sizeLimit) return tooLarge(text);
  const source = withoutBareReturns(text);
  const frame = readFrame(source);
  cache.begin();
  const { root, findings, blanked } = compose(source, frame, {
    cache,
    read: readYaml,
    nodeLimit,
    smallBlock: usualSmallBlock,
    holds,
  });
  const all = [...frame.findings, ...findings];
  return { root, findings: all.sort((a, b) => a.span.start - b.span.start), blanked };
}

function tooLarge(text: string): ParsedText {
  const size = (text.length / 1024 / 1024).toFixed(1);
  const message = `This file has ${size} million characters; up to 5 are read. Split it into several files.`;
  const finding = textFinding('syntax/too-large', { start: 0, end: 0 }, message, {
    facts: { characters: text.length, limit: sizeLimit },
  });
  return { root: { kind: 'empty', span: { start: 0, end: 0 } }, findings: [finding], blanked: [] };
}

/** Only texts, maps and lists: no scalar is ever taken for a number, a date or a truth value. */
const schema = new Schema({ schema: 'failsafe', resolveKnownTags: false });

/**
 * One piece of YAML, parsed and turned into the neutral tree. Spans count from `at` before the piece, faults from its own
 * start. Never throws.
 */
export function readYaml(text: string, at = 0): RawText {
  if (isTooDeep(text, parserDepthLimit))
    return unreadable(text, at, 'syntax/too-deep', 'This is nested too deeply to be read.');
  try {
    const document = parseDocument(text, {
      schema,
      version: '1.2',
      uniqueKeys: false,
      prettyErrors: false,
      logLevel: 'silent',
    });
    const converter = new Converter(text, at);
    const root = converter.node(document.contents as YamlNode | null, at);
    if (text.charCodeAt(0) === byteOrderMark) converter.reportByteOrderMark(at);
    const faults: Fault[] = [];
    for (const error of [...document.errors, ...document.warnings]) {
      const start = Math.min(Math.max(0, error.pos[0]), text.length);
      const length = error.code === 'BAD_DQ_ESCAPE' ? 2 : error.pos[1] - error.pos[0];
      const end = Math.min(start + Math.max(0, length), text.length);
      const { code, message, harmless } = complaint(error.code, error.message, text.slice(start, start + 2));
      if (harmless && converter.findings.length >= remarkLimit) continue;
      if (harmless) converter.findings.push(textFinding(code, { start: at + start, end: at + end }, message));
      else faults.push({ at: start, code, message });
    }
    return { root, findings: converter.findings, faults, size: converter.count };
  } catch {
    return unreadable(text, at, 'syntax/unreadable', 'These lines cannot be read.');
  }
}

function unreadable(text: string, at: number, code: TextFinding['code'], message: string): RawText {
  return {
    root: empty(at),
    findings: [],
    faults: [{ at: 0, code, message, whole: true }],
    size: text.length,
  };
}

class Converter {
  readonly findings: TextFinding[] = [];
  count = 0;
  readonly #text: string;
  /** Added to every offset that the parser gives. */
  readonly #at: number;
  #reportedDepth = false;

  constructor(text: string, at: number) {
    this.#text = text;
    this.#at = at;
  }

  node(source: YamlNode | Pair | null | undefined, fallback: number, depth = 0): Node {
    this.count += 1;
    if (source === null || source === undefined || isPair(source) || !source.range) return empty(fallback);
    const start = source.range[0] + this.#at;
    const end = source.range[1] + this.#at;
    if (isScalar(source)) return anchored(this.#scalar(source, start, end), source.anchor);
    if (isAlias(source)) return { kind: 'alias', name: source.source, span: { start, end } };
    if (depth >= depthLimit) return this.#tooDeep(start, end);
    if (isMap(source))
      return anchored(this.#map(source.items, start, end, source.flow === true, depth), source.anchor);
    if (!isSeq(source)) return empty(start);
    const flow = source.flow === true;
    const items = source.items.map((item) => this.node(item as YamlNode, start, depth + 1));
    const span = { start, end: flow ? end : Math.max(start, items.at(-1)?.span.end ?? start) };
    return anchored({ kind: 'sequence', span, items, flow }, source.anchor);
  }

  reportByteOrderMark(at: number): void {
    const message =
      'An invisible byte order mark stands here. Remove it: delete this word and write it again.';
    this.findings.push(textFinding('syntax/byte-order-mark', { start: at, end: at + 1 }, message));
  }

  #map(pairs: readonly Pair[], start: number, end: number, flow: boolean, depth: number): MapNode {
    const entries: Entry[] = [];
    let last = start;
    for (const pair of pairs) {
      const key = this.node(pair.key as YamlNode, last, depth + 1);
      const value = this.node(pair.value as YamlNode | null, key.span.end, depth + 1);
      last = Math.max(value.span.end, key.span.end);
      if (key.kind === 'scalar') entries.push({ key, value, span: { start: key.span.start, end: last } });
      else this.#noKey(key);
    }
    const kept = withoutDuplicates(entries, (finding) => this.findings.push(finding));
    return { kind: 'map', span: { start, end: flow ? end : last }, entries: kept, flow };
  }

  #noKey(key: Node): void {
    const message =
      key.kind === 'empty'
        ? 'A key is missing before the colon. Write one, as in `date: 2027-03-20`.'
        : 'A key must be one word or a quoted text. To use a text with brackets or a *, put it in quotes.';
    this.findings.push(textFinding('syntax/key', key.span, message));
  }

  #tooDeep(start: number, end: number): Node {
    if (!this.#reportedDepth) {
      const message = `This is nested more than ${depthLimit} levels deep and is ignored. Write it flatter.`;
      this.findings.push(
        textFinding('syntax/too-deep', { start, end }, message, { facts: { limit: depthLimit } }),
      );
      this.#reportedDepth = true;
    }
    return empty(start);
  }

  #scalar({ source, type }: Scalar, start: number, end: number): ScalarNode | EmptyNode {
    const text = source ?? '';
    if (type === 'BLOCK_LITERAL' || type === 'BLOCK_FOLDED') return this.#blockText(start, end, text);
    if (type === 'QUOTE_DOUBLE' || type === 'QUOTE_SINGLE') {
      const content = { start: Math.min(start + 1, end), end: Math.max(start + 1, end - 1) };
      const style = type === 'QUOTE_DOUBLE' ? 'double' : 'single';
      const exact = this.#stands(text, content);
      return { kind: 'scalar', text, span: { start, end }, content, exact, style };
    }
    return this.#plain(start, end, text);
  }

  #plain(start: number, end: number, text: string): ScalarNode | EmptyNode {
    if (text === '') return empty(start);
    if (text.charCodeAt(0) !== byteOrderMark) {
      const span = { start, end };
      return { kind: 'scalar', text, span, content: span, exact: this.#stands(text, span), style: 'plain' };
    }
    this.reportByteOrderMark(start);
    return this.#plain(start + 1, end, text.slice(1));
  }

  /** Whether the text is just what stands at that place. */
  #stands(text: string, { start, end }: Span): boolean {
    return end - start === text.length && this.#text.startsWith(text, start - this.#at);
  }

  /** A text after `|` or `>`: its span ends with its last character that is not blank. */
  #blockText(start: number, end: number, text: string): ScalarNode {
    const source = this.#text.slice(start - this.#at, end - this.#at);
    let length = source.length;
    while (length > 0 && isWhite(source.charCodeAt(length - 1))) length -= 1;
    const lineEnd = source.indexOf('\n');
    const first = lineEnd === -1 || lineEnd >= length ? length : lineEnd + 1;
    const last = start + length;
    const content = { start: start + first, end: last };
    return { kind: 'scalar', text, span: { start, end: last }, content, exact: false, style: 'block' };
  }
}

function empty(at: number): EmptyNode {
  return { kind: 'empty', span: { start: at, end: at } };
}

function anchored<T extends Exclude<Node, { kind: 'alias' }>>(node: T, anchor: string | undefined): T {
  return anchor === undefined || anchor === '' ? node : { ...node, anchor };
}

function isWhite(code: number): boolean {
  return code === 32 || code === 9 || code === 10 || code === 13;
}
