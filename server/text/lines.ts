import type { Span } from './span.ts';

/** A place as the Language Server Protocol counts: line and UTF-16 code unit in that line, both from zero. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

const lineFeed = 10;
const carriageReturn = 13;

/**
 * The lines of a text. A line ends with LF, CRLF or CR alone, as the Language Server Protocol says; nothing else ends
 * one. A byte order mark counts as a character.
 */
export class Lines {
  readonly #length: number;
  readonly #starts: number[] = [0];
  /** Where each line ends, without its line end. */
  readonly #ends: number[] = [];

  constructor(text: string) {
    this.#length = text.length;
    for (let at = 0; at < text.length; at += 1) {
      const unit = text.charCodeAt(at);
      if (!endsLine(unit)) continue;
      this.#ends.push(at);
      if (unit === carriageReturn && text.charCodeAt(at + 1) === lineFeed) at += 1;
      this.#starts.push(at + 1);
    }
    this.#ends.push(text.length);
  }

  /** How many lines there are; at least one. A text that ends with a line end has an empty last line. */
  get count(): number {
    return this.#starts.length;
  }

  /**
   * The position of an offset. Offsets outside the text are taken to its nearest end; one between CR and LF belongs to
   * the end of that line.
   */
  position(offset: number): Position {
    const wanted = clamp(offset, 0, this.#length);
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#starts[middle] as number) <= wanted) low = middle;
      else high = middle - 1;
    }
    const span = this.lineSpan(low);
    return { line: low, character: Math.min(wanted, span.end) - span.start };
  }

  /** The offset of a position. A line beyond the text means its end, a character beyond the line means the line's end. */
  offset(line: number, character: number): number {
    if (line < 0) return 0;
    if (line >= this.count) return this.#length;
    const span = this.lineSpan(line);
    return clamp(span.start + Math.max(0, Math.trunc(character) || 0), span.start, span.end);
  }

  /** The line without its line end. Lines outside the text are taken to its nearest end. */
  lineSpan(line: number): Span {
    const wanted = clamp(line, 0, this.count - 1);
    return { start: this.#starts[wanted] as number, end: this.#ends[wanted] as number };
  }
}

/** Where the line around an offset starts. For single lines, without taking all of them apart. */
export function lineStart(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && !endsLine(text.charCodeAt(start - 1))) start -= 1;
  return start;
}

/** Where the line around an offset ends, before its line end. */
export function lineEnd(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && !endsLine(text.charCodeAt(end))) end += 1;
  return end;
}

function endsLine(unit: number): boolean {
  return unit === lineFeed || unit === carriageReturn;
}

/** The nearest whole number in the range; what is not a number counts as the low end. */
function clamp(value: number, low: number, high: number): number {
  if (!(value > low)) return low;
  return value >= high ? high : Math.trunc(value);
}
