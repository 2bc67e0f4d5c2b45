import type { CivilDate } from '../quantities/date.ts';
import { type EventInfo, type EventName, events } from '../quantities/events.ts';
import type { Facts } from '../text/finding.ts';
import { lazily } from '../text/lazily.ts';
import { RADIANS } from './angles.ts';
import {
  type Geocentric,
  geocentricMoon,
  geocentricSun,
  localHourAngle,
  MEAN_DAY_MS,
  moonSemidiameter,
  type Observer,
  observer,
  topocentric,
} from './bodies.ts';
import type { Place } from './place.ts';
import { dipDegrees, HORIZON_REFRACTION_DEGREES } from './refraction.ts';
import { type Crossing, crossings, monotoneSamples, type Sample } from './scan.ts';
import { type Body, type Clearance, clearance, nodes, type Skyline } from './skyline.ts';
import type { Tide } from './tides.ts';
import type { ZoneClock } from './zones.ts';

const STEP_MS = 3_600_000;

/** When an event happens on a civil date at a place, or why it does not. */
export type Sighting =
  | {
      readonly kind: 'at';
      /** The first time on that date. */
      readonly instantMs: number;
      /** Further times on the same date. */
      readonly others: readonly number[];
    }
  | {
      readonly kind: 'never';
      /** A clause for a message: "the sun stays above −6° all day (lowest −4.2°)". */
      readonly reason: string;
      /** The same for machines; instants are epoch milliseconds, altitudes degrees. */
      readonly facts: Facts;
    };

/** The highest and lowest altitude of a body's centre on one civil date, airless, in degrees. */
export interface AltitudeRange {
  readonly highestDegrees: number;
  readonly highestAtMs: number;
  readonly lowestDegrees: number;
  readonly lowestAtMs: number;
}

/** What is known of a spot beyond its coordinates. */
export interface SkyOptions {
  readonly skyline?: Skyline;
  readonly tides?: readonly Tide[];
  /** Height of the eye above a sea horizon that lies all around; it lowers the horizon of rise and set. 0 if absent. */
  readonly horizonDipMetres?: number;
}

/** Sun, moon and tide at a place from one local midnight to the next. Nothing is computed before it is asked for. */
export interface SkyDay {
  readonly place: Place;
  readonly date: CivilDate;
  readonly startMs: number;
  readonly endMs: number;
  event(name: EventName): Sighting;
  sunRange(): AltitudeRange;
  moonRange(): AltitudeRange;
}

const infoOf: ReadonlyMap<EventName, EventInfo> = new Map(events.map((info) => [info.name, info]));

/**
 * The sky over a place on a civil date. Rise, set and twilight are crossings of the altitudes that the event's definition
 * names; morning and evening are told by the direction of the crossing and not by the clock, so a sunset after midnight
 * belongs to the date on which it falls. Keep the object: it remembers what it has found.
 */
export function skyDay(place: Place, date: CivilDate, clock: ZoneClock, options: SkyOptions = {}): SkyDay {
  const { startMs, endMs } = clock.day(date);
  const from = observer(place);
  const sightings = new Map<EventName, Sighting>();
  const sun = lazily(() => sunCurve(from, startMs, endMs));
  const moon = lazily(() => moonCurve(from, startMs, endMs));
  const sunOver = lazily(() => overSkyline('sun'));
  const moonOver = lazily(() => overSkyline('moon'));
  const dip = dipDegrees(options.horizonDipMetres ?? 0);

  function overSkyline(body: Body): Clearance | undefined {
    return options.skyline && clearance(body, place, startMs, endMs, options.skyline);
  }

  function find(name: EventName): Sighting {
    if (endMs <= startMs) {
      return never('this date was left out where the time zone is set', { emptyDate: true });
    }
    const info = infoOf.get(name) as EventInfo;
    const { body, direction, altitudeDegrees } = info;
    if (body === 'tide') {
      return tide(name === 'high water' ? 'high' : 'low', options.tides ?? [], startMs, endMs);
    }
    if (direction === undefined) {
      return transit(body, from, startMs, endMs);
    }
    if (altitudeDegrees === undefined) {
      return atSkyline(body, direction, body === 'sun' ? sunOver() : moonOver());
    }
    const isHorizon = name === 'sunrise' || name === 'sunset' || body === 'moon';
    const level = body === 'moon' ? -HORIZON_REFRACTION_DEGREES : altitudeDegrees;
    const curve = body === 'sun' ? sun() : moon();
    return atAltitude(body, direction, curve, isHorizon ? level - dip : level, isHorizon);
  }

  return {
    place,
    date,
    startMs,
    endMs,
    sunRange: () => range(sun().samples),
    moonRange: () => range(monotoneSamples(moonCentre(from), nodes(startMs, endMs, STEP_MS))),
    event: (name) => {
      const known = sightings.get(name) ?? find(name);
      sightings.set(name, known);
      return known;
    },
  };
}

/** An altitude in degrees over one day, and the samples between which it only rises or falls. */
interface Curve {
  at(instantMs: number): number;
  readonly samples: readonly Sample[];
}

/** The centre of the sun. */
function sunCurve(from: Observer, startMs: number, endMs: number): Curve {
  const at = (instantMs: number): number => topocentric(geocentricSun(instantMs), from).altitude / RADIANS;
  return { at, samples: monotoneSamples(at, nodes(startMs, endMs, STEP_MS)) };
}

/** The upper limb of the moon, without refraction. */
function moonCurve(from: Observer, startMs: number, endMs: number): Curve {
  const at = (instantMs: number): number => {
    const seen = topocentric(geocentricMoon(instantMs), from);
    return (seen.altitude + moonSemidiameter(seen.distance)) / RADIANS;
  };
  return { at, samples: monotoneSamples(at, nodes(startMs, endMs, STEP_MS)) };
}

