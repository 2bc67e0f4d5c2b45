import { degrees, radians } from './sphere.ts';
import { type Camera, fieldOfView } from './view.ts';

/**
 * Reflection from a flat surface of water or of wet rock. Angles of incidence in degrees from the vertical; grazing angles
 * from the surface. Ripples smear the angles. Source: E. Hecht, Optics, section 4.6 (Fresnel equations).
 */

/** Fresh water at 20 °C in yellow light (IAPWS: 1.33299). Sea water is about 1.34. */
export const waterIndex = 1.333;

/** The reflected shares of light, 0 to 1. */
export interface Reflectance {
  /** Polarized along the surface: what a polarizer can block. */
  readonly s: number;
  /** Polarized across it. */
  readonly p: number;
  /** Of unpolarized light. */
  readonly mean: number;
}

export function fresnel(incidenceDegrees: number, index = waterIndex): Reflectance {
  const inside = Math.cos(radians(incidenceDegrees));
  const outside = Math.sqrt(1 - (Math.sin(radians(incidenceDegrees)) / index) ** 2);
  const s = ((inside - index * outside) / (inside + index * outside)) ** 2;
  const p = ((outside - index * inside) / (outside + index * inside)) ** 2;
  return { s, p, mean: (s + p) / 2 };
}

/** The incidence at which the reflection is polarized completely: atan n, 53.1° for water. */
export function brewsterDegrees(index = waterIndex): number {
  return degrees(Math.atan(index));
}

/** What a polarizer does to a reflection of unpolarized light (an overcast sky, the land). */
export interface PolarizedReflection {
  /** Between the line of sight and the surface; 36.9° is best. */
  readonly grazingDegrees: number;
  /** The share of the light that is reflected, without a filter. */
  readonly reflectance: number;
  /** The share of the reflection that the filter can take away, against what is not reflected: 0 to 1. */
  readonly removableShare: number;
  /** The same in stops: log2(mean / p); Infinity at the Brewster angle. */
  readonly removableStops: number;
  /** How much the reflection is strengthened when the filter is turned the other way: log2(s / mean), 0 to 1 stop. */
  readonly strengthenedStops: number;
}

/** A polarizer halves everything unpolarized; what is given here is what the reflection loses or gains beyond that. */
export function polarizedReflection(grazingDegrees: number, index = waterIndex): PolarizedReflection {
  const { s, p, mean } = fresnel(90 - grazingDegrees, index);
  return {
    grazingDegrees,
    reflectance: mean,
    removableShare: 1 - p / mean,
    removableStops: Math.log2(mean / p),
    strengthenedStops: Math.log2(s / mean),
  };
}

/** The reflections that the frame shows of level water, from its bottom edge to its top or to the horizon. */
export interface WaterInFrame {
  /** Seen at the bottom edge, nearest to the camera. */
  readonly nearest: PolarizedReflection;
  /** Seen along the lens axis; null when it points at or above the horizontal. */
  readonly axis: PolarizedReflection | null;
  /** Seen at the top edge; at a grazing angle of 0 when the horizon is in the frame. */
  readonly farthest: PolarizedReflection;
  /** Where a polarizer takes most: at the Brewster angle, or at the edge that comes nearest to it. */
  readonly strongest: PolarizedReflection;
}

/**
 * What a polarizer can do to the water down the middle of the frame of a level camera. Null when the frame shows nothing
 * below the horizontal. A camera that looks down past the vertical counts its bottom edge as looking straight down.
 */
export function waterInFrame(camera: Camera, index = waterIndex): WaterInFrame | null {
  const half = fieldOfView(camera.focal, camera.sensor).verticalDegrees / 2;
  const steepest = Math.min(half - camera.tilt, 90);
  if (steepest <= 0) return null;
  const flattest = Math.max(-camera.tilt - half, 0);
  return {
    nearest: polarizedReflection(steepest, index),
    axis: camera.tilt < 0 ? polarizedReflection(Math.min(-camera.tilt, 90), index) : null,
    farthest: polarizedReflection(flattest, index),
    strongest: polarizedReflection(
      Math.min(Math.max(90 - brewsterDegrees(index), flattest), steepest),
      index,
    ),
  };
}
