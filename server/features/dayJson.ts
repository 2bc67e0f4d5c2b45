import type { Analysis } from '../analysis.ts';
import { dangerOf } from '../checks/cautions.ts';
import { formatDate } from '../quantities/date.ts';
import type { EventName } from '../quantities/events.ts';
import { events } from '../quantities/events.ts';
import type { DayShot, DaySpot, StatedMoment } from '../schedule/day.ts';
import type { ShotLight } from '../schedule/light.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { present } from '../schedule/present.ts';
import { moonPosition } from '../sky/bodies.ts';
import { phaseName } from '../sky/moonPhase.ts';
import type { ZoneClock } from '../sky/zones.ts';
import type { Place } from '../text/span.ts';

/** A value of JSON; keys whose value is undefined are left out when it is written. */
export type Json =
  | string
  | number
  | boolean
  | null
  | readonly Json[]
  | { readonly [key: string]: Json | undefined };

/**
 * The same facts as the day report, for machines: numbers as they were computed, units in the names of the keys, times
 * both as epoch milliseconds and as local time with its offset. Azimuths and bearings are degrees clockwise from true
 * north. What is not known is left out. `placed` says where a finding stands, as the caller counts lines. `version` grows when a key changes its meaning or goes away.
 */
export function dayJson(
  analysis: Analysis,
  placed: (place: Place) => { readonly [key: string]: Json } = () => ({}),
): Json {
  const { plan, day, bag, findings } = analysis;
  const model = plan?.model;
  const first = day?.spots[0]?.at;
  return {
    version: 1,
    title: model?.plan?.value,
    date: model?.date === undefined ? undefined : formatDate(model.date.value),
    timezone: first?.clock.zone,
    kit: bag.name,
    leave: instant(day?.leaveMs, first?.clock),
    spots: (day?.spots ?? []).map(spotJson),
    moments: (day?.moments ?? []).map(momentJson),
    findings: findings.map((finding) => {
      const { code, severity, message, facts } = finding;
      return { code, severity, message, ...placed(finding), facts };
    }),
  };
}

function spotJson(day: DaySpot): Json {
  const { spot, at } = day;
  const clock = at?.clock;
  return {
    id: spot.id?.value,
    name: spot.name?.value,
    latitudeDegrees: at?.place.latitude,
    longitudeDegrees: at?.place.longitude,
    elevationMetres: at?.place.elevationMetres,
    timezone: clock?.zone,
    timezoneGiven: at?.zoneGiven,
    hazards: spot.hazards?.map(({ value }) => ({ hazard: value, caution: dangerOf(value)?.caution })),
    events: at === undefined ? undefined : eventsJson(at),
    moon: at === undefined ? undefined : moonJson(at),
    driveSeconds: day.driveSeconds,
    walkThereSeconds: day.walk?.thereSeconds,
    walkBackSeconds: day.walk?.backSeconds,
    walkEstimated: day.walk?.estimated,
    leaveBy: instant(day.leaveByMs, clock),
    earliest: instant(day.earliestMs, clock),
    arrive: instant(day.arriveMs, clock),
    arrivalStated: day.arrivalStated,
    ready: instant(day.readyMs, clock),
    done: instant(day.doneMs, clock),
    leave: instant(day.leaveMs, clock),
    opens: instant(day.opensMs, clock),
    closes: instant(day.closesMs, clock),
    shots: day.shots.map((shot) => shotJson(shot, clock)),
  };
}

/** Every event of the date; one that does not happen has its reason instead of a time. */
function eventsJson(at: SpotPlace): Json {
  const sky = at.sky(0);
  const found = (name: EventName): Json => {
    const sighting = sky.event(name);
    if (sighting.kind === 'never') return { never: sighting.reason };
    const again = sighting.others.map((ms) => instant(ms, at.clock) as Json);
    return { ...instant(sighting.instantMs, at.clock), ...(again.length === 0 ? {} : { again }) };
  };
  const shown = events.filter(({ body }) => body !== 'tide' || at.tides.length > 0);
  return Object.fromEntries(shown.map(({ name }) => [name, found(name)]));
}

function moonJson(at: SpotPlace): Json {
  const { startMs, endMs } = at.clock.day(at.date);
  const { elongationDegrees, illuminatedFraction } = moonPosition((startMs + endMs) / 2, at.place);
  return { phase: phaseName(elongationDegrees), elongationDegrees, illuminatedShare: illuminatedFraction };
}

