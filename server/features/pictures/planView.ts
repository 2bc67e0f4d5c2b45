import { fieldOfView } from '../../optics/view.ts';
import type { DayShot } from '../../schedule/day.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import type { BodyPosition } from '../../sky/bodies.ts';
import type { Body } from '../../sky/skyline.ts';
import { clockText } from '../localTime.ts';
import { altitudeText, bearingText } from '../numbers.ts';
import { boxAround, Labels, type Spot } from './labels.ts';
import { centre, directionAt, place, positionOf, radius, skyWay } from './skyWay.ts';
import { colours, element, line, type Point, pair, picture, px, words } from './svg.ts';

const width = 260;
/** A hover shows about 250 pixels at once, the headline among them. */
const height = 208;
/** As the eye has it: a body whose centre has just gone under is down. */
const downDegrees = -0.3;

/** What stands around the camera while a shot is taken: the frame, the ways of sun and moon, the land. */
export function planView(at: SpotPlace, shot: DayShot): string | undefined {
  const { facing, startMs, gear } = shot;
  if (facing === undefined || startMs === undefined) return undefined;
  const endMs = Math.max(shot.endMs ?? startMs, startMs);
  const sun = positionOf('sun', startMs, at);
  const moon = positionOf('moon', startMs, at);
  const angle =
    gear.focalMillimetres === undefined || gear.sensor === undefined
      ? undefined
      : fieldOfView(gear.focalMillimetres, gear.sensor).horizontalDegrees;
  const ways = (['moon', 'sun'] as const).map((name) => skyWay(name, at, startMs, endMs));
  const wedge = frame(facing.degrees, angle);
  const horizon = Array.from({ length: 120 }, (_, step) => place(step * 3, 0));
  const labels = new Labels(
    { left: 1, right: width - 1, top: 1, bottom: height - 1 },
    [
      ...compassPoints().map(({ x, y }) => boxAround(x, y - 4, 7)),
      ...[sun, moon].map((position) => boxAround(...bodyPlace(position), 11)),
      ...ways.flatMap(({ dayPoints, shotPoints }) => [
        ...dayPoints.map(([x, y]) => boxAround(x, y, 1.5)),
        ...shotPoints.map(([x, y]) => boxAround(x, y, 3.5)),
      ]),
      ...wedge.points.map(([x, y]) => boxAround(x, y, 2.5)),
      ...horizon.map(([x, y]) => boxAround(x, y, 1.5)),
    ],
    (x, y) => isLand(at, x, y),
  );
  labels.put(isUp(sun) ? 'sun' : 'sun down', colours.sun, spotsBeside(bodyPlace(sun)));
  labels.put(isUp(moon) ? 'moon' : 'moon down', colours.moon, spotsBeside(bodyPlace(moon)));
  if (angle !== undefined) labels.put('frame', colours.frame, frameSpots(facing.degrees, angle));
  const parts = [
    ...[30, 60].map((altitude) => circleAt(altitude, { 'stroke-dasharray': '2 4' })),
    circleAt(0, { 'stroke-width': 1.5 }),
    landRing(at),
    ...wedge.elements,
    ...ways.flatMap(({ elements }) => elements),
    ...compassPoints().map(({ name, x, y }) => words(x, y, name, 'middle')),
    ...body('moon', moon),
    ...body('sun', sun),
    ...labels.elements,
  ];
  const wide = angle === undefined ? '' : `, ${Math.round(angle)}° wide`;
  const said = [
    `the frame looks towards ${bearingText(facing.degrees)}${wide}`,
    wayText('sun', at, startMs, endMs),
    wayText('moon', at, startMs, endMs),
    landText(at),
  ].filter((part) => part !== undefined);
  const [from, to] = [startMs, endMs].map((ms) => clockText(ms, at.clock, at.date));
  const when = from === to ? `at ${from}` : `${from} to ${to}`;
  return picture(width, height, parts, `Plan with north up, ${when}: ${said.join('; ')}.`);
}

