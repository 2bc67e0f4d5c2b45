import type { Analysis } from '../analysis.ts';
import { cautionsOf } from '../checks/cautions.ts';
import { timeText } from '../exposure/time-text.ts';
import type { Value } from '../plan/table.ts';
import { formatDate } from '../quantities/date.ts';
import { formatDuration } from '../quantities/duration.ts';
import type { EventName } from '../quantities/events.ts';
import type { Moment } from '../quantities/moment.ts';
import { formatStops } from '../quantities/stops.ts';
import type { DayShot, DaySpot, StatedMoment } from '../schedule/day.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { shotBracket } from '../schedule/scene.ts';
import { type BodyPosition, moonPosition, sunPosition } from '../sky/bodies.ts';
import { phaseName } from '../sky/moonPhase.ts';
import type { Severity } from '../text/finding.ts';
import { clockText, offsetText } from './localTime.ts';
import { altitudeText, bearingText, decimal, slackText, spreadText } from './numbers.ts';
import { visible } from './visible.ts';
import { reachedText, settingText, sunCaution, weekday } from './wording.ts';

/**
 * A plan with every moment, angle and exposure resolved, as plain text: one fact a line, in the order of the day, so
 * that two versions of a plan differ in the lines that differ. LF, no blanks at the end of a line, no columns that move
 * when another line changes. Clock times are those of each spot's zone.
 */