function shotJson(day: DayShot, clock: ZoneClock | undefined): Json {
  const { shot, gear, facing, light, frames } = day;
  return {
    id: shot.id?.value,
    name: shot.name?.value,
    effect: shot.effect?.value,
    start: instant(day.startMs, clock),
    end: instant(day.endMs, clock),
    freeFrom: instant(day.freeFromMs, clock),
    facing:
      facing &&
      present({
        bearingDegrees: facing.degrees,
        tiltDegrees: facing.tiltDegrees,
        source: facing.source,
        declinationDegrees: facing.declination?.degrees,
        subjectDistanceMetres: facing.subjectDistanceMetres,
      }),
    lens: shot.lens?.value.lens,
    focalMillimetres: gear.focalMillimetres,
    fNumber: gear.fNumber,
    iso: gear.iso,
    sun: light && {
      azimuthDegrees: light.sun.azimuthDegrees,
      altitudeDegrees: light.sun.altitudeDegrees,
      apparentAltitudeDegrees: light.sun.apparentAltitudeDegrees,
      up: light.sunUp,
      behindSkyline: light.sunBehindSkyline,
    },
    light:
      light &&
      present({
        ...directionJson(light),
        overcast: light.overcast,
        expectedEv100: light.expected?.ev100,
        expectedSpreadStops: light.expected?.spreadStops,
        expectedLux: light.expected?.lux,
      }),
    exposure: exposureJson(day),
    frames: frames && {
      count: frames.frames,
      exposuresSeconds: frames.exposures,
      openSeconds: frames.openSeconds,
      totalSeconds: frames.totalSeconds,
    },
  };
}

/** How the sun lights the picture, while it does; where it stands to the lens, also behind land and cloud. */
function directionJson({ direction, sunUp, sunBehindSkyline, overcast }: ShotLight): {
  readonly [key: string]: Json | undefined;
} {
  if (direction === undefined) return {};
  const { kind, side, angleFromAxisDegrees, sunInFrame } = direction;
  const shines = sunUp && !sunBehindSkyline && !overcast;
  return { ...(shines ? { kind, side } : {}), angleFromAxisDegrees, sunInFrame: sunUp && sunInFrame };
}

function exposureJson({ shot, gear, exposure }: DayShot): Json | undefined {
  if (exposure === undefined) return undefined;
  const { basis, filtered, setting, lightSpreadStops, drift } = exposure;
  return present({
    basis,
    metered: shot.metered?.text,
    filters: (gear.stack?.lines ?? []).map(({ id, stops, spread, basis: from }) => ({
      id,
      stops,
      spreadStops: spread,
      basis: from,
    })),
    stops: gear.stack?.stops,
    spreadStops: gear.stack?.spreadStops,
    lightSpreadStops,
    baseSeconds: filtered?.baseSeconds,
    filteredSeconds: filtered?.filteredSeconds,
    correctedSeconds: filtered?.correctedSeconds,
    shortestSeconds: filtered?.shortestSeconds,
    longestSeconds: filtered?.longestSeconds,
    setting: setting.kind === 'bulb' ? setting.text : setting.label,
    settingKind: setting.kind,
    settingSeconds: setting.seconds,
    residualStops: setting.residualStops,
    takesSeconds: filtered?.takesSeconds,
    driftSeconds: drift?.drift.neverCompletes === true ? null : drift?.drift.seconds,
    neverCompletes: drift?.drift.neverCompletes,
  });
}

function momentJson({ name, value, resolution, at }: StatedMoment): Json {
  const written = { name, text: value.text };
  if (resolution.kind === 'at') return { ...written, ...instant(resolution.instantMs, at?.clock) };
  if (resolution.kind === 'unknown') return written;
  return { ...written, failure: resolution.failure };
}

/** An instant as epoch milliseconds, and as the local time of the spot with its offset. */
function instant(
  ms: number | undefined,
  clock: ZoneClock | undefined,
): { readonly [key: string]: Json } | undefined {
  if (ms === undefined) return undefined;
  return { epochMilliseconds: ms, ...(clock === undefined ? {} : { local: localText(ms, clock) }) };
}

/** `2027-03-20T06:19:12.345+00:00` (RFC 3339). */
function localText(ms: number, clock: ZoneClock): string {
  const offset = clock.offsetSeconds(ms);
  const local = new Date(ms + offset * 1000).toISOString().replace('Z', '');
  const minutes = Math.round(Math.abs(offset) / 60);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
