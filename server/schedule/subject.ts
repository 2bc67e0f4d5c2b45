import { degrees } from '../optics/sphere.ts';
import { type FramePoint, projectToFrame, type SubjectInFrame, subjectInFrame } from '../optics/view.ts';
import type { Spot } from '../plan/fields.ts';
import { moonPosition, sunPosition } from '../sky/bodies.ts';
import { geodesic } from '../sky/geodesy.ts';
import type { DayShot } from './day.ts';
import type { Memory } from './memory.ts';
import type { SpotPlace } from './place.ts';
import { present } from './present.ts';

/** A subject as the camera sees it. Metres and degrees; bearings clockwise from true north. */
export interface SubjectView {
  readonly distanceMetres: number;
  /** Absent where the plan gives a distance and no coordinates. */
  readonly bearingDegrees?: number;
  /** How high its foot stands above the horizontal; taken as 0 unless both elevations are given. */
  readonly footDegrees: number;
  readonly elevationsKnown: boolean;
  /** How high its top stands; absent without a height. */
  readonly topDegrees?: number;
  /** Its size in the frame, upright; absent without height, focal length, sensor or pixels. */
  readonly size?: SubjectInFrame;
  /** Where its middle falls in the frame, and whether that is inside; absent while one of bearing and frame is not known. */
  readonly point?: FramePoint | null;
  readonly inFrame?: boolean;
}

/** What is known of the subject of a shot. Undefined without a distance. */
export function subjectView(
  { shot, gear, light }: DayShot,
  spot: Spot,
  at: SpotPlace,
  memory: Memory,
): SubjectView | undefined {
  const { subject } = shot;
  if (subject === undefined || subject.self.broken.size > 0) return undefined;
  const target = subject.at?.value;
  const line = target === undefined ? undefined : lineTo(at, target, memory);
  const distanceMetres = line?.distanceMetres ?? subject.distance?.value;
  if (distanceMetres === undefined || distanceMetres <= 0) return undefined;
  const own = spot.elevation?.value;
  const foot = subject.elevation?.value;
  const elevationsKnown = own !== undefined && foot !== undefined;
  const rise = elevationsKnown ? foot - own : 0;
  const height = subject.height?.value;
  const angle = (metres: number) => degrees(Math.atan2(metres, distanceMetres));
  const bearingDegrees = line?.bearingDegrees;
  const camera = light?.camera;
  const middle = { azimuth: bearingDegrees ?? 0, altitude: angle(rise + (height ?? 0) / 2) };
  const shown = camera === undefined || line === undefined ? undefined : projectToFrame(middle, camera);
  const { focalMillimetres: focal, sensor, body } = gear;
  const pixels = body?.pixels?.value;
  const size =
    height === undefined || focal === undefined || sensor === undefined || pixels === undefined
      ? undefined
      : subjectInFrame({ sizeMetres: height, distanceMetres }, focal, {
          millimetres: sensor.height,
          pixels:
            sensor.height > sensor.width
              ? Math.max(pixels.width, pixels.height)
              : Math.min(pixels.width, pixels.height),
        });
  return present({
    distanceMetres,
    bearingDegrees,
    footDegrees: angle(rise),
    elevationsKnown,
    topDegrees: height === undefined ? undefined : angle(rise + height),
    size,
    point: shown?.point,
    inFrame: shown?.inFrame,
  });
}

/** The line from the spot to a subject; remembered under the key that the facing uses too. */
function lineTo(
  { place }: SpotPlace,
  target: { readonly latitude: number; readonly longitude: number },
  memory: Memory,
) {
  return memory.once(`line ${place.latitude} ${place.longitude} ${target.latitude} ${target.longitude}`, () =>
    geodesic(place, target),
  );
}

/** Sun or moon in line with a subject. */
export interface Passage {
  readonly body: 'sun' | 'moon';
  readonly atMs: number;
  /** As seen, of the centre. */
  readonly altitudeDegrees: number;
  /** Whether the body stands behind the subject itself, between its foot and two degrees over its top. */
  readonly behind: boolean;
}

const stepMs = 10 * 60_000;

/** How near above the top a body still counts as behind the subject, in degrees. */
const closeDegrees = 2;

/**
 * When sun and moon stand above the horizon and in the direction of the subject on the plan's date, in order: azimuths
 * every ten minutes, and bisection to the second.
 */
export function bodiesBehind(view: SubjectView, at: SpotPlace, memory: Memory): readonly Passage[] {
  const { bearingDegrees, footDegrees, topDegrees = footDegrees } = view;
  if (bearingDegrees === undefined) return [];
  const { startMs, endMs } = at.clock.day(at.date);
  const key = `behind ${at.place.latitude} ${at.place.longitude} ${startMs} ${bearingDegrees} ${footDegrees} ${topDegrees}`;
  return memory.once(key, () => {
    const found: Passage[] = [];
    for (const body of ['sun', 'moon'] as const) {
      const position = (ms: number) => (body === 'sun' ? sunPosition : moonPosition)(ms, at.place);
      const beside = (ms: number) => signed(position(ms).azimuthDegrees - bearingDegrees);
      let before = beside(startMs);
      for (let ms = startMs; ms < endMs; ms += stepMs) {
        const after = beside(Math.min(ms + stepMs, endMs));
        if (before < 0 !== after < 0 && Math.abs(before - after) < 180) {
          const atMs = crossing(beside, ms, Math.min(ms + stepMs, endMs));
          const altitudeDegrees = position(atMs).apparentAltitudeDegrees;
          const behind = altitudeDegrees >= footDegrees && altitudeDegrees <= topDegrees + closeDegrees;
          if (altitudeDegrees > 0) found.push({ body, atMs, altitudeDegrees, behind });
        }
        before = after;
      }
    }
    return found.sort((a, b) => a.atMs - b.atMs);
  });
}

function crossing(value: (ms: number) => number, fromMs: number, toMs: number): number {
  let [low, high] = [fromMs, toMs];
  const negativeFirst = value(low) < 0;
  while (high - low > 1000) {
    const middle = (low + high) / 2;
    if (value(middle) < 0 === negativeFirst) low = middle;
    else high = middle;
  }
  return Math.round((low + high) / 2);
}

function signed(turn: number): number {
  return ((((turn + 180) % 360) + 360) % 360) - 180;
}
