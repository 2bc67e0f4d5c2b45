import { words } from './svg.ts';

/** A part of a picture that a label should not cover; y grows downwards. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where a label could stand: the point that its text is anchored to, on the line that letters stand on. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** How many covered square pixels it may save before it is taken; 0 if not given. */
  readonly reserve?: number;
}

/** Letters of 11 px: a little wide, so that neighbours stay apart whatever the font. */
const letterWidth = 6.2;
const [above, below] = [10, 3];

export function boxAround(x: number, y: number, half: number): Box {
  return { left: x - half, right: x + half, top: y - half, bottom: y + half };
}

/** Puts labels where they cover the least of what is drawn and of each other, the earlier of equal spots. */
export class Labels {
  private readonly written: string[] = [];
  private readonly taken: Box[];
  private readonly within: Box;
  private readonly dislike: (x: number, y: number) => boolean;

  /** `dislike` says of a point that a label had better not stand there. */
  constructor(within: Box, taken: readonly Box[], dislike: (x: number, y: number) => boolean) {
    this.within = within;
    this.taken = [...taken];
    this.dislike = dislike;
  }

  put(text: string, colour: string, spots: readonly Spot[]): void {
    let best: { readonly spot: Spot; readonly box: Box; readonly cost: number } | undefined;
    for (const spot of spots) {
      const box = boxOf(text, spot);
      const cost = this.cost(box) + (spot.reserve ?? 0);
      if (best === undefined || cost < best.cost - 1e-6) best = { spot, box, cost };
    }
    if (best === undefined) return;
    this.taken.push(best.box);
    const { x, y, anchor } = best.spot;
    this.written.push(words(x, y, text, anchor, colour));
  }

  /** The labels as elements, in the order in which they were put. */
  get elements(): readonly string[] {
    return this.written;
  }

  /** Square pixels that are covered; what falls out of the picture counts many times over. */
  private cost(box: Box): number {
    const size = area(box);
    const outside = size - shared(box, this.within);
    const covered = this.taken.reduce((sum, other) => sum + shared(box, other), 0);
    const middle = (box.top + box.bottom) / 2;
    const disliked = [box.left, (box.left + box.right) / 2, box.right].filter((x) => this.dislike(x, middle));
    return 50 * outside + covered + (disliked.length * size) / 6;
  }
}

function boxOf(text: string, { x, y, anchor }: Spot): Box {
  const width = [...text].length * letterWidth;
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { left, right: left + width, top: y - above, bottom: y + below };
}

function area({ left, right, top, bottom }: Box): number {
  return Math.max(0, right - left) * Math.max(0, bottom - top);
}

function shared(a: Box, b: Box): number {
  return area({
    left: Math.max(a.left, b.left),
    right: Math.min(a.right, b.right),
    top: Math.max(a.top, b.top),
    bottom: Math.min(a.bottom, b.bottom),
  });
}
