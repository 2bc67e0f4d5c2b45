import type { Span } from '../text/span.ts';
import type { ChunkCache, ChunkReading, RememberedChunk } from './chunk-cache.ts';
import { type Chunk, isBroken, type Piece, type SplitMap, type SplitSequence, split } from './chunks.ts';
import type { Frame } from './frame.ts';
import { withoutDuplicates } from './keys.ts';
import { movedFinding, movedNode, movedSpan, type OffsetMap, type TextMap, through } from './move.ts';
import type { Holds } from './outline.ts';
import { firstFault, mend, type RawText } from './recover.ts';
import { repair } from './repair.ts';
import { hasContent, type Row, rowsOf, trimmedEnd } from './rows.ts';
import { type TextFinding, textFinding } from './syntax.ts';
import type { Entry, MapNode, Node } from './tree.ts';

interface Composed {
  readonly root: Node;
  readonly findings: readonly TextFinding[];
  readonly blanked: readonly Span[];
}

/** How often broken lines are looked for all over the text before the chunks are mended one by one. */
const repairRounds = 3;

/** How many characters of chunks at fault are searched for the line to give up; beyond, they are cut off at the fault. */
const mendLimit = 100_000;

/** A text taken apart, with what is known of each chunk. */
interface Layout {
  readonly text: string;
  readonly rows: readonly Row[];
  readonly piece: Piece;
  readonly chunks: ReadonlyMap<Chunk, RememberedChunk>;
  /** Those at fault. */
  readonly faulty: readonly Chunk[];
  /** From the offsets of `text` to those of the text as received; undefined where they are the same. */
  readonly toSource: TextMap | undefined;
}

/** What a text is read with. */
export interface Means {
  readonly cache: ChunkCache;
  /** Reads one chunk; spans count from `at` before it, faults from its own start. */
  readonly read: (text: string, at?: number) => RawText;
  /** Where reading stops, in nodes. */
  readonly nodeLimit: number;
  /** See `split`. */
  readonly smallBlock: number;
  /** What is known of the keys. */
  readonly holds: Holds;
}

/**
 * Reads the rows of a document: in chunks, of which those known to the cache are not parsed again. Where chunks are at
 * fault, broken lines are first looked for in the whole text, since a line may damage what stands around its chunk.
 */
export function compose(text: string, frame: Frame, means: Means): Composed {
  let layout = layOut(text, frame.rows, frame.marked, undefined, means);
  let findings: readonly TextFinding[] = [];
  let blanked: readonly Span[] = [];
  for (let round = 0; round < repairRounds && layout.faulty.length > 0 && !frame.marked; round += 1) {
    const { rows, toSource } = layout;
    const repaired = repair(layout.text, rows, rowsAtFault(layout), means.holds);
    if (repaired === undefined) break;
    const start = rows[0]?.start ?? 0;
    const end = (rows.at(-1)?.next ?? 0) + repaired.text.length - layout.text.length;
    const repairedRows = rowsOf(repaired.text, start, end);
    const next = layOut(repaired.text, repairedRows, false, through(repaired.toOriginal, toSource), means);
    if (next.faulty.length > layout.faulty.length) break;
    const toText: OffsetMap = toSource === undefined ? (offset) => offset : toSource.at;
    findings = findings.concat(repaired.findings.map((finding) => movedFinding(finding, toText)));
    blanked = blanked.concat(repaired.blanked.map((span) => movedSpan(span, toText)));
    layout = next;
  }
  const composer = new Composer(layout, means);
  const root = composer.node(layout.piece);
  return {
    root,
    findings: findings.concat(composer.findings),
    blanked: inOrder(blanked.concat(composer.blanked)),
  };
}

/** The lines of the chunks at fault, and the keys that hold those: such a key may have come too far to the left. */
function rowsAtFault({ piece, faulty }: Layout): (index: number) => boolean {
  const rows = new Set<number>();
  const atFault = new Set(faulty);
  const add = (chunk: Chunk): boolean => {
    for (let row = chunk.from; row < chunk.to; row += 1) rows.add(row);
    return true;
  };
  const visit = (part: Piece): boolean => {
    if (part.kind === 'chunk') return atFault.has(part) && add(part);
    if (part.kind === 'sequence') return part.items.map(visit).includes(true);
    const found = part.parts.map(({ head, value }) => {
      const below = value !== undefined && visit(value);
      return visit(head) || (below && add(head));
    });
    return found.includes(true);
  };
  visit(piece);
  return (index) => rows.has(index);
}

