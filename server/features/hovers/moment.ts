import { formatDate } from '../../quantities/date.ts';
import { formatDuration } from '../../quantities/duration.ts';
import { type EventName, events, eventText } from '../../quantities/events.ts';
import type { Moment } from '../../quantities/moment.ts';
import { formatMoment } from '../../quantities/moment.ts';
import type { DaySpot, StatedMoment } from '../../schedule/day.ts';
import { lightOptions } from '../../schedule/light.ts';
import { type MomentScope, type Resolution, resolveMoment } from '../../schedule/moments.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { nextOccurrence } from '../../sky/absence.ts';
import { moonPosition, sunPosition } from '../../sky/bodies.ts';
import { type ExpectedLight, expectedLight } from '../../sky/light.ts';
import { phaseName } from '../../sky/moonPhase.ts';
import { clockText, secondsText } from '../localTime.ts';
import { code, figures, paragraphs } from '../markdown.ts';
import { settledScope } from '../momentScope.ts';
import { altitudeText, bearingText, decimal, slackText } from '../numbers.ts';
import { dayCurve } from '../pictures/dayCurve.ts';
import { zoneText } from '../wording.ts';
import { lightWorking } from './light.ts';
import type { HoverKind, Scene } from './scene.ts';

/** A moment that the plan states: when it is, how that was found, what stands in the sky then. */
export const momentHover: HoverKind = (scene) => {
  const { analysis, mark } = scene;
  const stated = analysis.day?.moments.find(({ value }) => value === mark.value);
  if (stated === undefined) return undefined;
  const { resolution, at, value } = stated;
  if (at === undefined || resolution.kind === 'unknown') {
    return paragraphs(
      `${code(value.text)} is not known yet: it rests on something that is missing or cannot be read.`,
      definitions(value.value),
    );
  }
  const spot = scene.spot ?? analysis.day?.spots[0];
  const working = workingText(value.value, at, settledScope(analysis, spot, at));
  if (resolution.kind === 'failed') return paragraphs(failureText(resolution, at), `Working: ${working}`);
  const { instantMs } = resolution;
  const light = lightOn(scene, instantMs, at);
  return paragraphs(
    `**${secondsText(instantMs, at.clock, at.date)}** ${zoneText(at.clock, instantMs)}, ${zoneOrigin(at)}`,
    dayCurve(at, instantMs),
    figures([
      ['working', working],
      ['to spare', slackOf(stated, spot, at)],
      ...skyFigures(light, instantMs, at),
      ...neighbours(instantMs, at),
    ]),
    ...resolution.notes.map((note) => noteText(note, at)),
    definitions(value.value),
    light === undefined ? undefined : lightWorking(light),
    'Sun and moon: Meeus, Astronomical Algorithms; heights as seen include mean refraction. Real air and land move a rise or set by a minute or more.',
  );
};

/** Opening hours: both ends. */
export const rangeHover: HoverKind = (scene) => {
  const { mark, spot } = scene;
  if (mark.name !== 'open' || mark.section.name !== 'spot' || spot?.at === undefined) return undefined;
  const { at, opensMs, closesMs } = spot;
  if (opensMs === undefined || closesMs === undefined) return undefined;
  return paragraphs(
    `Open **${secondsText(opensMs, at.clock, at.date)}** to **${secondsText(closesMs, at.clock, at.date)}**, ${zoneText(at.clock, opensMs)}: ${formatDuration((closesMs - opensMs) / 1000)}.`,
    spot.arriveMs === undefined || spot.leaveMs === undefined
      ? undefined
      : `You are there from ${clockText(spot.arriveMs, at.clock, at.date)} to ${clockText(spot.leaveMs, at.clock, at.date)}.`,
  );
};