function isUp({ apparentAltitudeDegrees }: BodyPosition): boolean {
  return apparentAltitudeDegrees > downDegrees;
}

/** `the sun at 091°, +1°`, and where it goes if the shot lasts. */
function wayText(name: Body, at: SpotPlace, startMs: number, endMs: number): string {
  const [from, to] = [startMs, endMs].map((ms) => standsText(positionOf(name, ms, at), at));
  return from === to ? `the ${name} at ${from}` : `the ${name} goes from ${from} to ${to}`;
}

function standsText(position: BodyPosition, { skyline }: SpotPlace): string {
  const { azimuthDegrees, apparentAltitudeDegrees } = position;
  const land = skyline?.altitudeDegrees(azimuthDegrees) ?? 0;
  const where = !isUp(position) ? ' (down)' : apparentAltitudeDegrees < land ? ' (behind the land)' : '';
  return `${bearingText(azimuthDegrees)}, ${altitudeText(apparentAltitudeDegrees)}${where}`;
}

/** More bends of a skyline than this are not read out. */
const mostBends = 8;

/** The land as the plan gives it; of a long list only the highest. */
function landText({ skyline }: SpotPlace): string | undefined {
  const bends = (skyline?.bendsDegrees ?? []).map((bearing) => ({
    bearing,
    land: skyline?.altitudeDegrees(bearing) ?? 0,
  }));
  const highest = Math.max(...bends.map(({ land }) => land));
  const told = bends.length <= mostBends ? bends : bends.filter(({ land }) => land === highest);
  if (told.length === 0) return undefined;
  const heights = told.map(({ bearing, land }) => `${altitudeText(land)} at ${bearingText(bearing)}`);
  return `the land stands ${bends.length <= mostBends ? '' : 'up to '}${heights.join(', ')}`;
}

function circleAt(altitude: number, more: { readonly [name: string]: string | number }): string {
  return element('circle', {
    cx: centre.x,
    cy: centre.y,
    r: (radius * (90 - altitude)) / 90,
    fill: 'none',
    stroke: colours.ink,
    ...more,
  });
}

function compassPoints(): readonly { readonly name: string; readonly x: number; readonly y: number }[] {
  return (['N', 'E', 'S', 'W'] as const).map((name, quarter) => {
    const turn = (quarter * Math.PI) / 2;
    const out = radius + 22;
    return { name, x: centre.x + out * Math.sin(turn), y: centre.y - out * Math.cos(turn) + 4 };
  });
}

function isLand({ skyline }: SpotPlace, x: number, y: number): boolean {
  const { azimuth, altitude } = directionAt(x, y);
  return skyline !== undefined && altitude >= 0 && altitude < skyline.altitudeDegrees(azimuth);
}

/** The land: from the horizon up to the skyline. */
function landRing({ skyline }: SpotPlace): string {
  if (skyline === undefined) return '';
  const bearings = Array.from({ length: 73 }, (_, step) => step * 5);
  const inner = bearings.map((bearing) => place(bearing, Math.max(0, skyline.altitudeDegrees(bearing))));
  const outer = bearings.map((bearing) => place(bearing, 0)).reverse();
  const path = [inner, outer].map((ring) => `M${ring.map(pair).join('L')}Z`).join('');
  return element('path', { d: path, fill: colours.ink, 'fill-opacity': '0.55', 'fill-rule': 'evenodd' });
}

