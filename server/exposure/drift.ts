/** An exposure during which the light changes. */
export interface DriftInput {
  /** The time that the exposure would take if the light stayed as it was metered. */
  readonly wantedSeconds: number;
  /** When the shutter opens, epoch milliseconds. */
  readonly startMs: number;
  /** The light at an instant, in stops from the metered light; brighter is positive, −Infinity is darkness. */
  readonly lightStops: (instantMs: number) => number;
  /** The longest time that the shutter may stay open; four hours if not given. */
  readonly longestSeconds?: number | undefined;
}

/** How long the shutter must stay open, or that it would never collect enough. */
export type Drift =
  | { readonly neverCompletes: false; readonly seconds: number }
  | {
      readonly neverCompletes: true;
      /** How much of the wanted light is collected by then, 0 to 1. */
      readonly collectedShare: number;
      /** When counting stopped. */
      readonly afterSeconds: number;
    };

/** No exposure is longer than this unless the caller says so: a limit of patience, not of physics. */
export const longestDriftSeconds = 4 * 3600;

/** Light is looked at in pieces of at most five minutes, so that no change of twilight slips through. */
const longestPieceSeconds = 300;
/** Of one piece: its error may be this share of what it yields, or of a thousandth of all that is wanted. */
const tolerance = 1e-7;
const deepestHalving = 10;

type Rate = (seconds: number) => number;

/**
 * The shutter time T for which the light collected equals what the meter asked for: ∫ from 0 to T of 2^stops(t) dt =
 * wanted time. Follows from the reciprocity of exposure (H = E·t, ISO 2720). Adaptive Simpson quadrature, piece by piece,
 * then Newton's method inside the last piece, held in a shrinking bracket.
 */
export function driftingSeconds(input: DriftInput): Drift {
  const { wantedSeconds, startMs, lightStops, longestSeconds = longestDriftSeconds } = input;
  const rate: Rate = (seconds) => 2 ** lightStops(startMs + seconds * 1000);
  let from = 0;
  let collected = 0;
  let width = Math.min(wantedSeconds, longestPieceSeconds);
  while (from < longestSeconds) {
    const to = Math.min(from + width, longestSeconds);
    const gain = integral(rate, from, to, wantedSeconds / 1000);
    const missing = wantedSeconds - collected;
    if (gain >= missing * (1 - 1e-12)) {
      return { neverCompletes: false, seconds: whenCollected(rate, from, to, missing, gain) };
    }
    collected += gain;
    from = to;
    width = Math.min(width * 2, longestPieceSeconds);
  }
  return { neverCompletes: true, collectedShare: collected / wantedSeconds, afterSeconds: longestSeconds };
}

/**
 * The latest instant from `fromMs` to `toMs`, to `withinMs` (a second), at which an exposure can start and still complete
 * within the longest time; null when none can. A chance that lasts less than a twelfth of that span can be missed.
 */
export function latestStart(
  input: Omit<DriftInput, 'startMs'> & {
    readonly fromMs: number;
    readonly toMs: number;
    readonly withinMs?: number;
  },
): number | null {
  const { withinMs = 1000 } = input;
  const completesAt = (startMs: number) => !driftingSeconds({ ...input, startMs }).neverCompletes;
  if (completesAt(input.toMs)) return input.toMs;
  const steps = 12;
  const step = (input.toMs - input.fromMs) / steps;
  for (let place = steps - 1; place >= 0; place -= 1) {
    let early = input.fromMs + place * step;
    if (!completesAt(early)) continue;
    let late = early + step;
    while (late - early > withinMs) {
      const middle = (early + late) / 2;
      if (completesAt(middle)) early = middle;
      else late = middle;
    }
    return early;
  }
  return null;
}

/**
 * When, between the ends of a piece that yields `gain`, the first `missing` of it is collected. From guess to guess only
 * what lies between the two is summed up. A step of Newton's method squares the error, so after one from a guess that is
 * out by a millionth nothing is left of it.
 */
function whenCollected(rate: Rate, start: number, end: number, missing: number, gain: number): number {
  let low = start;
  let high = end;
  let guess = Math.min(start + (missing / gain) * (end - start), end);
  let excess = integral(rate, start, guess, missing / 1000) - missing;
  for (let round = 0; round < 60; round += 1) {
    if (excess > 0) high = guess;
    else low = guess;
    const newton = guess - excess / rate(guess);
    if (Math.abs(excess) <= 1e-6 * missing) return Math.min(Math.max(newton, low), high);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - guess) <= 1e-12 * end) return guess;
    excess += integral(rate, guess, next, missing / 1000);
    guess = next;
  }
  return guess;
}

/** Adaptive Simpson quadrature with Richardson's correction. What is small against `negligible` may be coarse. */
function integral(rate: Rate, from: number, to: number, negligible: number): number {
  const middle = (from + to) / 2;
  const ends: readonly [Sample, Sample, Sample] = [
    [from, rate(from)],
    [middle, rate(middle)],
    [to, rate(to)],
  ];
  return refined(rate, ends, negligible, deepestHalving);
}

type Sample = readonly [seconds: number, rate: number];

function refined(
  rate: Rate,
  [a, m, b]: readonly [Sample, Sample, Sample],
  negligible: number,
  halvings: number,
): number {
  const left = between(rate, a, m);
  const right = between(rate, m, b);
  const whole = simpson(a, m, b);
  const halves = simpson(a, left, m) + simpson(m, right, b);
  const error = (halves - whole) / 15;
  if (Math.abs(error) <= tolerance * Math.max(halves, negligible) || halvings === 0) return halves + error;
  return (
    refined(rate, [a, left, m], negligible, halvings - 1) +
    refined(rate, [m, right, b], negligible, halvings - 1)
  );
}

function between(rate: Rate, left: Sample, right: Sample): Sample {
  const seconds = (left[0] + right[0]) / 2;
  return [seconds, rate(seconds)];
}

function simpson(a: Sample, m: Sample, b: Sample): number {
  return ((b[0] - a[0]) / 6) * (a[1] + 4 * m[1] + b[1]);
}
