import { markingGraceStops } from '../exposure/dial.ts';
import type { PlanModel, Spot } from '../plan/fields.ts';
import type { Effect, Shot, Water } from '../plan/shotFields.ts';

/** Shutter times in seconds, from the shortest to the longest that give a look; open at the end when infinite. */
export interface EffectRange {
  readonly shortest: number;
  readonly longest: number;
}

/** One row of the table: an effect, on one kind of water or on any. */
export interface EffectRow extends EffectRange {
  readonly effect: Effect;
  readonly water?: string;
}

/**
 * The shutter times that give each look, by kind of water. Common practice, no source: photographers differ, and so
 * does water; where its speed and distance are given, the streak on the sensor says more. A plan sets rows of its own
 * under `effects`.
 */
export const effectTable: readonly EffectRow[] = [
  { effect: 'frozen', shortest: 0, longest: 1 / 500 },
  { effect: 'frozen', water: 'sea', shortest: 0, longest: 1 / 500 },
  { effect: 'frozen', water: 'waterfall', shortest: 0, longest: 1 / 1000 },
  { effect: 'textured', shortest: 1 / 8, longest: 1 },
  { effect: 'textured', water: 'waterfall', shortest: 1 / 15, longest: 1 / 4 },
  { effect: 'textured', water: 'cascade', shortest: 1 / 8, longest: 1 },
  { effect: 'textured', water: 'spillway', shortest: 1 / 15, longest: 1 / 2 },
  { effect: 'textured', water: 'river', shortest: 1 / 4, longest: 2 },
  { effect: 'textured', water: 'sea', shortest: 1 / 4, longest: 2 },
  { effect: 'silky', shortest: 1, longest: 30 },
  { effect: 'silky', water: 'waterfall', shortest: 1 / 2, longest: 4 },
  { effect: 'silky', water: 'spillway', shortest: 1 / 2, longest: 8 },
  { effect: 'silky', water: 'cascade', shortest: 1, longest: 15 },
  { effect: 'silky', water: 'river', shortest: 4, longest: 60 },
  { effect: 'silky', water: 'sea', shortest: 4, longest: 30 },
  { effect: 'mist', shortest: 30, longest: 600 },
  { effect: 'mirror', shortest: 20, longest: 300 },
  { effect: 'cloud streaks', shortest: 60, longest: 600 },
  { effect: 'cleared of people', shortest: 120, longest: 1800 },
  { effect: 'star points', shortest: 1, longest: 30 },
  { effect: 'star trails', shortest: 600, longest: Number.POSITIVE_INFINITY },
];

/** The kind of water of a shot: its own, else the spot's. */
export function waterOf(shot: Shot, spot: Spot): Water | undefined {
  const own = shot.water;
  const around = spot.water;
  if (own === undefined) return around;
  return { ...around, ...own };
}

/** Whether the water that an effect asks about is known, its kind and its state: false while it is written and kind or state cannot be read. */
export function waterKnown(effect: string, { self, water: own }: Shot, spot: Spot): boolean {
  if (effect !== 'mirror' && !isLookOfWater(effect)) return true;
  if (self.broken.has('water')) return false;
  const around = spot.water?.self.broken;
  return (['kind', 'state'] as const).every((key) => {
    if (own?.self.broken.has(key) === true) return false;
    return own?.[key] !== undefined || (around?.has(key) !== true && !spot.self.broken.has('water'));
  });
}

/** The range for an effect on a kind of water: the plan's own, else the table's row for that water, else for any. */
export function effectRange(
  effect: string,
  water: string | undefined,
  plan: PlanModel,
): EffectRange | undefined {
  const own = new Map(
    (plan.effects?.entries ?? []).map(({ key, value }) => [key.value.toLowerCase(), value.value]),
  );
  const set = (water === undefined ? undefined : own.get(`${effect} ${water}`)) ?? own.get(effect);
  return set ?? effectRow(effect, water);
}