/** How the zone was found, for people. */
export function zoneOrigin({ zoneGiven, zoneDoubt }: SpotPlace): string {
  const found = zoneGiven ? 'as the plan says' : 'found from the coordinates';
  if (zoneDoubt === undefined) return found;
  return zoneDoubt.kind === 'disagrees'
    ? `${found}, though the coordinates lie in ${code(zoneDoubt.lookedUp.zone)}`
    : `${found}, near a border to ${zoneDoubt.others.map(({ zone }) => code(zone)).join(', ')}`;
}

/** `sunrise` 06:13:37 + 10 min. */
function workingText(moment: Moment, at: SpotPlace, scope: MomentScope): string {
  if (moment.kind === 'offset') {
    const sign = moment.seconds < 0 ? '−' : '+';
    return `${workingText(moment.base, at, scope)} ${sign} ${formatDuration(Math.abs(moment.seconds))}`;
  }
  if (moment.kind === 'earlier' || moment.kind === 'later') {
    return `the ${moment.kind} of ${moment.of.map((part) => workingText(part, at, scope)).join(' and ')}`;
  }
  const found = resolveMoment(moment, scope);
  const time = found.kind === 'at' ? secondsText(found.instantMs, at.clock, at.date) : 'not found';
  return moment.kind === 'clock'
    ? `${time} as written`
    : `${code(formatMoment(moment), { inTable: true })} ${time}`;
}

function slackOf(stated: StatedMoment, spot: DaySpot | undefined, at: SpotPlace): string | undefined {
  if (spot?.spot.arrive !== stated.value) return undefined;
  const { arriveMs, earliestMs, leaveByMs } = spot;
  if (arriveMs === undefined) return undefined;
  const parts = [
    earliestMs === undefined
      ? undefined
      : `${slackText((arriveMs - earliestMs) / 1000)}; the way there takes until ${clockText(earliestMs, at.clock, at.date)}`,
    leaveByMs === undefined
      ? undefined
      : `leave the place before by ${clockText(leaveByMs, at.clock, at.date)}`,
  ].filter((part) => part !== undefined);
  return parts.length === 0 ? undefined : parts.join('; ');
}

/** Sun, moon and light at an instant. */
function skyFigures(
  light: ExpectedLight | undefined,
  instantMs: number,
  at: SpotPlace,
): readonly (readonly [string, string | undefined])[] {
  const sun = sunPosition(instantMs, at.place);
  const moon = moonPosition(instantMs, at.place);
  return [
    ['sun', positionText(sun)],
    [
      'moon',
      `${positionText(moon)}; ${phaseName(moon.elongationDegrees)}, ${decimal(100 * moon.illuminatedFraction)} % lit`,
    ],
    ['light', light === undefined ? undefined : lightFigure(light)],
  ];
}

function lightFigure({ ev100, spreadStops, cloudShare }: ExpectedLight): string {
  const clouds = cloudShare === undefined ? 'clouds not known' : `cloud ${decimal(100 * cloudShare)} %`;
  return `about EV ${decimal(ev100, 1)} ± ${decimal(spreadStops, 1)} at ISO 100 (${clouds})`;
}

/** The light that is expected, with what the plan knows of clouds and land; undefined while the skyline cannot be read. */
function lightOn({ analysis }: Scene, instantMs: number, at: SpotPlace): ExpectedLight | undefined {
  if (!at.skylineKnown) return undefined;
  const options = analysis.plan === undefined ? {} : lightOptions(instantMs, at, analysis.plan.model);
  return expectedLight({ instantMs, place: at.place, ...options });
}

interface Seen {
  readonly azimuthDegrees: number;
  readonly altitudeDegrees: number;
  readonly apparentAltitudeDegrees: number;
}

/** `098.4°, +12.3°`; what is down is given without refraction, as twilight counts it. */
function positionText({ azimuthDegrees, altitudeDegrees, apparentAltitudeDegrees }: Seen): string {
  const up = altitudeDegrees > -0.84;
  const height = up
    ? `${altitudeText(apparentAltitudeDegrees, 1)} as seen`
    : `${altitudeText(altitudeDegrees, 1)}, down`;
  return `${bearingText(azimuthDegrees, 1)}, ${height}`;
}

