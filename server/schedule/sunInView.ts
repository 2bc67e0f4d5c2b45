import { degrees, signedDegrees } from '../optics/sphere.ts';
import { type Camera, fieldOfView, projectToFrame } from '../optics/view.ts';
import type { PlanModel } from '../plan/fields.ts';
import { sunPosition } from '../sky/bodies.ts';
import type { DayShot, DaySpot } from './day.ts';
import { forecastAt, sunUpDegrees } from './light.ts';
import type { Memory } from './memory.ts';
import type { SpotPlace } from './place.ts';

/** The sun before the lens, at one instant between composing and the end of the last frame. */
export interface SunInView {
  /** The start if it stands in the frame then; else when it enters, or when it comes nearest. */
  readonly atMs: number;
  readonly inside: boolean;
  /** How far outside the nearest edge; 0 or less inside. */
  readonly outsideDegrees: number;
  readonly altitudeDegrees: number;
  /** When it leaves the frame again, if it does before the end. */
  readonly untilMs?: number;
  /** Whether it stands there only before the shot starts. */
  readonly composing: boolean;
  /** Whether the forecast hides it. Clouds break: behind a finder that lets sunlight through that is no reason to be silent. */
  readonly closedSky: boolean;
  /** The frame, of one panorama frame the nearest. Where the kit does not state lens or sensor, one that is taken for it. */
  readonly camera: Camera;
  readonly assumed: boolean;
}

/** Whoever composes looks through the finder for up to half an hour before. Common practice, no source. */
const composingMs = 30 * 60_000;
/** Nothing is looked at beyond a day. */
const longestMs = 24 * 3_600_000;
/** The sun moves by half a degree between two looks. */
const stepMs = 120_000;
/** Degrees in a millisecond, at most: a turn in a day. */
const fastest = 360 / 86_400_000;

/** Taken where the kit does not say: 50 mm on 36 × 24 mm. */
const usualFocal = 50;
const usualSensor = { width: 36, height: 24 };

/** Undefined when the sun does not shine in the frame or within `marginDegrees` of its edge, or that is not known. */
export function sunInView(
  shot: DayShot,
  visit: DaySpot,
  plan: PlanModel,
  marginDegrees: number,
  memory: Memory,
): SunInView | undefined {
  const { light, startMs } = shot;
  const { at } = visit;
  const held = heldCamera(shot);
  if (light === undefined || at === undefined || startMs === undefined || held === undefined)
    return undefined;
  const fromMs = Math.min(startMs, composingFrom(shot, visit, startMs));
  const toMs = Math.min(Math.max(shot.endMs ?? startMs, startMs), startMs + longestMs);
  const reach = Math.max(toMs - startMs, startMs - fromMs) * fastest;
  if (light.sun.altitudeDegrees + reach < sunUpDegrees) return undefined;
  const { camera, assumed } = held;
  const sweep = shot.shot.sweep?.value;
  const { diagonalDegrees } = fieldOfView(camera.focal, camera.sensor);
  const direction = {
    azimuth: light.sun.azimuthDegrees,
    altitude: light.sun.apparentAltitudeDegrees,
  };
  const { angleFromAxisDegrees } = projectToFrame(direction, camera);
  if (angleFromAxisDegrees - reach - 1 > diagonalDegrees / 2 + marginDegrees * 2 + Math.abs(sweep ?? 0) / 2)
    return undefined;
  const finder = shot.gear.body?.finder?.value;
  const clouds = (plan.forecast?.hours ?? []).map((hour) => `${hour.at?.text} ${hour.cloud?.text}`).join();
  const key = `sun in view ${at.key} ${at.clock.zone} ${fromMs} ${startMs} ${toMs} ${JSON.stringify(camera)} ${sweep} ${marginDegrees} ${finder} ${clouds}`;
  const look = (instantMs: number) =>
    lookAt(instantMs, at, plan, camera, sweep, finder !== undefined && finder !== 'optical');
  const found = memory.once(key, () => search(look, { fromMs, startMs, toMs }, marginDegrees));
  return found === undefined ? undefined : { ...found, assumed };
}

function composingFrom({ shot, freeFromMs }: DayShot, visit: DaySpot, startMs: number): number {
  const isFirst = visit.shots[0]?.shot === shot;
  return Math.max(startMs - composingMs, (isFirst ? visit.arriveMs : freeFromMs) ?? 0);
}

/** Lens and sensor as they are held; what the kit does not state is taken as usual, what cannot be read is not. */
function heldCamera({
  shot,
  gear,
  facing,
  light,
}: DayShot): { camera: Camera; assumed: boolean } | undefined {
  if (light?.camera !== undefined) return { camera: light.camera, assumed: false };
  const { broken } = shot.self;
  if (facing === undefined || broken.has('lens') || broken.has('body')) return undefined;
  if (
    (shot.lens !== undefined && gear.lens === undefined) ||
    (shot.body !== undefined && gear.body === undefined)
  )
    return undefined;
  const focal = gear.focalMillimetres ?? gear.lens?.focal?.value.shortestMillimetres ?? usualFocal;
  const sensor = gear.sensor ?? usualSensor;
  return { camera: { facing: facing.degrees, tilt: facing.tiltDegrees, focal, sensor }, assumed: true };
}

