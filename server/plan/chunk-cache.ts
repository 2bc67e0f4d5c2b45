import type { Span } from '../text/span.ts';
import type { TextFinding } from './syntax.ts';
import type { Node } from './tree.ts';

/** What one chunk says, at its place in some text. */
export interface ChunkReading {
  /** Where the chunk starts; the offsets of nodes, findings and lines count from the start of that text. */
  readonly at: number;
  readonly root: Node;
  readonly findings: readonly TextFinding[];
  /** Lines given up. */
  readonly blanked: readonly Span[];
  /** How many nodes it holds. */
  readonly size: number;
}

/** What is remembered of one chunk of text: at the place where it stood last, for most stay there from one parse to the next. */
export interface RememberedChunk {
  /** As parsed; undefined when the text is at fault. */
  sound: ChunkReading | undefined;
  /** With the lines at fault given up; made when it is first asked for. */
  mended?: ChunkReading;
  /** With all that stands behind the first fault given up. */
  cut?: ChunkReading;
}

/** Remembers parsed chunks by their text. Belongs to one document; whoever opens the document makes it. */
export interface ChunkCache {
  get(text: string): RememberedChunk | undefined;
  set(text: string, chunk: RememberedChunk): void;
  /** To be called when a parse begins: forgets what neither of the last two parses has used. */
  begin(): void;
}

/** A cache of at most `limit` chunks; one parse that needs more keeps the first ones. */
export function createChunkCache(limit = 50_000): ChunkCache {
  let current = new Map<string, RememberedChunk>();
  let previous = new Map<string, RememberedChunk>();
  return {
    get(text) {
      const found = current.get(text) ?? previous.get(text);
      if (found !== undefined && current.size < limit) current.set(text, found);
      return found;
    },
    set(text, chunk) {
      if (current.size < limit) current.set(text, chunk);
    },
    begin() {
      previous = current;
      current = new Map();
    },
  };
}
