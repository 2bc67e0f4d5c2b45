import type { Bag } from '../plan/bag.ts';
import type { PlanModel, Spot } from '../plan/fields.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { Value } from '../plan/table.ts';
import type { Moment } from '../quantities/moment.ts';
import { type Facing, facingOf } from './facing.ts';
import type { ShotExposure, ShotFrames } from './frames.ts';
import { type Gear, gearOf } from './gear.ts';
import type { ShotLight } from './light.ts';
import type { Memory } from './memory.ts';
import type { Resolution } from './moments.ts';
import { type SpotPlace, spotPlace } from './place.ts';
import { present } from './present.ts';
import type { Thresholds } from './thresholds.ts';
import { Timeline } from './timeline.ts';
import type { WalkTime } from './travel.ts';

/** A moment that the plan states, and what it comes to. */
export interface StatedMoment {
  /** Which line it is, in the plan's words: "arrive", "start of mirror". */
  readonly name: string;
  readonly value: Value<Moment>;
  readonly resolution: Resolution;
  /** The spot whose clock and sky it follows. */
  readonly at?: SpotPlace;
}

/** A picture on the dated day. Instants are epoch milliseconds; what could not be found is absent. */
export interface DayShot {
  readonly shot: Shot;
  readonly gear: Gear;
  readonly facing?: Facing;
  readonly exposure?: ShotExposure;
  readonly frames?: ShotFrames;
  /** When the first frame begins. */
  readonly startMs?: number;
  /** The light then; absent while start or place is not known. */
  readonly light?: ShotLight;
  /** When the first frame could begin: ready, or the end of the shot before. */
  readonly freeFromMs?: number;
  readonly endMs?: number;
}

/** A visit on the dated day. */
export interface DaySpot {
  readonly spot: Spot;
  readonly at?: SpotPlace;
  /** From the place before, by the plan's `drive`, in seconds; 0 when left out. */
  readonly driveSeconds?: number;
  readonly walk?: WalkTime;
  /** The earliest arrival that the place before, drive and walk allow. */
  readonly earliestMs?: number;
  /** As the plan states it, else the earliest. */
  readonly arriveMs?: number;
  readonly arrivalStated: boolean;
  readonly readyMs?: number;
  /** When the last shot ends. */
  readonly doneMs?: number;
  /** Packed, and back from the walk. */
  readonly leaveMs?: number;
  /** The latest departure from the place before that makes the stated arrival. */
  readonly leaveByMs?: number;
  readonly opensMs?: number;
  readonly closesMs?: number;
  readonly shots: readonly DayShot[];
}

/** A shot with the visit to which it belongs, and its place among the shots there. */
export interface ShotOfDay extends DayShot {
  readonly visit: DaySpot;
  readonly place: number;
}

/** A plan on its date. */
export interface Day {
  readonly leaveMs?: number;
  readonly spots: readonly DaySpot[];
  /** Every shot of all spots, in order. */
  readonly shots: readonly ShotOfDay[];
  /** Every moment that the plan states, in the order of the text. */
  readonly moments: readonly StatedMoment[];
  readonly shotOf: (id: string) => DayShot | undefined;
}

/** What a day is worked out from. */
export interface DayInput {
  readonly plan: PlanModel;
  readonly bag: Bag;
  readonly thresholds: Thresholds;
  readonly memory: Memory;
}

/** Puts a plan on its date: where each moment falls, how long each shot takes, when each spot is reached and left. */
export function planDay(input: DayInput): Day {
  const { plan, bag, memory } = input;
  const spots = (plan.spots ?? []).map((spot) => {
    const at = spotPlace(plan, spot, memory);
    const shots = (spot.shots ?? []).map((shot) => {
      const facing = at === undefined ? undefined : facingOf(shot, plan, at.place, memory);
      return present({ shot, gear: gearOf(shot, bag, memory), facing });
    });
    return present({ spot, at, shots });
  });
  return new Timeline(input, spots).day();
}
