/** How a film loses speed in long exposures: a power law, or the rows of its data sheet. */
export type Reciprocity = ReciprocityLaw | ReciprocityTable;

/** Corrected time = beyond · (t / beyond)^exponent for t > beyond; no correction up to there. */
export interface ReciprocityLaw {
  /** 1 for none, 1.25 to 1.4 for most films. It is a property of the film and comes from its maker or from tests. */
  readonly exponent: number;
  readonly beyondSeconds: number;
}

/** Rows of a data sheet, in any order. */
export interface ReciprocityTable {
  readonly rows: readonly ReciprocityRow[];
}

/** Metered and corrected time in seconds, both positive. */
export interface ReciprocityRow {
  readonly meteredSeconds: number;
  readonly correctedSeconds: number;
}

/**
 * The time that a film needs where the meter asks for `seconds`.
 *
 * The power law is K. Schwarzschild's (Astrophysical Journal 11, 1900: E·t^q constant, exponent = 1/q). Data sheets write
 * it as t^p with t in seconds, which begins at 1 s; written as beyond · (t/beyond)^p it is the same there and has no jump
 * at any other beginning.
 *
 * A table is interpolated between its rows on logarithmic scales, left uncorrected below its first row, and carried on
 * beyond its last row with the slope of the last two.
 */
export function correctedSeconds(film: Reciprocity, seconds: number): number {
  if ('rows' in film)
    return alongTable(
      seconds,
      sortedRows(film, (row) => row),
      seconds,
    );
  const { exponent, beyondSeconds } = film;
  return seconds > beyondSeconds ? beyondSeconds * (seconds / beyondSeconds) ** exponent : seconds;
}

/** The metered time for which a film needs `corrected` seconds: the inverse of `correctedSeconds`. */
export function meteredSeconds(film: Reciprocity, corrected: number): number {
  if ('rows' in film) {
    const inverse = sortedRows(film, (row) => ({
      meteredSeconds: row.correctedSeconds,
      correctedSeconds: row.meteredSeconds,
    }));
    const first = inverse[0];
    const uncorrected = first ? Math.min(corrected, first.correctedSeconds) : corrected;
    return alongTable(corrected, inverse, uncorrected);
  }
  const { exponent, beyondSeconds } = film;
  return corrected > beyondSeconds
    ? beyondSeconds * (corrected / beyondSeconds) ** (1 / exponent)
    : corrected;
}

/** Whether the time lies beyond the last row of a data sheet, so that the correction is a guess. */
export function isExtrapolated(film: Reciprocity, seconds: number): boolean {
  return 'rows' in film && film.rows.every((row) => row.meteredSeconds < seconds);
}

function sortedRows(film: ReciprocityTable, as: (row: ReciprocityRow) => ReciprocityRow) {
  return film.rows.map(as).sort((a, b) => a.meteredSeconds - b.meteredSeconds);
}

function alongTable(seconds: number, rows: readonly ReciprocityRow[], belowFirst: number): number {
  const first = rows[0];
  if (!first || seconds < first.meteredSeconds) return belowFirst;
  const next = rows.findIndex((row) => row.meteredSeconds >= seconds);
  const upper = rows[next < 0 ? rows.length - 1 : Math.max(next, 1)] ?? first;
  const lower = rows[(next < 0 ? rows.length - 1 : Math.max(next, 1)) - 1] ?? first;
  const width = Math.log(upper.meteredSeconds / lower.meteredSeconds);
  const slope = width > 0 ? Math.log(upper.correctedSeconds / lower.correctedSeconds) / width : 1;
  return lower.correctedSeconds * (seconds / lower.meteredSeconds) ** slope;
}
