import { fieldOfView } from '../../optics/view.ts';
import type { DayShot } from '../../schedule/day.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { type BodyPosition, moonPosition, sunPosition } from '../../sky/bodies.ts';
import { clockText } from '../localTime.ts';
import { altitudeText, bearingText } from '../numbers.ts';
import { colours, element, line, type Point, pair, picture, polyline, px, words } from './svg.ts';

const width = 260;
/** A hover shows about 250 pixels at once, the headline among them. */
const height = 208;
const centre = { x: 130, y: 104 };
/** The horizon; the zenith is the centre. */
const radius = 76;

/** Where a direction of the sky lies in the plan: north up, east to the right, the horizon around, the zenith within. */
function place(azimuthDegrees: number, altitudeDegrees: number): Point {
  const out = (radius * (90 - Math.max(-4, altitudeDegrees))) / 90;
  const turn = (azimuthDegrees * Math.PI) / 180;
  return [centre.x + out * Math.sin(turn), centre.y - out * Math.cos(turn)];
}

/** What stands around the camera while a shot is taken: the frame, the sun's way, the moon, the land. */
export function planView(at: SpotPlace, shot: DayShot): string | undefined {
  const { facing, startMs, gear } = shot;
  if (facing === undefined || startMs === undefined) return undefined;
  const sun = sunPosition(startMs, at.place);
  const moon = moonPosition(startMs, at.place);
  const angle =
    gear.focalMillimetres === undefined || gear.sensor === undefined
      ? undefined
      : fieldOfView(gear.focalMillimetres, gear.sensor).horizontalDegrees;
  const sunUp = sun.apparentAltitudeDegrees > -0.3;
  const moonUp = moon.apparentAltitudeDegrees > -0.3;
  const parts = [
    ...[30, 60].map((altitude) => circleAt(altitude, { 'stroke-dasharray': '2 4' })),
    circleAt(0, { 'stroke-width': 1.5 }),
    landRing(at),
    ...frame(facing.degrees, angle, sun.azimuthDegrees),
    ...sunWay(at, startMs, shot.endMs ?? startMs),
    ...compass(),
    ...body('moon', moon, moonUp, at),
    ...body('sun', sun, sunUp, at),
  ];
  const wide = angle === undefined ? '' : `, ${Math.round(angle)}° wide`;
  return picture(
    width,
    height,
    parts,
    `Plan with north up, at ${clockText(startMs, at.clock, at.date)}: the frame looks towards ${bearingText(facing.degrees)}${wide}; the sun at ${bearingText(sun.azimuthDegrees)}, ${altitudeText(sun.apparentAltitudeDegrees)}${sunUp ? '' : ', down'}; the moon at ${bearingText(moon.azimuthDegrees)}, ${altitudeText(moon.apparentAltitudeDegrees)}${moonUp ? '' : ', down'}${at.skyline === undefined ? '' : `; the land stands ${altitudeText(at.skyline.altitudeDegrees(sun.azimuthDegrees))} high under the sun`}.`,
  );
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

function compass(): string[] {
  return (['N', 'E', 'S', 'W'] as const).map((name, quarter) => {
    const turn = (quarter * Math.PI) / 2;
    const out = radius + 22;
    return words(centre.x + out * Math.sin(turn), centre.y - out * Math.cos(turn) + 4, name, 'middle');
  });
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

/** The frame as a wedge; its name stands in it, or behind the camera where the sun is in the way. */
function frame(facing: number, angle: number | undefined, sunAzimuth: number): string[] {
  const [x, y] = place(facing, 0);
  const [fromX, fromY] = place(facing, angle === undefined ? 90 : 34);
  const axis = line(fromX, fromY, x, y, {
    stroke: colours.frame,
    'stroke-width': 1.5,
    'stroke-dasharray': '6 3',
  });
  if (angle === undefined) return [axis];
  const [left, right] = [place(facing - angle / 2, 0), place(facing + angle / 2, 0)];
  const large = angle > 180 ? 1 : 0;
  const wedge = element('path', {
    d: `M${pair([centre.x, centre.y])}L${pair(left)}A${px(radius)} ${px(radius)} 0 ${large} 1 ${pair(right)}Z`,
    fill: colours.frame,
    'fill-opacity': '0.18',
    stroke: colours.frame,
    'stroke-width': 1.5,
  });
  const sunAhead = Math.cos(((sunAzimuth - facing) * Math.PI) / 180) > 0.5;
  const [labelX, labelY] = place(sunAhead ? facing + 180 : facing, sunAhead ? 66 : 50);
  return [wedge, axis, words(labelX, labelY + 4, 'frame', 'middle', colours.frame)];
}

/** Thin: the sun's way over the day, above the horizon; thick: while the shot lasts. */
function sunWay(at: SpotPlace, startMs: number, endMs: number): string[] {
  const day = at.clock.day(at.clock.date(startMs));
  const along = (fromMs: number, toMs: number, steps: number): Point[][] => {
    const stretches: Point[][] = [[]];
    for (let step = 0; step <= steps; step += 1) {
      const sun = sunPosition(fromMs + ((toMs - fromMs) * step) / steps, at.place);
      if (sun.apparentAltitudeDegrees >= 0) {
        stretches.at(-1)?.push(place(sun.azimuthDegrees, sun.apparentAltitudeDegrees));
      } else if (stretches.at(-1)?.length !== 0) stretches.push([]);
    }
    return stretches.filter((stretch) => stretch.length > 1);
  };
  const thin = along(day.startMs, day.endMs, 96).map((stretch) =>
    polyline(stretch, { stroke: colours.sun, 'stroke-width': 1.2 }),
  );
  const thick =
    endMs - startMs < 60_000
      ? []
      : along(startMs, endMs, 12).map((stretch) =>
          polyline(stretch, { stroke: colours.sun, 'stroke-width': 5, 'stroke-linecap': 'round' }),
        );
  return [...thin, ...thick];
}

/** The sun is a full disc with rays, the moon a ring; what is down stands outside the horizon, dashed. */
function body(
  name: 'sun' | 'moon',
  { azimuthDegrees: azimuth, apparentAltitudeDegrees: altitude }: BodyPosition,
  up: boolean,
  { skyline }: SpotPlace,
): string[] {
  const [x, y] = up ? place(azimuth, altitude) : place(azimuth, -4);
  const colour = name === 'sun' ? colours.sun : colours.moon;
  const r = name === 'sun' ? 6 : 5.5;
  const disc = element('circle', {
    cx: x,
    cy: y,
    r,
    fill: name === 'sun' && up ? colour : 'none',
    stroke: colour,
    'stroke-width': 2,
    ...(up ? {} : { 'stroke-dasharray': '2 2' }),
  });
  const rays =
    name === 'sun' && up
      ? [0, 45, 90, 135, 180, 225, 270, 315].map((ray) => {
          const turn = (ray * Math.PI) / 180;
          const [dx, dy] = [Math.cos(turn), Math.sin(turn)];
          return line(x + 8 * dx, y + 8 * dy, x + 11 * dx, y + 11 * dy, {
            stroke: colour,
            'stroke-width': 1.5,
          });
        })
      : [];
  const label = up ? name : `${name} down`;
  const rightHalf = x > centre.x;
  // Labels stay inside the picture, towards the middle from either side, and off the land.
  const land = Math.max(skyline?.altitudeDegrees(azimuth) ?? 0, 0);
  const anchor = rightHalf ? 'end' : 'start';
  const [innerX, innerY] = place(azimuth, land + 15);
  const written =
    altitude > land + 15
      ? words(x + (rightHalf ? -13 : 13), y - 8, label, anchor, colour)
      : words(innerX, innerY + 4, label, anchor, colour);
  return [disc, ...rays, written];
}
