import {
  angleBetween,
  combine,
  type Direction,
  degrees,
  directionOf,
  dot,
  radians,
  type Vector,
  vectorOf,
} from './sphere.ts';

/** The size of a sensor or film frame in millimetres, as it is held: width along the horizon. */
export interface Sensor {
  readonly width: number;
  readonly height: number;
}

/** A level camera: facing and tilt of the lens axis in degrees (tilt up is positive), focal length in millimetres. */
export interface Camera {
  readonly facing: number;
  readonly tilt: number;
  readonly focal: number;
  readonly sensor: Sensor;
}

/** A place in the frame as a share of its width and height from the middle: x to the right, y up, ±0.5 at the edges. */
export interface FramePoint {
  readonly x: number;
  readonly y: number;
}

export interface FieldOfView {
  readonly horizontalDegrees: number;
  readonly verticalDegrees: number;
  readonly diagonalDegrees: number;
}

/** The sensor of a camera that is turned on its side. */
export function turned({ width, height }: Sensor): Sensor {
  return { width: height, height: width };
}

/**
 * The angle of view of a rectilinear lens focused at infinity: 2·atan(d / 2f).
 * Source: central projection; S. F. Ray, Applied Photographic Optics.
 */
export function fieldOfView(focal: number, { width, height }: Sensor): FieldOfView {
  const across = (millimetres: number) => 2 * degrees(Math.atan(millimetres / (2 * focal)));
  return {
    horizontalDegrees: across(width),
    verticalDegrees: across(height),
    diagonalDegrees: across(Math.hypot(width, height)),
  };
}

/** Where a target falls in the frame. */
export interface Projection {
  /** The point, inside the frame or beyond it; null for a target beside or behind the camera, which has no image. */
  readonly point: FramePoint | null;
  readonly inFrame: boolean;
  /** From the lens axis, 0° to 180°. */
  readonly angleFromAxisDegrees: number;
}

/** Where a direction falls in the frame of a level camera with a rectilinear lens (central projection). */
export function projectToFrame(target: Direction, camera: Camera): Projection {
  const point = pointInFrame(vectorOf(target), axesOf(camera), camera);
  const angleFromAxisDegrees = angleBetween(target, { azimuth: camera.facing, altitude: camera.tilt });
  return { point, inFrame: point !== null && isInFrame(point), angleFromAxisDegrees };
}

/** The same for a line of sight, a vector, and the axes of the camera. */
export function pointInFrame(sight: Vector, axes: Axes, { focal, sensor }: Camera): FramePoint | null {
  const [right, up, forward] = axes;
  const depth = dot(sight, forward);
  if (depth <= 1e-12) return null;
  return {
    x: (focal * dot(sight, right)) / depth / sensor.width,
    y: (focal * dot(sight, up)) / depth / sensor.height,
  };
}

export function isInFrame({ x, y }: FramePoint): boolean {
  return Math.abs(x) <= 0.5 && Math.abs(y) <= 0.5;
}

/** The direction in which a point of the frame looks: the inverse of `projectToFrame`. */
export function directionInFrame({ x, y }: FramePoint, camera: Camera): Direction {
  const parts: Vector = [x * camera.sensor.width, y * camera.sensor.height, camera.focal];
  return directionOf(combine(axesOf(camera), parts));
}

/**
 * The height in the frame at which the horizontal lies, at the middle of the frame's width, as a share from the middle:
 * above 0.5 or below −0.5 the horizon is outside. ±Infinity when the camera looks straight down or up.
 */
export function horizonInFrame({ tilt, focal, sensor }: Camera): number {
  if (Math.abs(tilt) >= 90) return tilt > 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  return (-focal * Math.tan(radians(tilt))) / sensor.height;
}

type Axes = readonly [Vector, Vector, Vector];

/** The axes of the camera as unit vectors: to the right, to the top of the frame, along the lens axis. */
export function axesOf({ facing, tilt }: Camera): Axes {
  return [
    vectorOf({ azimuth: facing + 90, altitude: 0 }),
    vectorOf({ azimuth: facing, altitude: tilt + 90 }),
    vectorOf({ azimuth: facing, altitude: tilt }),
  ];
}

/** The distance between the centres of two pixels in micrometres, from the width in millimetres. */
export function pixelPitch(widthMillimetres: number, pixelsAcross: number): number {
  return (widthMillimetres * 1000) / pixelsAcross;
}

/** How many pixels an angle covers in the middle of the frame: 2·f·tan(a/2) / pitch. Focal in mm, pitch in micrometres. */
export function pixelsAcross(angleDegrees: number, focal: number, pitchMicrometres: number): number {
  return (2 * focal * Math.tan(radians(angleDegrees) / 2) * 1000) / pitchMicrometres;
}

export interface SubjectInFrame {
  readonly angleDegrees: number;
  readonly millimetres: number;
  /** Of the side of the sensor that was given. */
  readonly share: number;
  readonly pixels: number;
}

/**
 * How large a subject stands in the frame: its image is focal · size / distance, for distances much longer than the lens
 * (similar triangles). Size and distance in metres; `side` is the side of the sensor along it, in millimetres and pixels.
 */
export function subjectInFrame(
  subject: { readonly sizeMetres: number; readonly distanceMetres: number },
  focal: number,
  side: { readonly millimetres: number; readonly pixels: number },
): SubjectInFrame {
  const millimetres = (focal * subject.sizeMetres) / subject.distanceMetres;
  const share = millimetres / side.millimetres;
  const angleDegrees = 2 * degrees(Math.atan(subject.sizeMetres / (2 * subject.distanceMetres)));
  return { angleDegrees, millimetres, share, pixels: share * side.pixels };
}
