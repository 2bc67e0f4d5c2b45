import {
  angleBetween,
  combine,
  cross,
  type Direction,
  directionOf,
  dot,
  radians,
  unit,
  vectorOf,
} from './sphere.ts';
import { axesOf, type Camera, directionInFrame, horizonInFrame } from './view.ts';

/**
 * What a polarizer does to the clear sky, by single Rayleigh scattering.
 * Sources: Lord Rayleigh 1871; K. L. Coulson, Polarization and Intensity of Light in the Atmosphere, 1988; E. Hecht,
 * Optics (Malus). The neutral points near the sun and opposite to it are not in this model.
 */

/** The strongest polarization of a clear sky, at 90° from the sun: 0.75 to 0.85 (Coulson); haze lowers it, cloud ends it. */
export const clearSkyPolarization = 0.8;

/**
 * The strongest polarization of a sky under clouds: theirs is none, so that of the whole falls with the share that is open.
 * Without a forecast the sky counts as clear. Common practice, no source; single gaps keep what a clear sky has.
 */
export function cloudedPolarization(cloudShare = 0): number {
  return clearSkyPolarization * (1 - Math.min(Math.max(cloudShare, 0), 1));
}

/** The angle at which sunlight is scattered towards the camera: from the sun to where the camera looks, 0° to 180°. */
export function scatteringAngle(sun: Direction, view: Direction): number {
  return angleBetween(sun, view);
}

/** P = Pmax · sin²γ / (1 + cos²γ), 0 to 1. */
export function degreeOfPolarization(scatteringDegrees: number, strongest = clearSkyPolarization): number {
  return polarizationAt(Math.cos(radians(scatteringDegrees)) ** 2, strongest);
}

function polarizationAt(cosSquared: number, strongest: number): number {
  return (strongest * (1 - cosSquared)) / (1 + cosSquared);
}

/** How many stops the sky can be darkened against unpolarized subjects: −log2(1 − P). */
export function darkeningStops(polarization: number): number {
  return -Math.log2(1 - polarization);
}

/** How many stops the sky changes from the brightest to the darkest turn of the filter: log2((1 + P) / (1 − P)). */
export function rotationRangeStops(polarization: number): number {
  return Math.log2((1 + polarization) / (1 - polarization));
}

/** The share of fully polarized light that a polarizer passes at an angle to its axis: cos²θ (Malus). */
export function malus(angleDegrees: number): number {
  return Math.cos(radians(angleDegrees)) ** 2;
}

/** The sky across one frame, with the polarizer turned so that the most polarized part of it comes out darkest. */
export interface SkyEvenness {
  readonly weakestStops: number;
  readonly strongestStops: number;
  /** The unevenness: how much darker one part of the sky comes out than another. */
  readonly differenceStops: number;
  /** Where it is darkest, as a share of the width from the middle, −0.5 at the left edge. */
  readonly strongestAt: number;
  /** Where that is on the compass. */
  readonly strongestAzimuth: number;
  /** The altitude of the row that was looked at, in the middle of the frame. */
  readonly rowAltitude: number;
}

/** How many places of the row are looked at. */
const samples = 65;

/**
 * How evenly a polarizer darkens the sky across the frame: along one row of the picture, through the middle of what it
 * shows of the sky. Null when there is no sky above the horizontal in the frame.
 *
 * Skylight is polarized across the plane through sun, sky and eye. The filter suits that direction at the most polarized
 * place; elsewhere it is off by an angle Δ and passes 1 − P·cos 2Δ of what it passes of unpolarized light (Malus).
 */
export function skyEvenness(
  sun: Direction,
  camera: Camera,
  strongest = clearSkyPolarization,
): SkyEvenness | null {
  const bottom = Math.max(horizonInFrame(camera), -0.5);
  if (bottom >= 0.5) return null;
  const y = (bottom + 0.5) / 2;
  const axes = axesOf(camera);
  const [right, up] = axes;
  const sunwards = vectorOf(sun);
  const places = Array.from({ length: samples }, (_, place) => {
    const x = place / (samples - 1) - 0.5;
    const view = unit(combine(axes, [x * camera.sensor.width, y * camera.sensor.height, camera.focal]));
    const polarization = polarizationAt(dot(sunwards, view) ** 2, strongest);
    // The direction of polarization as it falls on the sensor, in radians from the width of the frame.
    const across = cross(sunwards, view);
    return { x, view, polarization, axis: Math.atan2(dot(across, up), dot(across, right)) };
  });
  const filterAxis = mostOf(places, ({ polarization }) => polarization).axis;
  const stopsAt = ({ polarization, axis }: (typeof places)[number]) =>
    darkeningStops(polarization * Math.cos(2 * (axis - filterAxis)));
  const darkest = mostOf(places, stopsAt);
  const strongestStops = stopsAt(darkest);
  const weakestStops = stopsAt(mostOf(places, (place) => -stopsAt(place)));
  return {
    weakestStops,
    strongestStops,
    differenceStops: strongestStops - weakestStops,
    strongestAt: darkest.x,
    strongestAzimuth: directionOf(darkest.view).azimuth,
    rowAltitude: directionInFrame({ x: 0, y }, camera).altitude,
  };
}

/** The first item whose measure is largest. */
function mostOf<T>(items: readonly T[], measure: (item: T) => number): T {
  let best = items[0] as T;
  let most = measure(best);
  for (const item of items) {
    const value = measure(item);
    if (value > most) [best, most] = [item, value];
  }
  return best;
}