/** The range for an effect on the water of a shot: a mirror on calm water needs no long time, unless the plan sets one. */
export function effectRangeOn(
  effect: string,
  water: Water | undefined,
  plan: PlanModel,
): EffectRange | undefined {
  const range = effectRange(effect, water?.kind?.value, plan);
  const isCalmMirror = effect === 'mirror' && water?.state?.value === 'calm';
  if (range === undefined || !isCalmMirror || range !== effectRow('mirror')) return range;
  return { shortest: 0, longest: range.longest };
}

function effectRow(effect: string, water?: string): EffectRow | undefined {
  const rows = effectTable.filter((row) => row.effect === effect);
  return rows.find((row) => row.water === water) ?? rows.find((row) => row.water === undefined);
}

/** Effects of something in motion, for which short frames put together look like one long exposure. Common practice, no source. */
const averaged: ReadonlySet<string> = new Set([
  'silky',
  'mist',
  'mirror',
  'cloud streaks',
  'cleared of people',
]);

/** Whether several frames, averaged, look like one as long as all of them together. */
export function canBeAveraged(effect: string): boolean {
  return averaged.has(effect);
}

/** What moving water looks like. */
export type Look = 'frozen' | 'textured' | 'silky' | 'mist' | 'neither frozen nor textured';

const looks = ['frozen', 'textured', 'silky', 'mist'] as const;
const looksByName: ReadonlySet<string> = new Set(looks);

/** Whether an effect is a look of moving water. */
export function isLookOfWater(effect: string | undefined): boolean {
  return effect !== undefined && looksByName.has(effect);
}

/** So near to a range, in stops, its look begins to show. Common practice, no source. */
const beginsStops = 1;

/**
 * What water looks like at a shutter time: by the ranges of that water, and between two of them like the nearer one. Short
 * of them all only what is in the range of frozen is frozen: longer times smear the drops and do not draw lines yet. The
 * look that was wanted, outside the range of which the time lies, is not given, nor one on the far side of it.
 */
export function lookAt(
  seconds: number,
  water: string | undefined,
  plan: PlanModel,
  wanted?: string,
): Look | undefined {
  const missed = wanted === undefined ? undefined : effectRange(wanted, water, plan);
  const offs = looks.flatMap((look) => {
    const range = effectRange(look, water, plan);
    if (range === undefined || look === wanted || (missed !== undefined && isFarSide(range, missed, seconds)))
      return [];
    return [{ look, stops: stopsOutside(seconds, range) }];
  });
  const within = offs.find(({ stops }) => Math.abs(stops) <= markingGraceStops);
  if (within !== undefined) return within.look;
  const frozen = effectRange('frozen', water, plan);
  const textured = effectRange('textured', water, plan);
  const isShort = textured !== undefined && stopsOutside(seconds, textured) < -markingGraceStops;
  if (isShort && frozen !== undefined && seconds > frozen.longest) {
    const near = offs.find(({ look }) => look === 'textured');
    return near !== undefined && near.stops >= -beginsStops ? 'textured' : 'neither frozen nor textured';
  }
  const [nearest] = offs
    .filter(({ look }) => look !== 'frozen')
    .sort((a, b) => Math.abs(a.stops) - Math.abs(b.stops));
  return nearest?.look;
}

/** Whether a range reaches no further than the one that was missed, on the side to which it was missed. */
function isFarSide(range: EffectRange, missed: EffectRange, seconds: number): boolean {
  return seconds > missed.longest ? range.longest <= missed.longest : range.shortest >= missed.shortest;
}

/** How many stops a time is too long (positive) or too short (negative) for a range; 0 in it. */
export function stopsOutside(seconds: number, { shortest, longest }: EffectRange): number {
  if (seconds > longest) return Math.log2(seconds / longest);
  return seconds < shortest ? -Math.log2(shortest / seconds) : 0;
}

/** Whether a shutter time gives the look of a range, as markings name their times. */
export function isWithin(seconds: number, range: EffectRange): boolean {
  return Math.abs(stopsOutside(seconds, range)) <= markingGraceStops;
}