/** The frame as a wedge, its axis dashed, and points along its lines. */
function frame(
  facing: number,
  angle: number | undefined,
): { readonly elements: readonly string[]; readonly points: readonly Point[] } {
  const axisFrom = angle === undefined ? 90 : 34;
  const [x, y] = place(facing, 0);
  const [fromX, fromY] = place(facing, axisFrom);
  const axis = line(fromX, fromY, x, y, {
    stroke: colours.frame,
    'stroke-width': 1.5,
    'stroke-dasharray': '6 3',
  });
  const along = (bearing: number, from: number) =>
    Array.from({ length: 16 }, (_, step) => place(bearing, (from * step) / 16));
  if (angle === undefined) return { elements: [axis], points: along(facing, axisFrom) };
  const sides = [facing - angle / 2, facing + angle / 2] as const;
  const [left, right] = [place(sides[0], 0), place(sides[1], 0)];
  const large = angle > 180 ? 1 : 0;
  const wedge = element('path', {
    d: `M${pair([centre.x, centre.y])}L${pair(left)}A${px(radius)} ${px(radius)} 0 ${large} 1 ${pair(right)}Z`,
    fill: colours.frame,
    'fill-opacity': '0.18',
    stroke: colours.frame,
    'stroke-width': 1.5,
  });
  const points = [...sides.flatMap((side) => along(side, 90)), ...along(facing, axisFrom)];
  return { elements: [wedge, axis], points };
}

/** In the frame where there is room, else beside it, else behind the camera. */
function frameSpots(facing: number, angle: number): readonly Spot[] {
  const spot = ([x, y]: Point) => ({ x, y: y + 4, anchor: 'middle' }) as const;
  const ahead = [50, 40, 60, 30, 20].map((altitude) => place(facing, altitude));
  const within = [-20, 20].flatMap((turn) => [35, 20].map((altitude) => place(facing + turn, altitude)));
  const beside = [-1, 1].flatMap((side) =>
    [24, 32].flatMap((turn) =>
      [30, 45].map((altitude) => place(facing + side * (angle / 2 + turn), altitude)),
    ),
  );
  const behind = [66, 60, 50].map((altitude) => place(facing + 180, altitude));
  return [
    ...[...ahead, ...within].map(spot),
    ...beside.map((point) => ({ ...spot(point), reserve: 30 })),
    ...behind.map((point) => ({ ...spot(point), reserve: 60 })),
  ];
}

/** Towards the middle of the picture first, then around the body. */
function spotsBeside([x, y]: Point): readonly Spot[] {
  const inward = x > centre.x ? -1 : 1;
  const anchor = (side: number) => (side < 0 ? 'end' : 'start');
  const sides = [inward, -inward].flatMap((side) =>
    [-8, 4, 16].map((down) => ({ x: x + 13 * side, y: y + down, anchor: anchor(side) }) as const),
  );
  const middle = [-14, 23].map((down) => ({ x, y: y + down, anchor: 'middle' }) as const);
  const further = [-1, 1].map((side) => ({ x: x + 22 * side, y: y + 4, anchor: anchor(side) }) as const);
  return [...sides, ...middle, ...further];
}

/** What is down stands just outside the horizon. */
function bodyPlace(position: BodyPosition): Point {
  return place(position.azimuthDegrees, isUp(position) ? position.apparentAltitudeDegrees : -4);
}

/** The sun is a full disc with rays, the moon a ring; what is down is dashed. */
function body(name: Body, position: BodyPosition): readonly string[] {
  const up = isUp(position);
  const [x, y] = bodyPlace(position);
  const colour = colours[name];
  const disc = element('circle', {
    cx: x,
    cy: y,
    r: name === 'sun' ? 6 : 5.5,
    fill: name === 'sun' && up ? colour : 'none',
    stroke: colour,
    'stroke-width': 2,
    ...(up ? {} : { 'stroke-dasharray': '2 2' }),
  });
  if (name === 'moon' || !up) return [disc];
  const rays = [0, 45, 90, 135, 180, 225, 270, 315].map((ray) => {
    const turn = (ray * Math.PI) / 180;
    const [dx, dy] = [Math.cos(turn), Math.sin(turn)];
    return line(x + 8 * dx, y + 8 * dy, x + 11 * dx, y + 11 * dy, { stroke: colour, 'stroke-width': 1.5 });
  });
  return [disc, ...rays];
}