/** In the order of the text, each line once. */
function inOrder(spans: readonly Span[]): readonly Span[] {
  const sorted = [...spans].sort((a, b) => a.start - b.start || b.end - a.end);
  return sorted.filter((span, index) => index === 0 || span.start >= (sorted[index - 1] as Span).end);
}

function layOut(
  text: string,
  rows: readonly Row[],
  whole: boolean,
  toSource: TextMap | undefined,
  means: Means,
): Layout {
  const single: Chunk = { kind: 'chunk', expected: 'any', from: 0, to: rows.length };
  const piece = whole ? single : split(text, rows, means.smallBlock);
  const chunks = new Map<Chunk, RememberedChunk>();
  const faulty: Chunk[] = [];
  for (const chunk of chunksOf(piece)) {
    const known = isBroken(text, rows, chunk, means.smallBlock)
      ? { sound: undefined }
      : remembered(text, rows, chunk, means);
    chunks.set(chunk, known);
    if (known.sound === undefined) faulty.push(chunk);
  }
  return { text, rows, piece, chunks, faulty, toSource };
}

function* chunksOf(piece: Piece): Generator<Chunk> {
  if (piece.kind === 'chunk') yield piece;
  else if (piece.kind === 'sequence') for (const item of piece.items) yield* chunksOf(item);
  else {
    for (const part of piece.parts) {
      yield part.head;
      if (part.value !== undefined) yield* chunksOf(part.value);
    }
  }
}

function textOf(text: string, rows: readonly Row[], chunk: Chunk): string {
  return text.slice(rows[chunk.from]?.start ?? 0, rows[chunk.to - 1]?.next ?? 0);
}

function remembered(
  text: string,
  rows: readonly Row[],
  chunk: Chunk,
  { cache, read }: Means,
): RememberedChunk {
  const key = `${chunk.expected}:${textOf(text, rows, chunk)}`;
  const known = cache.get(key);
  if (known !== undefined) return known;
  // Cut out of the key, so that what is remembered does not hold on to the whole text.
  const at = rows[chunk.from]?.start ?? 0;
  const raw = read(key.slice(chunk.expected.length + 1), at);
  const { root, findings, size } = raw;
  const sound =
    firstFault(raw, chunk.expected) === undefined ? { at, root, findings, blanked: [], size } : undefined;
  const made: RememberedChunk = { sound };
  cache.set(key, made);
  return made;
}

class Composer {
  readonly findings: TextFinding[] = [];
  readonly blanked: Span[] = [];
  readonly #layout: Layout;
  readonly #means: Means;
  #size = 0;
  /** Characters of chunks at fault so far. */
  #mended = 0;

  constructor(layout: Layout, means: Means) {
    this.#layout = layout;
    this.#means = means;
  }

  node(piece: Piece): Node {
    if (piece.kind === 'chunk') return this.#place(piece).root;
    return piece.kind === 'map' ? this.#map(piece) : this.#sequence(piece);
  }

