/** One high or low water from a tide table. The height counts above the table's own datum. */
export interface Tide {
  readonly kind: 'high' | 'low';
  readonly instantMs: number;
  readonly heightMetres?: number;
}

/** How the level moves between two waters of a table. */
export type TideRule = 'cosine' | 'twelfths';

/**
 * The share of the way from one water to the next, 0 to 1, when `part` (0 to 1) of the time is over.
 * Cosine: half a swing of a pendulum. Rule of twelfths: in six equal parts 1, 2, 3, 3, 2, 1 twelfths, straight within
 * each. Admiralty practice; the two differ by less than 2 % of the range.
 */
export function tideShare(part: number, rule: TideRule = 'cosine'): number {
  const clamped = Math.max(0, Math.min(1, part));
  if (rule === 'cosine') {
    return (1 - Math.cos(Math.PI * clamped)) / 2;
  }
  const reached = [0, 1, 3, 6, 9, 11, 12, 12];
  const sixth = Math.floor(clamped * 6);
  const from = reached[sixth] as number;
  const to = reached[sixth + 1] as number;
  return (from + (to - from) * (clamped * 6 - sixth)) / 12;
}

/** The level at an instant, as far as the table reaches. */
export interface TideLevel {
  readonly heightMetres: number;
  readonly rising: boolean;
  readonly before: Tide;
  readonly after: Tide;
}

/**
 * The level between the two waters of the table around the instant. Undefined outside the table, where a height is
 * missing, and where a water seems to be missing: two of a kind in a row. An estimate: weather alone moves the sea by
 * decimetres, and estuaries and narrows keep other curves.
 */
export function tideHeight(
  tides: readonly Tide[],
  instantMs: number,
  rule: TideRule = 'cosine',
): TideLevel | undefined {
  const inOrder = [...tides].sort((a, b) => a.instantMs - b.instantMs);
  const next = inOrder.findIndex((tide) => tide.instantMs > instantMs);
  const last = inOrder.at(-1);
  const atLast = next === -1 && last?.instantMs === instantMs;
  const after = atLast ? last : inOrder[next];
  const before = inOrder[(atLast ? inOrder.length - 1 : next) - 1];
  if (before?.heightMetres === undefined || after?.heightMetres === undefined || before.kind === after.kind) {
    return undefined;
  }
  const part = (instantMs - before.instantMs) / (after.instantMs - before.instantMs);
  const heightMetres =
    before.heightMetres + (after.heightMetres - before.heightMetres) * tideShare(part, rule);
  return { heightMetres, rising: after.kind === 'high', before, after };
}
