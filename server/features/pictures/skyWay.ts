import type { SpotPlace } from '../../schedule/place.ts';
import { type BodyPosition, MEAN_DAY_MS, moonPosition, sunPosition } from '../../sky/bodies.ts';
import type { Body } from '../../sky/skyline.ts';
import { colours, type Point, polyline } from './svg.ts';

/** The middle of a plan of the sky: the zenith. */
export const centre = { x: 130, y: 104 };
/** Of the horizon around it. */
export const radius = 76;

/** Where a direction of the sky lies in the plan: north up, east to the right, the horizon around, the zenith within. */
export function place(azimuthDegrees: number, altitudeDegrees: number): Point {
  const out = (radius * (90 - Math.max(-4, altitudeDegrees))) / 90;
  const turn = (azimuthDegrees * Math.PI) / 180;
  return [centre.x + out * Math.sin(turn), centre.y - out * Math.cos(turn)];
}

/** The direction at a point of the plan. */
export function directionAt(x: number, y: number): { readonly azimuth: number; readonly altitude: number } {
  const [dx, dy] = [x - centre.x, y - centre.y];
  return {
    azimuth: (Math.atan2(dx, -dy) * 180) / Math.PI,
    altitude: 90 - (90 * Math.hypot(dx, dy)) / radius,
  };
}

/** Where a body stands. */
export function positionOf(body: Body, instantMs: number, at: SpotPlace): BodyPosition {
  return (body === 'sun' ? sunPosition : moonPosition)(instantMs, at.place);
}

/** Lines differ in their strokes too, not by colour alone: the sun's are whole, the moon's dotted and dashed. */
const strokes = {
  sun: { day: { 'stroke-width': 1.2 }, shot: { 'stroke-width': 5, 'stroke-linecap': 'round' } },
  moon: {
    day: { 'stroke-width': 1.6, 'stroke-dasharray': '0.1 3.4', 'stroke-linecap': 'round' },
    shot: { 'stroke-width': 4, 'stroke-dasharray': '4 1.6' },
  },
} as const;

/** A shot shorter than this draws no way of its own: it would hide under the body. */
const shortestMs = 60_000;

/** The way of a body as drawn, and the points that it runs through. */
export interface SkyWay {
  readonly elements: readonly string[];
  readonly dayPoints: readonly Point[];
  readonly shotPoints: readonly Point[];
}

/** Thin: the way of a body above the horizon during the day around an instant; thick: while the shot lasts. */
export function skyWay(body: Body, at: SpotPlace, startMs: number, endMs: number): SkyWay {
  const half = MEAN_DAY_MS[body] / 2;
  const day = stretchesUp(body, at, startMs - half, startMs + half, 96);
  const shot = endMs - startMs < shortestMs ? [] : stretchesUp(body, at, startMs, endMs, 12);
  const lines = (stretches: readonly (readonly Point[])[], stroke: 'day' | 'shot') =>
    stretches.map((stretch) => polyline(stretch, { stroke: colours[body], ...strokes[body][stroke] }));
  return {
    elements: [...lines(day, 'day'), ...lines(shot, 'shot')],
    dayPoints: day.flat(),
    shotPoints: shot.flat(),
  };
}

function stretchesUp(body: Body, at: SpotPlace, fromMs: number, toMs: number, steps: number): Point[][] {
  const stretches: Point[][] = [[]];
  for (let step = 0; step <= steps; step += 1) {
    const { azimuthDegrees, apparentAltitudeDegrees } = positionOf(
      body,
      fromMs + ((toMs - fromMs) * step) / steps,
      at,
    );
    if (apparentAltitudeDegrees >= 0) stretches.at(-1)?.push(place(azimuthDegrees, apparentAltitudeDegrees));
    else if (stretches.at(-1)?.length !== 0) stretches.push([]);
  }
  return stretches.filter((stretch) => stretch.length > 1);
}