/** The events of the same civil day before and after. */
function neighbours(instantMs: number, at: SpotPlace): readonly (readonly [string, string | undefined])[] {
  const all = [-1, 0, 1].flatMap((days) => sightings(at, days));
  const before = all.filter(({ ms }) => ms < instantMs - 1000).sort((a, b) => b.ms - a.ms)[0];
  const after = all.filter(({ ms }) => ms > instantMs + 1000).sort((a, b) => a.ms - b.ms)[0];
  const text = (sighting: { name: EventName; ms: number } | undefined, word: string) =>
    sighting === undefined
      ? undefined
      : `${sighting.name} ${clockText(sighting.ms, at.clock, at.date)}, ${formatDuration(Math.round(Math.abs(sighting.ms - instantMs) / 60_000) * 60)} ${word}`;
  return [
    ['before', text(before, 'earlier')],
    ['next', text(after, 'later')],
  ];
}

function sightings(at: SpotPlace, dayOffset: number): readonly { name: EventName; ms: number }[] {
  const sky = at.sky(dayOffset);
  return events.flatMap(({ name }) => {
    const sighting = sky.event(name);
    if (sighting.kind !== 'at') return [];
    return [sighting.instantMs, ...sighting.others].map((ms) => ({ name, ms }));
  });
}

function noteText(note: (Resolution & { kind: 'at' })['notes'][number], at: SpotPlace): string {
  if (note.note === 'repeated') {
    const { earlierMs, laterMs } = note.local;
    return `The clocks are set back and show ${note.clock} twice: ${zoneText(at.clock, earlierMs)} and ${zoneText(at.clock, laterMs)}. The first is taken.`;
  }
  return `There are ${note.instants.length} on this date: ${note.instants.map((ms) => clockText(ms, at.clock, at.date)).join(', ')}. The first is taken.`;
}

function failureText(failed: Resolution & { kind: 'failed' }, at: SpotPlace): string {
  if (failed.failure === 'no-such-event') {
    const { event, occurrence } = failed;
    // When it comes so often again is not looked for.
    const next = occurrence === undefined ? nextOccurrence(event, at.date, skyOn(at), 40) : undefined;
    const then =
      next === undefined
        ? ''
        : ` The next is on ${formatDate(next.date)} at ${clockText(next.instantMs, at.clock)}.`;
    return `There is no ${eventText(event, occurrence)} on this date: ${failed.reason}.${then}`;
  }
  if (failed.failure === 'circle')
    return `This moment leans on itself: ${failed.path.map((step) => code(step)).join(' → ')}.`;
  const { beforeMs, afterMs } = failed.local;
  return `The clocks skip ${failed.clock} on that day. It may mean ${clockText(beforeMs, at.clock)} or ${clockText(afterMs, at.clock)}.`;
}

function skyOn(at: SpotPlace) {
  const first = Date.UTC(at.date.year, at.date.month - 1, at.date.day);
  return (date: { year: number; month: number; day: number }) =>
    at.sky(Math.round((Date.UTC(date.year, date.month - 1, date.day) - first) / 86_400_000));
}

/** What the events in a moment mean. */
function definitions(moment: Moment): string | undefined {
  const names = eventsIn(moment);
  const docs = events.filter(({ name }) => names.includes(name)).map(({ name, doc }) => `*${name}*: ${doc}`);
  return docs.length === 0 ? undefined : docs.join(' ');
}

function eventsIn(moment: Moment): readonly EventName[] {
  if (moment.kind === 'event') return [moment.event];
  if (moment.kind === 'offset') return eventsIn(moment.base);
  return moment.kind === 'earlier' || moment.kind === 'later' ? moment.of.flatMap(eventsIn) : [];
}
