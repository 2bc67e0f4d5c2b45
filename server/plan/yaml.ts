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
 * reported and given up, line by line. With a cache, only chunks that have changed are parsed.
 */
export function parseText(text: string, cache: ChunkCache = createChunkCache()): ParsedText {
  if (text.length > sizeLimit) return tooLarge(text);
  const source = withoutBareReturns(text);
  const frame = readFrame(source);
  cache.begin();
  const { root, findings, blanked } = compose(source, frame, {
    cache,
    read: readYaml,
    nodeLimit,
    smallBlock: usualSmallBlock,
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

/** One piece of YAML, parsed and turned into the neutral tree. Never throws. */
export function readYaml(text: string): RawText {
  if (isTooDeep(text, parserDepthLimit))
    return unreadable(text, 'syntax/too-deep', 'This is nested too deeply to be read.');
  try {
    const document = parseDocument(text, {
      schema,
      version: '1.2',
      uniqueKeys: false,
      prettyErrors: false,
      logLevel: 'silent',
    });
    const converter = new Converter(text);
    const root = converter.node(document.contents as YamlNode | null, 0);
    if (text.charCodeAt(0) === byteOrderMark) converter.reportByteOrderMark(0);
    const faults: Fault[] = [];
    for (const error of [...document.errors, ...document.warnings]) {
      const start = Math.min(Math.max(0, error.pos[0]), text.length);
      const length = error.code === 'BAD_DQ_ESCAPE' ? 2 : error.pos[1] - error.pos[0];
      const end = Math.min(start + Math.max(0, length), text.length);
      const { code, message, harmless } = complaint(error.code, error.message, text.slice(start, start + 2));
      if (harmless && converter.findings.length >= remarkLimit) continue;
      if (harmless) converter.findings.push(textFinding(code, { start, end }, message));
      else faults.push({ at: start, code, message });
    }
    return { root, findings: converter.findings, faults, size: converter.count };
  } catch {
    return unreadable(text, 'syntax/unreadable', 'These lines cannot be read.');
  }
}

function unreadable(text: string, code: TextFinding['code'], message: string): RawText {
  const root: EmptyNode = { kind: 'empty', span: { start: 0, end: 0 } };
  return { root, findings: [], faults: [{ at: 0, code, message, whole: true }], size: text.length };
}

class Converter {
  readonly findings: TextFinding[] = [];
  count = 0;
  readonly #text: string;
  #reportedDepth = false;

  constructor(text: string) {
    this.#text = text;
  }

  node(source: YamlNode | Pair | null | undefined, fallback: number, depth = 0): Node {
    this.count += 1;
    if (source === null || source === undefined || isPair(source) || !source.range) return empty(fallback);
    if (isScalar(source)) return this.#scalar(source);
    const [start, end] = source.range;
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

  #scalar(source: Scalar): Node {
    const [start, end] = source.range as [number, number, number];
    const text = source.source ?? '';
    if (source.type === 'BLOCK_LITERAL' || source.type === 'BLOCK_FOLDED') {
      return anchored(this.#blockText(start, end, text), source.anchor);
    }
    if (source.type === 'QUOTE_DOUBLE' || source.type === 'QUOTE_SINGLE') {
      const content = { start: Math.min(start + 1, end), end: Math.max(start + 1, end - 1) };
      const style = source.type === 'QUOTE_DOUBLE' ? 'double' : 'single';
      const exact = this.#text.slice(content.start, content.end) === text;
      return anchored({ kind: 'scalar', text, span: { start, end }, content, exact, style }, source.anchor);
    }
    return anchored(this.#plain(start, end, text), source.anchor);
  }

  #plain(start: number, end: number, text: string): ScalarNode | EmptyNode {
    if (text === '') return empty(start);
    if (text.charCodeAt(0) !== byteOrderMark) {
      const exact = end - start === text.length && this.#text.startsWith(text, start);
      return { kind: 'scalar', text, span: { start, end }, content: { start, end }, exact, style: 'plain' };
    }
    this.reportByteOrderMark(start);
    return this.#plain(start + 1, end, text.slice(1));
  }

  /** A text after `|` or `>`: its span ends with its last character that is not blank. */
  #blockText(start: number, end: number, text: string): ScalarNode {
    let last = end;
    while (last > start && isWhite(this.#text.charCodeAt(last - 1))) last -= 1;
    const lineEnd = this.#text.indexOf('\n', start);
    const first = lineEnd === -1 || lineEnd >= last ? last : lineEnd + 1;
    const content = { start: first, end: last };
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
