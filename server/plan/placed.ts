import type { Anatomy } from './anatomy.ts';
import type { Entrance, Level } from './levels.ts';

/** A line that has taken its place among the blocks. */
export interface Placed {
  readonly index: number;
  readonly anatomy: Anatomy;
  /** Where it starts, or is taken to start. */
  readonly column: number;
  /** The blocks that were open before it. */
  readonly before: readonly Level[];
  readonly prior: Placed | undefined;
  /** Lines further in than this belong to its value. */
  readonly owner: number;
  /** Whether its value is still to come, on deeper lines. */
  opens: boolean;
  /** Whether its value is text without quotes, which may go on below. */
  plain: boolean;
  /** Lines taken as text that goes on from it. */
  readonly continued: number[];
}

/** Whether a line opened a map right below a key without a value, far enough in for a dash at `column` to stand before it. */
export function isLostItem(first: Placed, owner: Placed, column: number): boolean {
  const parent = first.before.at(-1);
  return (
    first.anatomy.dashes.length === 0 &&
    first.anatomy.key !== undefined &&
    first.column >= column + 2 &&
    owner.anatomy.key !== undefined &&
    owner.anatomy.form === 'none' &&
    parent?.kind === 'map' &&
    parent.column <= column
  );
}

/** How a line enters the blocks around it, taken to stand `shift` columns further right than it does. */
export function entrance(anatomy: Anatomy, column: number, shift: number): Entrance {
  return {
    column,
    dashes: anatomy.dashes.map((dash) => dash + shift),
    key: anatomy.key === undefined ? undefined : anatomy.column + shift,
  };
}
