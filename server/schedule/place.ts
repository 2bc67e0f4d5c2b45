import type { PlanModel, Spot, Tide as TideField } from '../plan/fields.ts';
import type { Clock } from '../quantities/clock.ts';
import type { CivilDate } from '../quantities/date.ts';
import { daysLater } from '../sky/civil.ts';
import type { SkyDay } from '../sky/events.ts';
import type { Place } from '../sky/place.ts';
import { type Skyline, skyline } from '../sky/skyline.ts';
import type { Tide } from '../sky/tides.ts';
import type { ZoneClock } from '../sky/zones.ts';
import { trueDegrees } from './facing.ts';
import type { Memory } from './memory.ts';
import { present } from './present.ts';
import type { ZoneUncertainty } from './zone.ts';

/** A spot on the map and in time: its coordinates, its clock and its sky. */
export interface SpotPlace {
  readonly place: Place;
  readonly clock: ZoneClock;
  /** Whether the plan names the zone; else it was found from the coordinates. */
  readonly zoneGiven: boolean;
  readonly zoneDoubt?: ZoneUncertainty;
  readonly date: CivilDate;
  readonly skyline?: Skyline;
  /** False while a skyline is written that cannot be read, or not wholly: then nobody knows what the land hides. */
  readonly skylineKnown: boolean;
  readonly tides: readonly Tide[];
  /** Names all of this, so that what follows from it can be remembered. */
  readonly key: string;
  /** The sky so many civil days after the plan's date. */
  sky(dayOffset: number): SkyDay;
  /** The instant of a clock time at the spot; undefined where the clocks skip it. */
  instantOf(time: Clock): number | undefined;
}

/** Undefined while the date, the zone or the coordinates are missing or unreadable. */
export function spotPlace(plan: PlanModel, spot: Spot, memory: Memory): SpotPlace | undefined {
  const date = plan.date?.value;
  const at = spot.at?.value;
  if (date === undefined || at === undefined || plan.self.broken.has('timezone')) return undefined;
  const elevation = spot.elevation?.value;
  const place: Place = present({
    latitude: at.latitude,
    longitude: at.longitude,
    elevationMetres: elevation,
  });
  const zoneGiven = plan.timezone !== undefined;
  const clock = memory.clockOf(plan.timezone?.value ?? memory.zoneOf(place));
  const line = skylineOf(plan, spot, place, memory);
  const tides = tidesOf(plan.tides ?? [], date, clock);
  const options = present({ skyline: line, tides });
  const optionsKey = `${spot.skyline?.entries.map(({ key, value }) => `${key.text} ${value.text}`).join() ?? ''} ${plan.bearings?.value ?? ''} ${tides.map((tide) => `${tide.kind}${tide.instantMs} ${tide.heightMetres ?? ''}`).join()}`;
  const instants = new Map<Clock, number | undefined>();
  const zoneDoubt = memory.doubtOf(place, clock.zone, zoneGiven, clock.day(date).startMs + 12 * 3_600_000);
  return present({
    place,
    clock,
    zoneGiven,
    zoneDoubt,
    date,
    skyline: line,
    skylineKnown: !spot.self.broken.has('skyline'),
    tides,
    key: `${at.latitude} ${at.longitude} ${optionsKey}`,
    sky: (dayOffset: number) => memory.skyOf(place, daysLater(date, dayOffset), clock, options, optionsKey),
    instantOf: (time: Clock) => {
      // Each hour of a forecast is asked for by every shot.
      if (!instants.has(time)) instants.set(time, instantOf(time, date, clock));
      return instants.get(time);
    },
  });
}

function skylineOf(plan: PlanModel, spot: Spot, place: Place, memory: Memory): Skyline | undefined {
  const entries = spot.skyline?.entries ?? [];
  if (entries.length === 0) return undefined;
  return skyline(
    entries.map(({ key, value }) => ({
      azimuthDegrees: trueDegrees(key.value, plan, place, memory).degrees,
      altitudeDegrees: value.value,
    })),
  );
}

/** The table's waters as instants; a time that the clocks skip is left out, a repeated one counts at its first reading. */
function tidesOf(fields: readonly TideField[], date: CivilDate, clock: ZoneClock): readonly Tide[] {
  const tides: Tide[] = [];
  for (const { low, high, height } of fields) {
    for (const [kind, time] of [
      ['low', low],
      ['high', high],
    ] as const) {
      const instantMs = time === undefined ? undefined : instantOf(time.value, date, clock);
      if (instantMs === undefined) continue;
      tides.push({ kind, instantMs, ...(height === undefined ? {} : { heightMetres: height.value }) });
    }
  }
  return tides.sort((a, b) => a.instantMs - b.instantMs);
}

/** The instant of a clock time on a date; undefined where the clocks skip it. */
export function instantOf(time: Clock, date: CivilDate, clock: ZoneClock): number | undefined {
  const local = clock.resolve(daysLater(date, time.dayOffset), time.hour, time.minute, time.second);
  if (local.kind === 'skipped') return undefined;
  return local.kind === 'one' ? local.instantMs : local.earlierMs;
}
