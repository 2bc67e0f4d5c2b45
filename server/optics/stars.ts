import { degrees, radians } from './sphere.ts';
import { type Camera, directionInFrame, horizonInFrame, projectToFrame } from './view.ts';

/** How fast the sky turns, radians a second (IERS: one turn in a sidereal day of 86164.1 s). */
export const skyRadiansPerSecond = 7.2921159e-5;

/** What decides how soon a star draws a line: focal length in millimetres, pitch in micrometres, declination in degrees. */
export interface StarView {
  readonly focal: number;
  readonly pitchMicrometres: number;
  /** Of the stars that matter; 0, where they move fastest, if not given. */
  readonly declination?: number | undefined;
}

/** The custom of 500 / (crop · focal length), seconds. Common practice, no source; too long for small pixels. */
export function fiveHundredSeconds(focal: number, crop = 1): number {
  return 500 / (crop * focal);
}

/** (35·N + 30·p)/f, seconds. F. Michaud, Société astronomique du Havre; coefficients from memory, unconfirmed. */
export function npfSimpleSeconds({ focal, pitchMicrometres }: StarView, fNumber: number): number {
  return (35 * fNumber + 30 * pitchMicrometres) / focal;
}

/**
 * k·(16.856·N + 0.0997·f + 13.713·p)/(f·cos δ), seconds, k from 1 (sharp) to 3. F. Michaud, Société astronomique du Havre;
 * coefficients from memory, unconfirmed.
 */
export function npfSeconds(view: StarView, fNumber: number, tolerance = 1): number {
  const { focal, pitchMicrometres, declination = 0 } = view;
  const sum = 16.856 * fNumber + 0.0997 * focal + 13.713 * pitchMicrometres;
  return (tolerance * sum) / (focal * Math.cos(radians(declination)));
}

/** The time in which a star in the middle of the frame moves by so many pixels, seconds: geometry, no custom. */
export function pixelSeconds(view: StarView, pixels = 1): number {
  const { focal, pitchMicrometres, declination = 0 } = view;
  const micrometresPerSecond = focal * 1000 * skyRadiansPerSecond * Math.cos(radians(declination));
  return (pixels * pitchMicrometres) / micrometresPerSecond;
}

/** How many pixels a star in the middle of the frame moves in the time. */
export function trailPixels(view: StarView, seconds: number): number {
  return seconds / pixelSeconds(view);
}

/** The arc that every trail describes around the pole, degrees: 15.041 an hour. */
export function trailArcDegrees(seconds: number): number {
  return degrees(skyRadiansPerSecond * seconds);
}

/** The length of a trail on the sky, degrees: its arc times cos δ. */
export function trailLengthDegrees(seconds: number, declination: number): number {
  return trailArcDegrees(seconds) * Math.cos(radians(declination));
}

/** Declination of a direction seen from a latitude: sin δ = sin φ·sin h + cos φ·cos h·cos A (A from north). Degrees. */
export function declinationOf(azimuth: number, altitude: number, latitude: number): number {
  const high = Math.sin(radians(latitude)) * Math.sin(radians(altitude));
  const flat = Math.cos(radians(latitude)) * Math.cos(radians(altitude)) * Math.cos(radians(azimuth));
  return degrees(Math.asin(Math.min(1, Math.max(-1, high + flat))));
}

export interface DeclinationRange {
  readonly lowest: number;
  readonly highest: number;
  /** The declination in the frame at which stars move fastest: the one nearest to 0. */
  readonly fastest: number;
}

/** How many places of each edge are looked at. */
const samples = 65;

/**
 * The declinations of the sky that a level camera sees, degrees; null when it sees none above the horizontal. Along the
 * edges of the picture and the horizon, since declination has no extreme within them but the pole.
 */
export function declinationsInFrame(camera: Camera, latitude: number): DeclinationRange | null {
  const bottom = Math.max(horizonInFrame(camera), -0.5);
  if (bottom >= 0.5) return null;
  const declinations: number[] = [];
  for (let place = 0; place < samples; place += 1) {
    const along = place / (samples - 1);
    const edges = [
      { x: along - 0.5, y: 0.5 },
      { x: along - 0.5, y: bottom },
      { x: -0.5, y: bottom + along * (0.5 - bottom) },
      { x: 0.5, y: bottom + along * (0.5 - bottom) },
    ];
    for (const point of edges) {
      const { azimuth, altitude } = directionInFrame(point, camera);
      declinations.push(declinationOf(azimuth, altitude, latitude));
    }
  }
  for (const pole of [90, -90]) {
    const direction = pole > 0 ? { azimuth: 0, altitude: latitude } : { azimuth: 180, altitude: -latitude };
    if (direction.altitude >= 0 && projectToFrame(direction, camera).inFrame) declinations.push(pole);
  }
  const lowest = Math.min(...declinations);
  const highest = Math.max(...declinations);
  return { lowest, highest, fastest: Math.min(Math.max(0, lowest), highest) };
}