function moonCentre(from: Observer): (instantMs: number) => number {
  return (instantMs) => topocentric(geocentricMoon(instantMs), from).altitude / RADIANS;
}

function range(samples: readonly Sample[]): AltitudeRange {
  const highest = samples.reduce((best, sample) => (sample.value > best.value ? sample : best));
  const lowest = samples.reduce((best, sample) => (sample.value < best.value ? sample : best));
  return {
    highestDegrees: highest.value,
    highestAtMs: Math.round(highest.instantMs),
    lowestDegrees: lowest.value,
    lowestAtMs: Math.round(lowest.instantMs),
  };
}

function atAltitude(
  body: Body,
  direction: 'up' | 'down',
  curve: Curve,
  level: number,
  isHorizon: boolean,
): Sighting {
  const found = crossings(curve.at, curve.samples, level);
  return (
    sighting(timesOf(found, direction)) ?? {
      kind: 'never',
      ...whyNot(body, direction, range(curve.samples), level, isHorizon, found.length > 0),
    }
  );
}

/** Why a body does not pass a level in one direction. */
function whyNot(
  body: Body,
  direction: 'up' | 'down',
  reached: AltitudeRange,
  level: number,
  isHorizon: boolean,
  crosses: boolean,
): { reason: string; facts: Facts } {
  const line = isHorizon ? 'the horizon' : degrees(level, 0);
  const stays = crosses ? 'crosses' : reached.lowestDegrees >= level ? 'above' : 'below';
  const facts = { body, thresholdDegrees: level, direction, stays, ...reached };
  if (crosses && isHorizon) {
    const [does, not] = direction === 'up' ? ['sets', 'rise'] : ['rises', 'set'];
    return { reason: `the ${body} ${does} on this date but does not ${not}`, facts };
  }
  if (crosses) {
    const [does, not] = direction === 'up' ? ['goes down past', 'come up'] : ['comes up past', 'go down'];
    return { reason: `the ${body} ${does} ${line} on this date but does not ${not} past it`, facts };
  }
  const [word, extreme] =
    stays === 'above' ? ['lowest', reached.lowestDegrees] : ['highest', reached.highestDegrees];
  const digits = Math.abs(extreme - level) < 0.1 ? 2 : 1;
  return {
    reason: `the ${body} stays ${stays} ${line} all day (${word} ${degrees(extreme, digits)})`,
    facts,
  };
}

function atSkyline(body: Body, direction: 'up' | 'down', over: Clearance | undefined): Sighting {
  if (over === undefined) {
    return never('no skyline is given for this spot', { body, skyline: null });
  }
  const found = crossings(over.at, over.samples, 0);
  const { highestDegrees, lowestDegrees } = range(over.samples);
  const facts = {
    body,
    direction,
    highestOverSkylineDegrees: highestDegrees,
    lowestOverSkylineDegrees: lowestDegrees,
  };
  if (found.length > 0) {
    const [does, not] = direction === 'up' ? ['leaves', 'clear'] : ['clears', 'leave'];
    return (
      sighting(timesOf(found, direction)) ??
      never(`the ${body} ${does} the skyline on this date but does not ${not} it`, facts)
    );
  }
  const [stays, margin] =
    lowestDegrees >= 0
      ? ['above', `at least ${degrees(lowestDegrees, 1)} over it`]
      : ['behind', `at best ${degrees(-highestDegrees, 1)} under it`];
  return never(`the ${body} stays ${stays} the skyline all day (${margin})`, facts);
}

/** When the body passes the meridian on the side of the zenith: hour angle 0. */
function transit(body: Body, from: Observer, startMs: number, endMs: number): Sighting {
  const geocentric: (instantMs: number) => Geocentric = body === 'sun' ? geocentricSun : geocentricMoon;
  const msPerRadian = MEAN_DAY_MS[body] / (2 * Math.PI);
  const times: number[] = [];
  let guessMs = startMs - localHourAngle(geocentric(startMs), from) * msPerRadian;
  while (guessMs < endMs + STEP_MS) {
    let passMs = guessMs;
    for (let round = 0; round < 5; round++) {
      passMs -= localHourAngle(geocentric(passMs), from) * msPerRadian;
    }
    if (passMs >= startMs && passMs < endMs) {
      times.push(Math.round(passMs));
    }
    guessMs = passMs + MEAN_DAY_MS[body];
  }
  return (
    sighting(times) ?? never(`the ${body} does not pass the meridian between the two midnights`, { body })
  );
}

function tide(kind: 'high' | 'low', tides: readonly Tide[], startMs: number, endMs: number): Sighting {
  const times = tides
    .filter((tide) => tide.kind === kind && startMs <= tide.instantMs && tide.instantMs < endMs)
    .map((tide) => tide.instantMs)
    .sort((a, b) => a - b);
  return (
    sighting(times) ?? never(`no ${kind} water is given for this date`, { body: 'tide', tides: tides.length })
  );
}

function timesOf(found: readonly Crossing[], direction: 'up' | 'down'): number[] {
  return found.filter(({ rising }) => rising === (direction === 'up')).map((crossing) => crossing.instantMs);
}

function sighting(times: readonly number[]): Sighting | undefined {
  const [instantMs, ...others] = times;
  return instantMs === undefined ? undefined : { kind: 'at', instantMs, others };
}

function never(reason: string, facts: Facts): Sighting {
  return { kind: 'never', reason, facts };
}

/** `−4.2°`, with a true minus sign. */
function degrees(value: number, digits: number): string {
  return `${value.toFixed(digits).replace('-', '−')}°`;
}
