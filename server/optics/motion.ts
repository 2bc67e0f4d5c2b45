import { degrees, radians } from './sphere.ts';

/** Something that moves through the view. */
export interface Motion {
  readonly speedMetresPerSecond: number;
  readonly distanceMetres: number;
  readonly seconds: number;
  /** Between the motion and the line of sight; 90° (across the view) if not given. */
  readonly angleDegrees?: number | undefined;
}

/** The sensor on which it is drawn; millimetres, and micrometres for the pitch. */
export interface Screen {
  readonly focal: number;
  readonly pitchMicrometres: number;
  /** The side of the sensor along the motion. */
  readonly sideMillimetres: number;
}

/** A streak on the sensor. */
export interface Streak {
  readonly millimetres: number;
  readonly pixels: number;
  /** Of the side of the sensor; above 1 it runs through the whole frame. */
  readonly share: number;
}

/**
 * The streak that a moving thing draws: f·v·t/D for motion across the view at a distance much longer than the lens
 * (similar triangles), and the sine of its angle to the line of sight.
 */
export function streak(motion: Motion, screen: Screen): Streak {
  const { speedMetresPerSecond, distanceMetres, seconds, angleDegrees = 90 } = motion;
  const across = speedMetresPerSecond * Math.sin(radians(angleDegrees));
  return onSensor((screen.focal * across * seconds) / distanceMetres, screen);
}

/** The shutter time for a streak of the given number of pixels. */
export function secondsForPixels(pixels: number, motion: Omit<Motion, 'seconds'>, screen: Screen): number {
  return pixels / streak({ ...motion, seconds: 1 }, screen).pixels;
}

export interface CloudMotion {
  /** Wind at the height of the clouds, not at the ground. */
  readonly windMetresPerSecond: number;
  readonly heightMetres: number;
  /** How high above the horizon the clouds are seen, 0° to 90°. */
  readonly elevationDegrees: number;
  readonly seconds: number;
}

export interface CloudStreak extends Streak {
  readonly degreesPerSecond: number;
  /** The rate at the start times the time, good for small angles. */
  readonly sweptDegrees: number;
}

/**
 * The streak of clouds that cross the line of sight: they stand at a distance of h/sin(e), so they sweep v·sin(e)/h radians
 * a second. Flat earth: good from a few degrees above the horizon.
 */
export function cloudStreak(motion: CloudMotion, screen: Screen): CloudStreak {
  const { windMetresPerSecond, heightMetres, elevationDegrees, seconds } = motion;
  const radiansPerSecond = (windMetresPerSecond * Math.sin(radians(elevationDegrees))) / heightMetres;
  const degreesPerSecond = degrees(radiansPerSecond);
  const sweptDegrees = degreesPerSecond * seconds;
  return { ...onSensor(screen.focal * radiansPerSecond * seconds, screen), degreesPerSecond, sweptDegrees };
}

function onSensor(millimetres: number, { pitchMicrometres, sideMillimetres }: Screen): Streak {
  const pixels = (millimetres * 1000) / pitchMicrometres;
  return { millimetres, pixels, share: millimetres / sideMillimetres };
}