export function dayReport(analysis: Analysis): string {
  const { day } = analysis;
  const spots = (day?.spots ?? []).map((spot) => spotLines(spot, day?.moments ?? []));
  const blocks = [headerLines(analysis), ...spots, [`findings: ${countText(analysis)}`]];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

/** `2 errors, 1 warning, 0 hints` */
export function countText({ findings }: Pick<Analysis, 'findings'>): string {
  const severities: readonly Severity[] = ['error', 'warning', 'hint'];
  return severities
    .map((severity) => {
      const count = findings.filter((finding) => finding.severity === severity).length;
      return `${count} ${severity}${count === 1 ? '' : 's'}`;
    })
    .join(', ');
}

const notKnown = 'not known';

/** A label in a column of its own. A label that is longer than the column pushes only its own line. */
function row(label: string, text: string, indent = 2): string {
  const start = ' '.repeat(indent) + label;
  return `${start.padEnd(15)} ${text}`;
}

function headerLines(analysis: Analysis): string[] {
  const { plan, day, bag } = analysis;
  const model = plan?.model;
  const title = model?.plan === undefined ? 'Plan without a name' : visible(model.plan.value);
  const first = day?.spots[0]?.at;
  const date = model?.date?.value;
  const shown = date === undefined ? `date ${notKnown}` : `${weekday(date)} ${formatDate(date)}`;
  return [
    title,
    first === undefined ? shown : `${shown}, ${zoneOfDay(first)}`,
    ...(bag.name === undefined ? [] : [`kit: ${visible(bag.name)}`]),
    ...(day?.leaveMs === undefined || first === undefined
      ? []
      : [`leave: ${clockText(day.leaveMs, first.clock, first.date)}`]),
    ...backByLines(analysis),
  ];
}

function backByLines({ plan, day }: Analysis): string[] {
  const backBy = plan?.model.party?.backBy;
  const first = day?.spots[0]?.at;
  if (backBy === undefined || day === undefined || first === undefined) return [];
  return [`back by: ${statedText(backBy, day.moments, (ms) => clockText(ms, first.clock, first.date))}`];
}

/** The zone, its offset and whether it was looked up; both offsets on a day on which the clocks change. */
function zoneOfDay({ clock, date, zoneGiven }: SpotPlace): string {
  const { startMs, endMs } = clock.day(date);
  const morning = offsetText(clock.offsetSeconds(startMs));
  const evening = offsetText(clock.offsetSeconds(Math.max(startMs, endMs - 1)));
  const change = morning === evening ? morning : `${morning}, ${evening} once the clocks have changed`;
  return `${change} (${visible(clock.zone)}${zoneGiven ? '' : ', from the coordinates'})`;
}

function spotLines(spot: DaySpot, moments: readonly StatedMoment[]): string[] {
  const { at } = spot;
  const id = visible(spot.spot.id?.value ?? 'spot without an id');
  const name = spot.spot.name === undefined ? '' : ` (${visible(spot.spot.name.value)})`;
  if (at === undefined) {
    return [`${id}${name}`, row('place', `${notKnown}: date, zone or coordinates are missing`)];
  }
  const time = (ms: number) => clockText(ms, at.clock, at.date);
  return [
    `${id}${name}`,
    ...skyLines(at),
    ...hazardLines(spot),
    ...(spot.opensMs === undefined || spot.closesMs === undefined
      ? []
      : [row('open', `${time(spot.opensMs)} .. ${time(spot.closesMs)}`)]),
    ...decideLines(spot, moments, time),
    ...(spot.leaveByMs === undefined ? [] : [row('leave by', time(spot.leaveByMs))]),
    row('arrive', arrivalText(spot, time)),
    row('ready', readyText(spot, time)),
    ...spot.shots.flatMap((shot) => shotLines(shot, time)),
    row('leave', spot.leaveMs === undefined ? notKnown : time(spot.leaveMs)),
  ];
}

/** The dangers that the plan names, whose word counts there, and the usual caution for each. */
function hazardLines({ spot }: DaySpot): string[] {
  const hazards = (spot.hazards ?? []).map(({ value }) => visible(value));
  if (hazards.length === 0) return [];
  return [
    row('hazards', `${hazards.join(', ')}: local rules and the people responsible there come first`),
    ...cautionsOf(hazards).map((caution) => row('caution', caution)),
  ];
}

function decideLines(
  { spot }: DaySpot,
  moments: readonly StatedMoment[],
  time: (ms: number) => string,
): string[] {
  if (spot.decide === undefined) return [];
  const instead = spot.otherwise === undefined ? '' : `, otherwise ${visible(spot.otherwise.value)}`;
  return [row('decide', `${statedText(spot.decide, moments, time)}${instead}`)];
}

/** The time that a moment of the plan comes to. */
function statedText(
  value: Value<Moment>,
  moments: readonly StatedMoment[],
  time: (ms: number) => string,
): string {
  const resolution = moments.find((moment) => moment.value === value)?.resolution;
  return resolution?.kind === 'at' ? time(resolution.instantMs) : notKnown;
}

function arrivalText(spot: DaySpot, time: (ms: number) => string): string {
  const { arriveMs, earliestMs, arrivalStated } = spot;
  if (arriveMs === undefined) return notKnown;
  if (!arrivalStated || earliestMs === undefined) return time(arriveMs);
  return `${time(arriveMs)}, ${slackText((arriveMs - earliestMs) / 1000)}`;
}

function readyText(spot: DaySpot, time: (ms: number) => string): string {
  if (spot.readyMs === undefined) return notKnown;
  const startMs = spot.shots[0]?.startMs;
  if (startMs === undefined) return time(spot.readyMs);
  return `${time(spot.readyMs)}, ${slackText((startMs - spot.readyMs) / 1000)}`;
}

const sunDay: readonly EventName[] = ['civil dawn', 'sunrise', 'solar noon', 'sunset', 'civil dusk'];
const overSkyline: readonly EventName[] = ['sun clears skyline', 'sun leaves skyline'];
const moonDay: readonly EventName[] = ['moonrise', 'moon transit', 'moonset'];

/** Sun, moon and water over a spot on its date: when, and in which direction. */
function skyLines(at: SpotPlace): string[] {
  const lines = [row('sun', eventsText(at, sunDay, sunPosition))];
  if (at.skyline !== undefined) lines.push(row('skyline', eventsText(at, overSkyline, sunPosition)));
  const { startMs, endMs } = at.clock.day(at.date);
  const { elongationDegrees, illuminatedFraction } = moonPosition((startMs + endMs) / 2, at.place);
  const phase = `${phaseName(elongationDegrees)}, ${decimal(illuminatedFraction * 100)} % lit`;
  lines.push(row('moon', `${phase}, ${eventsText(at, moonDay, moonPosition)}`));
  if (at.tides.length > 0) {
    const tides = at.tides.map(
      ({ kind, instantMs, heightMetres }) =>
        `${kind} water ${clockText(instantMs, at.clock, at.date)}${heightMetres === undefined ? '' : ` ${decimal(heightMetres, 1)} m`}`,
    );
    lines.push(row('tide', tides.join(', ')));
  }
  return lines;
}

/** `sunrise 06:09 at 090°`, in the order of time; at noon and transit the height instead; last, what does not happen. */
function eventsText(
  at: SpotPlace,
  names: readonly EventName[],
  position: (instantMs: number, place: SpotPlace['place']) => BodyPosition,
): string {
  const sky = at.sky(0);
  const found = names.flatMap((name) => {
    const sighting = sky.event(name);
    if (sighting.kind === 'never') return [{ ms: Number.POSITIVE_INFINITY, text: `no ${name}` }];
    const isHighest = name === 'solar noon' || name === 'moon transit';
    return [sighting.instantMs, ...sighting.others].map((ms) => {
      const { azimuthDegrees, apparentAltitudeDegrees } = position(ms, at.place);
      const where = isHighest ? altitudeText(apparentAltitudeDegrees) : bearingText(azimuthDegrees);
      return { ms, text: `${name} ${clockText(ms, at.clock, at.date)} at ${where}` };
    });
  });
  return found
    .sort((a, b) => (a.ms === b.ms ? 0 : a.ms - b.ms))
    .map(({ text }) => text)
    .join(', ');
}

function shotLines(shot: DayShot, time: (ms: number) => string): string[] {
  const lines = [row(visible(shot.shot.id?.value ?? 'shot'), timesText(shot, time))];
  const add = (label: string, text: string | undefined) => {
    if (text !== undefined) lines.push(row(label, text, 4));
  };
  add('effect', shot.shot.effect?.value);
  add('facing', facingText(shot));
  add('lens', lensText(shot));
  add('sun', sunText(shot));
  add('light', lightText(shot));
  add('exposure', exposureText(shot) ?? notKnown);
  add('drift', driftText(shot));
  add('bracket', bracketText(shot));
  add('takes', takesText(shot));
  if (shot.light?.direction?.sunInFrame === true && shot.light.sunUp && !shot.light.sunBehindSkyline) {
    add('caution', `The sun is in the frame. ${sunCaution}`);
  }
  return lines;
}

function timesText({ startMs, endMs, freeFromMs }: DayShot, time: (ms: number) => string): string {
  if (startMs === undefined) return notKnown;
  const end = endMs === undefined ? notKnown : time(endMs);
  const late = freeFromMs !== undefined && freeFromMs - startMs > 30_000;
  return `${time(startMs)} .. ${end}${late ? `, ${slackText((startMs - freeFromMs) / 1000)}` : ''}`;
}

function facingText({ facing }: DayShot): string | undefined {
  if (facing === undefined) return undefined;
  const from = facing.source === 'subject' ? ', from the subject' : '';
  const tilt = facing.tiltDegrees === 0 ? 'level' : `tilt ${altitudeText(facing.tiltDegrees, 1)}`;
  return `${bearingText(facing.degrees)} true${from}, ${tilt}`;
}

function lensText({ shot, gear }: DayShot): string | undefined {
  if (shot.lens === undefined) return undefined;
  const parts = [
    visible(shot.lens.value.lens),
    ...(gear.focalMillimetres === undefined ? [] : [`${decimal(gear.focalMillimetres)} mm`]),
    ...(shot.aperture === undefined ? [] : [`f/${shot.aperture.value}`]),
    `ISO ${gear.iso}`,
  ];
  return parts.join(', ');
}

function sunText({ light }: DayShot): string | undefined {
  if (light === undefined) return undefined;
  const { sun, sunUp, sunBehindSkyline, direction, overcast } = light;
  const where = `${bearingText(sun.azimuthDegrees)} ${altitudeText(sun.apparentAltitudeDegrees, 1)}`;
  if (!sunUp) return `${where}, below the horizon`;
  if (sunBehindSkyline) return `${where}, behind the skyline`;
  if (overcast) return `${where}, behind cloud`;
  return direction === undefined ? where : `${where}, ${direction.kind}, sun ${sideText(direction.side)}`;
}

function sideText(side: 'left' | 'right' | 'ahead' | 'behind'): string {
  return side === 'left' || side === 'right' ? `on the ${side}` : side;
}

function lightText({ light }: DayShot): string | undefined {
  if (light?.expected === undefined) return undefined;
  const { ev100, spreadStops } = light.expected;
  return `about EV ${decimal(ev100, 1)} expected ± ${formatStops(spreadStops)}`;
}

/** `1/2 s metered → nd6 6.4 stops → 42.2 s → 42 s bulb ± 0.1 stop` */
function exposureText({ shot, gear, exposure }: DayShot): string | undefined {
  if (exposure === undefined) return undefined;
  const { basis, filtered, setting, input } = exposure;
  const steps: string[] = [];
  if (shot.metered !== undefined && filtered !== undefined)
    steps.push(`${visible(shot.metered.text)} metered`);
  else if (basis === 'expected') steps.push('light expected');
  const stack = (gear.stack?.lines ?? []).map(({ id, stops }) => `${visible(id)} ${stopsText(stops)}`);
  if (stack.length > 0) steps.push(stack.join(' + '));
  if (filtered !== undefined) {
    if (stack.length > 0 || input?.film !== undefined) steps.push(timeText(filtered.filteredSeconds));
    if (input?.film !== undefined) steps.push(`${timeText(filtered.correctedSeconds)} on film`);
  }
  const spread = spreadText(Math.hypot(gear.stack?.spreadStops ?? 0, exposure.lightSpreadStops ?? 0));
  const stated = basis === 'stated' ? ' as the plan sets it' : '';
  steps.push(`${reachedText(setting)}${stated || (spread === undefined ? '' : ` ${spread}`)}`);
  return steps.join(' → ');
}

/** Not to the usual thirds, since a measured strength lies between them. */
function stopsText(stops: number): string {
  const text = decimal(stops, 2).replace(/\.?0+$/, '');
  return `${text} ${text === '1' ? 'stop' : 'stops'}`;
}

function driftText({ exposure }: DayShot): string | undefined {
  const drift = exposure?.drift;
  if (drift === undefined) return undefined;
  if (drift.drift.neverCompletes) return 'the light fades before the exposure is complete';
  if (Math.abs(drift.stops) < 0.05) return undefined;
  return `${timeText(drift.drift.seconds)} as the light ${drift.stops > 0 ? 'fades' : 'grows'}`;
}

function bracketText(shot: DayShot): string | undefined {
  const { frames } = shot;
  if (frames === undefined || frames.exposures.length < 2) return undefined;
  const set = shotBracket(shot)?.frames.map(({ setting }) => settingText(setting));
  return (set ?? frames.exposures.map(timeText)).join(', ');
}

function takesText(shot: DayShot): string | undefined {
  const { frames } = shot;
  if (frames === undefined) return undefined;
  const total = totalText(shot, frames.totalSeconds);
  const each = frames.exposures.length;
  const count =
    each > 1
      ? `${frames.frames} × ${each} frames`
      : `${frames.frames} ${frames.frames === 1 ? 'frame' : 'frames'}`;
  return `${count}, ${total} in all`;
}

/** To the second; below one as the dial names it where that is all, the 1/60 s that is 1/64 s. */
function totalText({ exposure }: DayShot, seconds: number): string {
  if (seconds >= 1) return formatDuration(Math.round(seconds));
  const setting = exposure?.setting;
  return setting?.kind === 'dial' && setting.seconds === seconds ? setting.label : timeText(seconds);
}
