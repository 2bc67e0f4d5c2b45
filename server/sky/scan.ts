/** A point of a curve. */
export interface Sample {
  readonly instantMs: number;
  readonly value: number;
}

/** Where a curve passes a level. */
export interface Crossing {
  /** To the nearest millisecond. */
  readonly instantMs: number;
  readonly rising: boolean;
}

/** Nearer than this to a node, an extremum is the node itself. */
const SAME_MS = 1;

/**
 * Samples of a smooth function such that it rises or falls throughout between neighbours. `nodes` are rising instants; in
 * each space between two of them, and over each two spaces, the function may have one extremum. Every extremum between
 * the nodes is found by a parabola through three points and then through three points two minutes around its vertex,
 * and is added, so that a peak that just reaches a level is not missed. Kinks must lie on nodes.
 */
export function monotoneSamples(f: (instantMs: number) => number, nodes: readonly number[]): Sample[] {
  const samples: Sample[] = [];
  let before: Sample | undefined;
  for (const instantMs of nodes) {
    const sample = { instantMs, value: f(instantMs) };
    if (before !== undefined) {
      const middleMs = (before.instantMs + instantMs) / 2;
      const middle = { instantMs: middleMs, value: f(middleMs) };
      const extremum = extremumOf(f, before, middle, sample);
      if (extremum !== undefined) {
        samples.push(extremum);
      }
    }
    samples.push(sample);
    before = sample;
  }
  return samples;
}

/** The highest or lowest point strictly between `left` and `right`, with `middle` half way. */
function extremumOf(
  f: (instantMs: number) => number,
  left: Sample,
  middle: Sample,
  right: Sample,
): Sample | undefined {
  const half = (right.instantMs - left.instantMs) / 2;
  const first = vertex(left.value, middle.value, right.value);
  if (first === undefined || half <= SAME_MS || Math.abs(first) > 1.25) {
    return undefined;
  }
  const guessMs = middle.instantMs + first * half;
  const step = Math.min(120_000, half);
  const second = vertex(f(guessMs - step), f(guessMs), f(guessMs + step)) ?? 0;
  const instantMs = guessMs + Math.max(-1, Math.min(1, second)) * step;
  if (instantMs <= left.instantMs + SAME_MS || instantMs >= right.instantMs - SAME_MS) {
    return undefined;
  }
  return { instantMs, value: f(instantMs) };
}

/** Where the parabola through (-1, a), (0, b), (1, c) turns; undefined for a straight line. */
function vertex(a: number, b: number, c: number): number | undefined {
  const curvature = a - 2 * b + c;
  return curvature === 0 ? undefined : (a - c) / (2 * curvature);
}

/** Where the function passes a level, in order. A touch from one side is no crossing. */
export function crossings(
  f: (instantMs: number) => number,
  samples: readonly Sample[],
  level: number,
): Crossing[] {
  const found: Crossing[] = [];
  for (let index = 1; index < samples.length; index++) {
    const left = samples[index - 1] as Sample;
    const right = samples[index] as Sample;
    const rising = right.value >= level;
    if (left.value >= level !== rising) {
      found.push({ instantMs: Math.round(root(f, left, right, level)), rising });
    }
  }
  return found;
}

/** The instant between two samples on either side of the level, to half a millisecond. */
function root(f: (instantMs: number) => number, left: Sample, right: Sample, level: number): number {
  let a = left.instantMs;
  let atA = left.value - level;
  let b = right.instantMs;
  let atB = right.value - level;
  let keptSide = 0;
  // Regula falsi, in the Illinois variant: the end that stays twice counts half. Then plain bisection, should it crawl.
  for (let round = 0; b - a > 0.5 && round < 200; round++) {
    const cut = round < 20 ? a - (atA * (b - a)) / (atB - atA) : (a + b) / 2;
    const middle = Math.min(Math.max(cut, a + 0.1), b - 0.1);
    const value = f(middle) - level;
    if (value === 0) {
      return middle;
    }
    if (value < 0 === atA < 0) {
      a = middle;
      atA = value;
      atB = keptSide === 1 ? atB / 2 : atB;
      keptSide = 1;
    } else {
      b = middle;
      atB = value;
      atA = keptSide === -1 ? atA / 2 : atA;
      keptSide = -1;
    }
  }
  return (a + b) / 2;
}