interface Look {
  readonly atMs: number;
  readonly outsideDegrees: number;
  readonly altitudeDegrees: number;
  readonly closedSky: boolean;
  readonly camera: Camera;
}

/** Undefined while the sun is down, behind the land, or behind clouds that count. */
function lookAt(
  atMs: number,
  at: SpotPlace,
  plan: PlanModel,
  camera: Camera,
  sweep: number | undefined,
  cloudsCount: boolean,
): Look | undefined {
  const sun = sunPosition(atMs, at.place);
  if (sun.altitudeDegrees < sunUpDegrees) return undefined;
  const altitudeDegrees = sun.apparentAltitudeDegrees;
  const land = at.skyline?.altitudeDegrees(sun.azimuthDegrees);
  if (land !== undefined && altitudeDegrees + 0.27 < land) return undefined;
  const closedSky = (forecastAt(atMs, at, plan)?.cloud?.value ?? 0) >= 1;
  if (closedSky && cloudsCount) return undefined;
  const turned = turnedTowards(sun.azimuthDegrees, camera, sweep);
  const outsideDegrees = outside({ azimuth: sun.azimuthDegrees, altitude: altitudeDegrees }, turned);
  return { atMs, outsideDegrees, altitudeDegrees, closedSky, camera: turned };
}

/** First in the frame during the shot, then in it while composing, then near it. */
function search(
  look: (instantMs: number) => Look | undefined,
  { fromMs, startMs, toMs }: { readonly fromMs: number; readonly startMs: number; readonly toMs: number },
  marginDegrees: number,
): Omit<SunInView, 'assumed'> | undefined {
  const before = looks(look, fromMs, startMs);
  const during = looks(look, startMs, toMs);
  for (const [instants, composing, end] of [
    [during, false, toMs],
    [before, true, startMs],
  ] as const) {
    const first = instants.findIndex(({ seen }) => seen !== undefined && seen.outsideDegrees <= 0);
    if (first < 0) continue;
    const inside = (instantMs: number) => (look(instantMs)?.outsideDegrees ?? 1) <= 0;
    const enters =
      first === 0 ? instants[0]?.ms : change(inside, instants[first - 1]?.ms, instants[first]?.ms);
    const last = instants.findIndex(({ seen }, place) => place > first && (seen?.outsideDegrees ?? 1) > 0);
    const leaves =
      last < 0 ? undefined : change((ms) => !inside(ms), instants[last - 1]?.ms, instants[last]?.ms);
    const seen = look(enters as number) ?? instants[first]?.seen;
    if (seen === undefined) continue;
    const untilMs = leaves ?? (composing ? end : undefined);
    return { ...seen, inside: true, composing, ...(untilMs === undefined ? {} : { untilMs }) };
  }
  for (const [instants, composing] of [
    [during, false],
    [before, true],
  ] as const) {
    let nearest: Look | undefined;
    for (const { seen } of instants) {
      if (seen !== undefined && (nearest === undefined || seen.outsideDegrees < nearest.outsideDegrees))
        nearest = seen;
    }
    if (nearest !== undefined && nearest.outsideDegrees <= marginDegrees)
      return { ...nearest, inside: false, composing };
  }
  return undefined;
}

/** The looks from one instant to another, both included. */
function looks(look: (instantMs: number) => Look | undefined, fromMs: number, toMs: number) {
  const count = Math.ceil((toMs - fromMs) / stepMs);
  return Array.from({ length: count + 1 }, (_, place) => {
    const ms = count === 0 ? fromMs : fromMs + ((toMs - fromMs) * place) / count;
    return { ms, seen: look(ms) };
  });
}

/** When it begins to hold, between an instant at which it does not and one at which it does; to five seconds. */
function change(holds: (ms: number) => boolean, noMs = 0, yesMs = 0): number {
  let [no, yes] = [noMs, yesMs];
  while (yes - no > 5000) {
    const middle = (no + yes) / 2;
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

/** The frame of a panorama that comes nearest to the sun; the sweep is taken to lie evenly about the facing. */
function turnedTowards(azimuth: number, camera: Camera, sweep: number | undefined): Camera {
  if (sweep === undefined) return camera;
  const field = fieldOfView(camera.focal, camera.sensor).horizontalDegrees;
  const most = Math.max((Math.abs(sweep) - field) / 2, 0);
  const turn = Math.max(-most, Math.min(most, signedDegrees(azimuth - camera.facing)));
  return { ...camera, facing: camera.facing + turn };
}

/** How far a direction lies outside the nearest edge, in degrees along width and height; below 0 inside. */
function outside(direction: { readonly azimuth: number; readonly altitude: number }, camera: Camera): number {
  const { point } = projectToFrame(direction, camera);
  if (point === null) return Number.POSITIVE_INFINITY;
  const field = fieldOfView(camera.focal, camera.sensor);
  const angle = (share: number, side: number) => degrees(Math.atan((Math.abs(share) * side) / camera.focal));
  return Math.max(
    angle(point.x, camera.sensor.width) - field.horizontalDegrees / 2,
    angle(point.y, camera.sensor.height) - field.verticalDegrees / 2,
  );
}
