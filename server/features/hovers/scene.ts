import type { Analysis, Rule } from '../../analysis.ts';
import type { Mark } from '../../plan/reader.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';

/** What a hover is about: a value, and the shot and spot to which it belongs. */
export interface Scene {
  readonly analysis: Analysis;
  readonly mark: Mark;
  readonly rules: readonly Rule[];
  readonly spot?: DaySpot;
  readonly shot?: DayShot;
}

/** One kind of hover: markdown, or nothing when the value is not of its kind or nothing is known of it. */
export type HoverKind = (scene: Scene) => string | undefined;
