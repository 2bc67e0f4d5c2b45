/** The numbers of several runs of one thing. */
export interface Runs {
  readonly median: number;
  /** Nineteen of twenty runs took no longer. */
  readonly p95: number;
}

export function runsOf(values: readonly number[]): Runs {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
  return { median: at(0.5), p95: at(0.95) };
}

/** A number with about three figures. */
export function figure(value: number): string {
  if (!Number.isFinite(value)) return '-';
  return value.toFixed(value >= 100 ? 0 : value >= 10 ? 1 : 2);
}

/** A plain table: the first column to the left, the others to the right. */
export function plainTable(rows: readonly (readonly string[])[]): string {
  const columns = Math.max(...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, column) =>
    Math.max(...rows.map((row) => row[column]?.length ?? 0)),
  );
  return rows
    .map((row) =>
      row
        .map((cell, column) =>
          column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0),
        )
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
