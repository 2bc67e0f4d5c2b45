import type { Value } from '../plan/table.ts';
import type { Moment } from '../quantities/moment.ts';
import type { Day, DayInput, DayShot, DaySpot, StatedMoment } from './day.ts';
import { heldSetting, shotDrift } from './drift.ts';
import { readOrExpectedExposure, type ShotExposure, shotFrames } from './frames.ts';
import { type ShotLight, shotLight } from './light.ts';
import { at, type MomentScope, type Resolution, resolveMoment, unknown } from './moments.ts';
import { panoramaColumns } from './panorama.ts';
import type { SpotPlace } from './place.ts';
import { present } from './present.ts';
import { walkTime } from './travel.ts';

type Shot = Pick<DayShot, 'shot' | 'gear' | 'facing'>;
type Found = Pick<DayShot, 'exposure' | 'frames' | 'light'>;
type Visit = Pick<DaySpot, 'spot' | 'at'> & { readonly shots: readonly Shot[] };

/** How many moments are looked for within one another. One that lies further down is found first, and the rest again. */
const deepest = 200;

/** A moment that is looked for: what it is called, and how it is found. */
interface Quest {
  readonly key: string;
  /** In the plan's words: "arriving at steps". */
  readonly name: string;
  readonly find: () => Resolution;
}

/** Thrown to come back from a search that went too deep: what is to be found first. */
class PutOff {
  readonly quest: Quest;

  constructor(quest: Quest) {
    this.quest = quest;
  }
}

/**
 * The order of a day. Moments may lean on each other in any direction, so each is found when it is first asked for and
 * remembered; one that is asked for while it is being found leans on itself, and that circle is reported. In the order of
 * the text each leans on one that is known already; where a plan is written backwards, shot after shot, the chain may be
 * as long as the plan, and is followed without going deeper than `deepest`.
 */
export class Timeline {
  readonly #input: DayInput;
  readonly #visits: readonly Visit[];
  readonly #found = new Map<string, Resolution>();
  /** What is being found, the outermost first: names by their keys. */
  readonly #asking = new Map<string, string>();
  /** How many of those were there before the search that runs. Undefined while none runs. */
  #base: number | undefined;
  readonly #moments: StatedMoment[] = [];
  readonly #exposures = new Map<Shot, Found>();
  readonly #shots = new Map<string, readonly [visit: number, shot: number]>();

