import { formatDate } from '../../quantities/date.ts';
import { sunUpDegrees } from '../../schedule/light.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { sunPosition } from '../../sky/bodies.ts';
import { clockText } from '../localTime.ts';
import { altitudeText } from '../numbers.ts';
import { colours, element, line, type Point, picture, polyline, words } from './svg.ts';

const width = 320;
const height = 168;
const plot = { left: 4, right: 246, top: 16, bottom: 146 };
/** Lower than this, all is night. */
const lowestShown = -24;

/** Black, thin: it darkens a white ground and #1e1e1e alike, so that night is the darkest band on either. */
const shade = '#000000';

const bands = [
  { from: 0, to: -6, name: 'civil twilight', opacity: 0.05 },
  { from: -6, to: -12, name: 'nautical', opacity: 0.11 },
  { from: -12, to: -18, name: 'astronomical', opacity: 0.17 },
  { from: -18, to: lowestShown, name: 'night', opacity: 0.24 },
] as const;

/** The sun's altitude over the civil day of an instant, with the bands of twilight and the instant marked. */
export function dayCurve(at: SpotPlace, instantMs: number): string {
  const date = at.clock.date(instantMs);
  const { startMs, endMs } = at.clock.day(date);
  if (endMs <= startMs) return '';
  const steps = 72;
  const samples = Array.from({ length: steps + 1 }, (_, step) => {
    const ms = startMs + ((endMs - startMs) * step) / steps;
    return { ms, altitude: sunPosition(ms, at.place).altitudeDegrees };
  });
  const altitudes = samples.map(({ altitude }) => altitude);
  const highest = Math.max(...altitudes);
  const lowest = Math.min(...altitudes);
  const top = Math.max(12, Math.ceil(highest / 6) * 6);
  const x = (ms: number) => plot.left + ((ms - startMs) / (endMs - startMs)) * (plot.right - plot.left);
  const y = (altitude: number) =>
    plot.top + ((top - Math.max(altitude, lowestShown)) / (top - lowestShown)) * (plot.bottom - plot.top);
  const here = sunPosition(instantMs, at.place).altitudeDegrees;
  const time = clockText(instantMs, at.clock);
  const markX = x(instantMs);
  const side = markX < 40 ? 'start' : markX > plot.right - 40 ? 'end' : 'middle';
  const parts = [
    ...bands.flatMap(({ from, to, opacity }) => [
      element('rect', {
        x: plot.left,
        y: y(from),
        width: plot.right - plot.left,
        height: y(to) - y(from),
        fill: shade,
        'fill-opacity': String(opacity),
      }),
      line(plot.left, y(from), plot.right, y(from), { 'stroke-width': 0.5 }),
    ]),
    line(plot.left, y(0), plot.right, y(0), { 'stroke-width': 1 }),
    ...bandNames(y),
    polyline(
      samples.map(({ ms, altitude }): Point => [x(ms), y(altitude)]),
      { stroke: colours.sun, 'stroke-width': 2 },
    ),
    ...hourTicks(at, startMs, endMs, x),
    line(markX, plot.top, markX, plot.bottom, { 'stroke-dasharray': '3 3' }),
    element('circle', {
      cx: markX,
      cy: y(here),
      r: 4.5,
      fill: colours.sun,
      stroke: colours.ink,
      'stroke-width': 1.5,
    }),
    words(markX, plot.top - 5, `${time}, sun ${altitudeText(here)}`, side),
  ];
  return picture(
    width,
    height,
    parts,
    `Height of the sun on ${formatDate(date)}: from ${altitudeText(lowest)} to ${altitudeText(highest)}; at ${time} it stands at ${altitudeText(here)}, ${lightName(here)}.`,
  );
}

/** The names beside the bands, from the lowest up: no nearer to one another than they are high. */
function bandNames(y: (altitude: number) => number): string[] {
  const names = [
    { name: 'horizon', wanted: y(0) - 3 },
    ...bands.map(({ from, to, name }) => ({ name, wanted: (y(from) + y(to)) / 2 + 4 })),
  ];
  let below = Number.POSITIVE_INFINITY;
  return names.reverse().map(({ name, wanted }) => {
    below = Math.min(wanted, below - 11);
    return words(plot.right + 5, below, name);
  });
}

function hourTicks(at: SpotPlace, startMs: number, endMs: number, x: (ms: number) => number): string[] {
  const parts: string[] = [];
  const date = at.clock.date(startMs);
  for (const hour of [0, 6, 12, 18]) {
    const local = at.clock.resolve(date, hour, 0, 0);
    if (local.kind === 'skipped') continue;
    const ms = local.kind === 'one' ? local.instantMs : local.earlierMs;
    if (ms < startMs || ms > endMs) continue;
    parts.push(line(x(ms), plot.bottom, x(ms), plot.bottom + 4));
    const anchor = hour === 0 ? 'start' : 'middle';
    parts.push(words(x(ms), plot.bottom + 16, `${String(hour).padStart(2, '0')}:00`, anchor));
  }
  return parts;
}

function lightName(altitude: number): string {
  if (altitude >= sunUpDegrees) return 'up';
  return `in ${bands.find(({ to }) => altitude >= to)?.name ?? 'night'}`
    .replace(/^in (nautical|astronomical)$/, 'in $1 twilight')
    .replace('in night', 'at night');
}