  /** What the chunk says, at its place in the text as received. */
  #place(chunk: Chunk): ChunkReading {
    const { text, rows, chunks, toSource } = this.#layout;
    const known = chunks.get(chunk) as RememberedChunk;
    const from = rows[chunk.from]?.start ?? this.#layout.text.length;
    let kind: keyof RememberedChunk = 'sound';
    if (known.sound === undefined) {
      const chunkText = textOf(text, rows, chunk);
      this.#mended += chunkText.length;
      kind = this.#mended > mendLimit ? 'cut' : 'mended';
      const rounds = kind === 'cut' ? 0 : undefined;
      known[kind] ??= { at: 0, ...mend(chunkText, chunk.expected, this.#means.read, rounds) };
    }
    let reading = known[kind] as ChunkReading;
    const within = this.#size <= this.#means.nodeLimit;
    this.#size += reading.size;
    if (this.#size > this.#means.nodeLimit) return this.#beyondLimit(from, within);
    const to = rows[chunk.to - 1]?.next ?? from;
    if (toSource !== undefined && !toSource.keeps(from, to)) {
      const shift = from - reading.at;
      reading = moved(reading, this.#source(from), (at) => toSource.at(at + shift));
    } else {
      const shift = this.#source(from) - reading.at;
      if (shift !== 0) reading = moved(reading, reading.at + shift, (at) => at + shift);
      known[kind] = reading;
    }
    for (const finding of reading.findings) this.findings.push(finding);
    for (const span of reading.blanked) this.blanked.push(span);
    return reading;
  }

  #beyondLimit(from: number, report: boolean): ChunkReading {
    const at = this.#source(from);
    const span = { start: at, end: at };
    if (report) {
      const message = `This file holds more than ${this.#means.nodeLimit} values; from here on it is not read. Split it into several files.`;
      this.findings.push(
        textFinding('syntax/too-large', span, message, { facts: { limit: this.#means.nodeLimit } }),
      );
    }
    return { at, root: { kind: 'empty', span }, findings: [], blanked: [], size: 0 };
  }

  #source(offset: number): number {
    return this.#layout.toSource?.at(offset) ?? offset;
  }

  #map(piece: SplitMap): Node {
    const entries: Entry[] = [];
    let start: number | undefined;
    let end = 0;
    for (const part of piece.parts) {
      const head = this.#mapOf(part.head);
      if (head !== undefined) {
        start ??= head.span.start;
        end = Math.max(end, head.span.end);
        for (const entry of head.entries) entries.push(entry);
      }
      if (part.value === undefined) continue;
      const value = this.node(part.value);
      const owner = head === undefined ? undefined : entries.at(-1);
      if (owner?.value.kind !== 'empty') {
        this.#orphaned(part.value);
        continue;
      }
      const { anchor } = owner.value;
      const held: Node = anchor === undefined || value.kind === 'alias' ? value : { ...value, anchor };
      end = Math.max(end, value.span.end);
      entries.pop();
      entries.push({
        key: owner.key,
        value: held,
        span: { start: owner.span.start, end: Math.max(owner.span.end, value.span.end) },
      });
    }
    if (start === undefined) return this.#empty(piece);
    const kept = withoutDuplicates(entries, (finding) => this.findings.push(finding));
    return { kind: 'map', span: { start, end }, entries: kept, flow: false };
  }

  /** The map that a chunk holds; in the first chunk of an item it stands behind the dash. */
  #mapOf(chunk: Chunk): MapNode | undefined {
    const { root } = this.#place(chunk);
    const node = root.kind === 'sequence' ? root.items[0] : root;
    return node?.kind === 'map' ? node : undefined;
  }

  /** The key above was given up, and so is the block below it. */
  #orphaned(piece: Piece): void {
    const { rows, text } = this.#layout;
    for (const chunk of chunksOf(piece)) {
      for (const row of rows.slice(chunk.from, chunk.to)) {
        if (!hasContent(row)) continue;
        this.blanked.push({ start: this.#source(row.body), end: this.#source(trimmedEnd(text, row)) });
      }
    }
  }

  #sequence(piece: SplitSequence): Node {
    const items: Node[] = [];
    let start: number | undefined;
    for (const item of piece.items) {
      if (item.kind === 'map') {
        const node = this.#map(item);
        start ??= this.#source(this.#firstBody(item));
        items.push(node);
        continue;
      }
      const { root } = this.#place(item);
      if (root.kind === 'empty') continue;
      start ??= root.span.start;
      if (root.kind === 'sequence') items.push(...root.items);
      else items.push(root);
    }
    if (start === undefined) return this.#empty(piece);
    return {
      kind: 'sequence',
      span: { start, end: Math.max(start, items.at(-1)?.span.end ?? start) },
      items,
      flow: false,
    };
  }

  /** Where the first line with content of a piece begins. */
  #firstBody(piece: Piece): number {
    const { rows, text } = this.#layout;
    for (const chunk of chunksOf(piece)) {
      const row = rows.slice(chunk.from, chunk.to).find(hasContent);
      if (row !== undefined) return row.body;
    }
    return text.length;
  }

  #empty(piece: Piece): Node {
    const at = this.#source(this.#firstBody(piece));
    return { kind: 'empty', span: { start: at, end: at } };
  }
}

function moved(reading: ChunkReading, at: number, to: OffsetMap): ChunkReading {
  return {
    at,
    root: movedNode(reading.root, to),
    findings: reading.findings.map((finding) => movedFinding(finding, to)),
    blanked: reading.blanked.map((span) => movedSpan(span, to)),
    size: reading.size,
  };
}