  constructor(input: DayInput, visits: readonly Visit[]) {
    this.#input = input;
    this.#visits = visits;
    visits.forEach((visit, v) => {
      visit.shots.forEach(({ shot }, s) => {
        const id = shot.id?.value;
        if (id !== undefined && !this.#shots.has(id)) this.#shots.set(id, [v, s]);
      });
    });
  }

  day(): Day {
    const spots = this.#visits.map((_, index) => this.#daySpot(index));
    const leaveMs = instantIn(this.#leaveHome());
    this.#otherMoments();
    this.#moments.sort((a, b) => a.value.span.start - b.value.span.start);
    const byId = new Map<string, DayShot>();
    for (const { shots } of spots) {
      for (const shot of shots) {
        const id = shot.shot.id?.value;
        if (id !== undefined && !byId.has(id)) byId.set(id, shot);
      }
    }
    return {
      ...(leaveMs === undefined ? {} : { leaveMs }),
      spots,
      shots: spots.flatMap((visit) => visit.shots.map((shot, place) => ({ ...shot, visit, place }))),
      moments: this.#moments,
      shotOf: (id) => byId.get(id),
    };
  }

  #daySpot(index: number): DaySpot {
    const visit = this.#visits[index] as Visit;
    const { spot } = visit;
    const walk = walkTime(spot, this.#input.thresholds['walking-factor']);
    const driveSeconds = spot.self.broken.has('drive') ? undefined : (spot.drive?.value ?? 0);
    const arriveMs = instantIn(this.#arrive(index));
    const shots = visit.shots.map((_, shot) => this.#dayShot(index, shot));
    const leaveByMs =
      spot.arrive === undefined || arriveMs === undefined || driveSeconds === undefined || walk === undefined
        ? undefined
        : arriveMs - (driveSeconds + walk.thereSeconds) * 1000;
    const opening = this.#opening(index);
    return present({
      spot,
      at: visit.at,
      driveSeconds,
      walk,
      earliestMs: instantIn(this.#earliest(index)),
      arriveMs,
      arrivalStated: spot.arrive !== undefined,
      readyMs: instantIn(this.#ready(index)),
      doneMs: instantIn(this.#done(index)),
      leaveMs: instantIn(this.#leave(index)),
      leaveByMs,
      ...opening,
      shots,
    });
  }

  #dayShot(visit: number, index: number): DayShot {
    const known = this.#visits[visit]?.shots[index] as Shot;
    const startMs = instantIn(this.#start(visit, index));
    const endMs = instantIn(this.#end(visit, index));
    const freeFromMs = instantIn(index === 0 ? this.#ready(visit) : this.#end(visit, index - 1));
    const { shot, gear, facing } = known;
    const { exposure, frames, light } = this.#exposure(visit, index);
    return present({ shot, gear, facing, exposure, frames, light, startMs, endMs, freeFromMs });
  }

  #exposure(visit: number, index: number): Found {
    const shot = this.#visits[visit]?.shots[index] as Shot;
    const known = this.#exposures.get(shot);
    if (known !== undefined) return known;
    const startMs = instantIn(this.#start(visit, index));
    const light = this.#light(visit, shot, startMs);
    const exposure = this.#exposureIn(light, visit, shot);
    const broken = shot.shot.self.broken;
    const countable = !['frames', 'bracket', 'gap', 'sweep'].some((key) => broken.has(key));
    const frames =
      exposure === undefined || !countable
        ? undefined
        : shotFrames(
            shot.shot,
            shot.gear,
            heldSetting(exposure, this.#input.thresholds.drift).seconds,
            panoramaColumns(shot.shot, shot.gear),
          );
    const found = present({ exposure, frames, light });
    this.#exposures.set(shot, found);
    return found;
  }

  #light(visit: number, shot: Shot, startMs: number | undefined): ShotLight | undefined {
    const place = this.#visits[visit]?.at;
    if (place === undefined || startMs === undefined) return undefined;
    return shotLight(startMs, place, this.#input, shot);
  }

  /** By the reading or the plan's word, else by the light that is expected; and what changing light does to it. */
  #exposureIn(light: ShotLight | undefined, visit: number, { shot, gear }: Shot): ShotExposure | undefined {
    const exposure = readOrExpectedExposure(shot, gear, light?.expected);
    const place = this.#visits[visit]?.at;
    if (exposure === undefined || light === undefined || place === undefined) return exposure;
    const drift = shotDrift(exposure, light.atMs, place, this.#input);
    return drift === undefined ? exposure : { ...exposure, drift };
  }

  /** The plan's own departure; else, when the first arrival is stated, the latest that makes it. */
  #leaveHome(): Resolution {
    return this.#once('home', 'leaving home', () => {
      const { start, self } = this.#input.plan;
      if (start?.leave !== undefined) return this.#stated('leave', start.leave, 0);
      if (self.broken.has('start') || start?.self.broken.has('leave') === true) return unknown;
      return unknown;
    });
  }

  #earliest(index: number): Resolution {
    const spot = this.#visits[index]?.spot;
    if (spot === undefined) return unknown;
    return this.#once(`reach ${index}`, `reaching ${this.#nameOf(index)}`, () => {
      const before = index === 0 ? this.#leaveHome() : this.#leave(index - 1);
      const walk = walkTime(spot, this.#input.thresholds['walking-factor']);
      if (walk === undefined || spot.self.broken.has('drive')) return unknown;
      return later(before, (spot.drive?.value ?? 0) + walk.thereSeconds);
    });
  }

  #arrive(index: number): Resolution {
    const spot = this.#visits[index]?.spot;
    if (spot === undefined) return unknown;
    return this.#once(`arrive ${index}`, `arriving at ${this.#nameOf(index)}`, () => {
      if (spot.arrive !== undefined) return this.#stated('arrive', spot.arrive, index);
      return spot.self.broken.has('arrive') ? unknown : this.#earliest(index);
    });
  }

  #ready(index: number): Resolution {
    const spot = this.#visits[index]?.spot;
    if (spot === undefined) return unknown;
    return this.#once(`ready ${index}`, `being ready at ${this.#nameOf(index)}`, () =>
      spot.self.broken.has('setup') ? unknown : later(this.#arrive(index), spot.setup?.value ?? 0),
    );
  }

  #start(visit: number, index: number): Resolution {
    const shot = this.#visits[visit]?.shots[index]?.shot;
    if (shot === undefined) return unknown;
    return this.#once(`start ${visit} ${index}`, `the start of ${nameOfShot(shot, index)}`, () => {
      if (shot.start !== undefined)
        return this.#stated(`start of ${shot.id?.value ?? 'the shot'}`, shot.start, visit);
      if (shot.self.broken.has('start')) return unknown;
      return index === 0 ? this.#ready(visit) : this.#end(visit, index - 1);
    });
  }

  #end(visit: number, index: number): Resolution {
    const shot = this.#visits[visit]?.shots[index]?.shot;
    if (shot === undefined) return unknown;
    return this.#once(`end ${visit} ${index}`, `the end of ${nameOfShot(shot, index)}`, () => {
      const { frames } = this.#exposure(visit, index);
      const start = this.#start(visit, index);
      if (frames !== undefined) return later(start, frames.totalSeconds);
      // A shot that is only begun keeps none of the others waiting: it counts nothing yet.
      const isBegun =
        !['shutter', 'metered', 'filters'].some((key) => shot.self.keys.has(key)) &&
        this.#visits[visit]?.at?.skylineKnown !== false;
      return isBegun && shot.self.broken.size === 0 ? start : unknown;
    });
  }

  #done(index: number): Resolution {
    const shots = this.#visits[index]?.shots.length ?? 0;
    if (shots === 0) return this.#ready(index);
    const ends = Array.from({ length: shots }, (_, shot) => this.#end(index, shot));
    if (ends.some((end) => end.kind !== 'at')) return unknown;
    return at(Math.max(...ends.map((end) => instantIn(end) as number)));
  }

  #leave(index: number): Resolution {
    const spot = this.#visits[index]?.spot;
    if (spot === undefined) return unknown;
    return this.#once(`leave ${index}`, `leaving ${this.#nameOf(index)}`, () => {
      const walk = walkTime(spot, this.#input.thresholds['walking-factor']);
      if (walk === undefined || spot.self.broken.has('pack')) return unknown;
      return later(this.#done(index), (spot.pack?.value ?? 0) + walk.backSeconds);
    });
  }

  #opening(index: number): { opensMs?: number; closesMs?: number } {
    const visit = this.#visits[index];
    const open = visit?.spot.open?.value;
    if (visit === undefined || open === undefined) return {};
    const scope = this.#scope(index, visit.at);
    if (scope === undefined) return {};
    return present({
      opensMs: instantIn(resolveMoment(open.from, scope)),
      closesMs: instantIn(resolveMoment(open.to, scope)),
    });
  }

  /** Moments that nothing else leans on, so that they too are resolved and checked. */
  #otherMoments(): void {
    const { party } = this.#input.plan;
    if (party?.backBy !== undefined) this.#stated('back by', party.backBy, 0);
    this.#visits.forEach(({ spot }, index) => {
      if (spot.decide !== undefined) this.#stated('decide', spot.decide, index);
    });
  }

  #stated(name: string, value: Value<Moment>, visit: number): Resolution {
    const place = this.#visits[visit]?.at;
    const scope = this.#scope(visit, place);
    const resolution = scope === undefined ? unknown : resolveMoment(value.value, scope);
    this.#moments.push(present({ name, value, resolution, at: place }));
    return resolution;
  }

  #scope(visit: number, place: SpotPlace | undefined): MomentScope | undefined {
    if (place === undefined) return undefined;
    return {
      date: place.date,
      clock: place.clock,
      sky: (dayOffset) => place.sky(dayOffset),
      skylineKnown: place.skylineKnown,
      mark: (mark) => (mark === 'arrive' ? this.#arrive(visit) : this.#ready(visit)),
      endOf: (id) => {
        const where = this.#shots.get(id);
        return where === undefined ? undefined : this.#end(where[0], where[1]);
      },
    };
  }

  #nameOf(index: number): string {
    return this.#visits[index]?.spot.id?.value ?? `spot ${index + 1}`;
  }

  /** What is known of a moment, or else what `find` gives. */
  #once(key: string, name: string, find: () => Resolution): Resolution {
    const known = this.#found.get(key);
    if (known !== undefined) return known;
    if (this.#asking.has(key)) {
      const keys = [...this.#asking.keys()];
      const path = keys.slice(keys.indexOf(key)).map((each) => this.#asking.get(each) as string);
      return { kind: 'failed', failure: 'circle', path: [...path, name] };
    }
    const quest = { key, name, find };
    if (this.#base === undefined) return this.#search(quest);
    if (this.#asking.size - this.#base >= deepest) throw new PutOff(quest);
    return this.#ask(quest);
  }

  #ask({ key, name, find }: Quest): Resolution {
    this.#asking.set(key, name);
    const found = find();
    this.#asking.delete(key);
    this.#found.set(key, found);
    return found;
  }

  /** Finds a moment, and before it those that lie too far down the chain on which it hangs. */
  #search(wanted: Quest): Resolution {
    const waiting = [{ quest: wanted, base: 0 }];
    for (;;) {
      const { quest, base } = waiting.at(-1) as { quest: Quest; base: number };
      for (const key of [...this.#asking.keys()].slice(base)) this.#asking.delete(key);
      this.#base = base;
      try {
        const found = this.#ask(quest);
        waiting.pop();
        if (waiting.length > 0) continue;
        this.#base = undefined;
        return found;
      } catch (fault) {
        if (!(fault instanceof PutOff)) throw fault;
        waiting.push({ quest: fault.quest, base: this.#asking.size });
      }
    }
  }
}

function nameOfShot(shot: Shot['shot'], index: number): string {
  return shot.id?.value ?? `shot ${index + 1}`;
}

/** A resolution so many seconds later. What leans on a failure is unknown, not a failure of its own; a circle stays one. */
function later(base: Resolution, seconds: number): Resolution {
  if (base.kind === 'at') return at(base.instantMs + seconds * 1000);
  return base.kind === 'failed' && base.failure === 'circle' ? base : unknown;
}

function instantIn(resolution: Resolution): number | undefined {
  return resolution.kind === 'at' ? resolution.instantMs : undefined;
}
