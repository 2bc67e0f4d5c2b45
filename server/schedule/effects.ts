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
  if (set !== undefined) return set;
  const rows = effectTable.filter((row) => row.effect === effect);
  return rows.find((row) => row.water === water) ?? rows.find((row) => row.water === undefined);
}

/** What the water, the sky or the people will look like at a shutter time. */
export function lookAt(seconds: number, water: string | undefined, plan: PlanModel): Effect | undefined {
  const looks: readonly Effect[] = ['frozen', 'textured', 'silky', 'mist'];
  const found = looks.find((effect) => {
    const range = effectRange(effect, water, plan);
    return range !== undefined && seconds >= range.shortest && seconds <= range.longest;
  });
  if (found !== undefined) return found;
  // Between two looks, the nearer one in stops.
  let best: { readonly effect: Effect; readonly stops: number } | undefined;
  for (const effect of looks) {
    const range = effectRange(effect, water, plan);
    if (range === undefined) continue;
    const nearest = seconds < range.shortest ? range.shortest : range.longest;
    const stops = Math.abs(Math.log2(seconds / nearest));
    if (best === undefined || stops < best.stops) best = { effect, stops };
  }
  return best?.effect;
}
