import { fNumberPositions } from '../exposure/dial.ts';
import type { FilteredExposureInput } from '../exposure/exposure.ts';
import { type Candidate, type Solution, solve } from '../exposure/solver.ts';
import { stackStops } from '../exposure/stack.ts';
import { sharpestFNumber } from '../optics/diffraction.ts';
import type { Bag } from '../plan/bag.ts';
import type { PlanModel, Spot } from '../plan/fields.ts';
import type { Filter } from '../plan/kitFields.ts';
import type { DayShot } from './day.ts';
import { canBeAveraged, type EffectRange, effectRangeOn, waterKnown, waterOf } from './effects.ts';
import { exposureUnstated } from './frames.ts';
import { type Gear, stackPart } from './gear.ts';
import type { Memory } from './memory.ts';
import { pitchOf } from './screen.ts';

/** The speeds that are tried besides the shot's own; common practice, no source. */
const isos = [100, 200, 400, 800] as const;

/** What a solution shall reach, where it is not simply the range of the effect by the reading. */
export interface Aim {
  /** Shutter times in seconds; those of the effect if not given. */
  readonly range?: EffectRange;
  /** What the meter says; the shot's own reading, or what is expected in its place, if not given. */
  readonly metered?: FilteredExposureInput['metered'] | undefined;
}

/**
 * The ways to bring a shot's time into the range of its effect with what is in the bag: filters that can be mounted on
 * the lens, the lens's apertures, a few speeds. Best first; empty when there is none, or when the shot has no effect or
 * no exposure yet. A polarizer is no help to freeze water, which needs light, nor for a mirror, which it takes away.
 */
export function shotSolutions(
  { shot, gear, exposure }: DayShot,
  spot: Spot,
  plan: PlanModel,
  bag: Bag,
  memory: Memory,
  aim: Aim = {},
): readonly Solution[] {
  const effect = shot.effect?.value;
  const range = aim.range ?? shotRange(shot, spot, plan);
  const metered = aim.metered ?? exposure?.input?.metered;
  const fNumber = exposure?.input?.fNumber ?? gear.fNumber;
  if (effect === undefined || range === undefined || metered === undefined || fNumber === undefined)
    return [];
  const filters = candidates(bag, gear);
  const apertures = aperturesOf(gear);
  const mounted = gear.filters.flatMap(({ filter }) => (filter.id === undefined ? [] : [filter.id.value]));
  const speeds = speedsOf(gear);
  const sharpest = sharpestOf(gear);
  const { dial, bulb } = gear;
  const addPolarizer = effect !== 'mirror' && effect !== 'frozen';
  const averaging = canBeAveraged(effect);
  // All that the solver is given; a dial is told by its step and its ends.
  const key = JSON.stringify([
    [range.shortest, range.longest],
    metered,
    fNumber,
    gear.iso,
    gear.reciprocity,
    filters,
    gear.lens?.aperture?.value,
    mounted,
    speeds,
    sharpest,
    [addPolarizer, averaging],
    bag.holder?.slots?.value,
    [dial.stepStops, dial.shortest.seconds, dial.longest.seconds, bulb],
  ]);
  return memory.once(`solutions ${key}`, () =>
    solve({
      rangeSeconds: range,
      metered,
      film: gear.reciprocity,
      filters,
      apertures,
      isos: speeds,
      current: { filters: mounted, fNumber, iso: gear.iso },
      sharpestFNumber: sharpest,
      maxFilters: 3,
      holderSlots: bag.holder?.slots?.value,
      dial,
      bulb,
      addPolarizer,
      averaging,
    }),
  );
}

/** The speeds to try: no lower ones than the shot's own or 100, since no body says how low it goes; none on film. */
function speedsOf({ film, iso }: Gear): readonly number[] {
  if (film !== undefined) return [iso];
  return [...new Set([iso, ...isos.filter((speed) => speed >= Math.min(iso, 100))])];
}

/** What the meter should say by the light that is expected, for a shot whose time the plan states without a reading. */
export function expectedReading(shot: DayShot): Aim['metered'] {
  return exposureUnstated(shot)?.input?.metered;
}

/** How many frames of a shot look like one long exposure when they are averaged; not on film, nor over a panorama. */
export function averagedFrames({ shot, gear }: DayShot): number {
  const averages = gear.film === undefined && shot.sweep === undefined && shot.bracket === undefined;
  return averages && canBeAveraged(shot.effect?.value ?? '') ? (shot.frames?.value ?? 1) : 1;
}

/** The range of a shot's effect, for messages and pictures; undefined while its water cannot be read. */
export function shotRange(shot: DayShot['shot'], spot: Spot, plan: PlanModel): EffectRange | undefined {
  const effect = shot.effect?.value;
  if (effect === undefined || !waterKnown(effect, shot, spot)) return undefined;
  return effectRangeOn(effect, waterOf(shot, spot), plan);
}

/** Every filter of the bag as something that could be mounted. */
function candidates(bag: Bag, gear: Gear): readonly Candidate[] {
  return [...bag.filters.values()].flatMap((filter) => {
    const part = stackPart(filter);
    if (part === undefined || part.kind === 'other') return [];
    const { stops, spreadStops } = stackStops([part]);
    const mount = filter.slot === undefined ? 'thread' : 'slot';
    return [
      {
        id: part.id,
        kind: part.kind,
        stops,
        spreadStops,
        fits: filterFits(filter, gear, bag),
        mount,
      } as const,
    ];
  });
}

/** Whether a filter can be mounted on the lens of a shot: by its thread, or by holder and ring. What is not stated is taken to fit. */
export function filterFits(filter: Filter, gear: Gear, bag: Bag): boolean {
  const thread = gear.lens?.thread?.value;
  if (filter.slot !== undefined) {
    const holder = bag.holder;
    if (holder === undefined) return false;
    if (holder.slot !== undefined && Math.abs(holder.slot.value - filter.slot.value) > 0.5) return false;
    return (
      thread === undefined ||
      holder.rings === undefined ||
      holder.rings.some((ring) => sameSize(ring.value, thread))
    );
  }
  return filter.thread === undefined || thread === undefined || sameSize(filter.thread.value, thread);
}

function sameSize(a: number, b: number): boolean {
  return Math.abs(a - b) < 0.25;
}

/** All apertures in third stops, as marked. */
const markedApertures: readonly number[] = fNumberPositions(1 / 3).map(({ markedFNumber }) => markedFNumber);

/** The marks between the lens's widest and smallest aperture, in third stops. */
function aperturesOf(gear: Gear): readonly number[] {
  const range = gear.lens?.aperture?.value;
  const own = gear.fNumber === undefined ? [] : [gear.fNumber];
  if (range === undefined) return own;
  const marks = markedApertures.filter(
    (mark) => mark >= range.widest - 0.05 && mark <= range.smallest + 0.05,
  );
  return [...new Set([...own, ...marks])].sort((a, b) => a - b);
}

function sharpestOf(gear: Gear): number | undefined {
  const pitch = pitchOf(gear);
  return pitch === undefined ? undefined : sharpestFNumber(pitch);
}
