/** A filter in front of the lens, as far as the exposure goes. Strengths and losses are in stops. */
export interface FilterInStack {
  readonly id: string;
  readonly kind: 'neutral density' | 'graduated' | 'polarizer' | 'other';
  /** What the rim says. */
  readonly labelStops?: number | undefined;
  /** What the owner measured. */
  readonly measuredStops?: number | undefined;
  /** What a polarizer (or another filter) swallows. */
  readonly lossStops?: number | undefined;
}

/** Where the stops of a filter come from. */
export type StrengthBasis = 'measured' | 'label' | 'stated loss' | 'usual loss' | 'sky only' | 'unknown';

/** What one filter adds. */
export interface StackLine {
  readonly id: string;
  /** "6.4 stops, measured" */
  readonly label: string;
  readonly stops: number;
  /** ± stops */
  readonly spread: number;
  readonly basis: StrengthBasis;
}

/** What a stack of filters takes from the foreground. */
export interface StackStops {
  readonly stops: number;
  /** ± stops */
  readonly spreadStops: number;
  readonly lines: readonly StackLine[];
}

/** ± stops of a strength that was measured; common practice, no source. */
export const measuredSpread = 0.1;
/** ± stops of a strength read off the rim; common practice, no source. */
export const labelSpread = 1 / 3;
/** ± stops of a strength read off the rim from ten stops; common practice, no source. */
export const strongLabelSpread = 1 / 2;
/** Stops that a polarizer usually swallows; 1 for an ideal one, 1.3 to 2 for real ones: common practice, no source. */
export const usualPolarizerLoss = 1.5;

/** Ten stops, less what rounding makes of them: density 3.0 is 9.97 stops. */
const strongFromStops = 9.95;

/**
 * The stops that a stack takes from the foreground. Strengths add (ISO 5: densities add in a stack). A measured strength
 * wins over the label. A graduated filter holds back the sky only and counts 0. The tolerances of separate filters are
 * independent, so their spreads add as the root of the sum of squares.
 */
export function stackStops(filters: readonly FilterInStack[]): StackStops {
  const lines = filters.map(lineOf);
  const stops = lines.reduce((sum, line) => sum + line.stops, 0);
  const spreadStops = Math.hypot(...lines.map((line) => line.spread));
  return { stops, spreadStops, lines };
}

function lineOf(filter: FilterInStack): StackLine {
  const { id, kind, labelStops, measuredStops, lossStops } = filter;
  if (kind === 'graduated') {
    return { id, label: 'holds back the sky only', stops: 0, spread: 0, basis: 'sky only' };
  }
  if (measuredStops !== undefined) return line(id, measuredStops, measuredSpread, 'measured');
  if (lossStops !== undefined) return line(id, lossStops, labelSpread, 'stated loss');
  if (labelStops !== undefined) {
    return line(id, labelStops, labelStops >= strongFromStops ? strongLabelSpread : labelSpread, 'label');
  }
  if (kind === 'polarizer') return line(id, usualPolarizerLoss, labelSpread, 'usual loss');
  return { id, label: 'strength unknown, counted as 0', stops: 0, spread: 0, basis: 'unknown' };
}

function line(id: string, stops: number, spread: number, basis: StrengthBasis): StackLine {
  const figure = Math.round(stops * 100) / 100;
  return { id, label: `${figure} ${figure === 1 ? 'stop' : 'stops'}, ${basis}`, stops, spread, basis };
}
