/** A block that is open at some line: its lines start at `column`. */
export interface Level {
  readonly column: number;
  readonly kind: 'map' | 'sequence';
}

/** How a line enters the blocks around it. */
export interface Entrance {
  readonly column: number;
  /** The columns of its dashes, from `column` on. */
  readonly dashes: readonly number[];
  /** The column of its key, if it has one. */
  readonly key: number | undefined;
}

/**
 * The blocks open after a line, given those before it; undefined when it starts at a column where it belongs to none.
 * `opens` says that the line before awaits its value: only then may a new block begin.
 */
export function enter(
  levels: readonly Level[],
  line: Entrance,
  opens: boolean,
): readonly Level[] | undefined {
  const left = [...levels];
  while (left.length > 0 && (left.at(-1) as Level).column > line.column) left.pop();
  const kind = line.dashes.length > 0 ? 'sequence' : 'map';
  const continues = levels.length === left.length;
  const top = left.at(-1);
  const below = left.at(-2);
  if (
    kind === 'map' &&
    top?.kind === 'sequence' &&
    below?.column === line.column &&
    top.column === line.column
  )
    left.pop();
  else if (top !== undefined && !(top.column === line.column && top.kind === kind)) {
    const deeper = line.column > top.column || (kind === 'sequence' && line.column === top.column);
    if (!deeper || !opens || !continues) return undefined;
    left.push({ column: line.column, kind });
  } else if (top === undefined) {
    if (levels.length > 0) return undefined;
    left.push({ column: line.column, kind });
  }
  for (const column of line.dashes.slice(1)) left.push({ column, kind: 'sequence' });
  if (kind === 'sequence' && line.key !== undefined) left.push({ column: line.key, kind: 'map' });
  return left;
}

/** The columns of the blocks of one kind that a line at `column` would close, the nearest first. */
export function closedBy(levels: readonly Level[], column: number, kind: Level['kind']): readonly number[] {
  return levels
    .filter((level) => level.column > column && level.kind === kind)
    .map((level) => level.column)
    .sort((a, b) => a - b);
}
