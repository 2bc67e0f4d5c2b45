import { angleBetween, signedDegrees } from './sphere.ts';
import { projectToFrame, type Sensor } from './view.ts';

/** All in degrees: azimuths clockwise from true north, altitude and tilt up from the horizontal. */
export interface LightDirectionInput {
  readonly sunAzimuth: number;
  readonly sunAltitude: number;
  readonly facing: number;
  readonly tilt: number;
  /** Focal length in millimetres; with the sensor, it tells whether the sun stands in the frame. */
  readonly focal?: number | undefined;
  readonly sensor?: Sensor | undefined;
}

export interface LightDirection {
  /** From the lens axis to the sun, in three dimensions, 0° to 180°. */
  readonly angleFromAxisDegrees: number;
  readonly kind: 'front-lit' | 'side-lit' | 'back-lit';
  /** Where the sun stands as the photographer looks: ahead and behind mean within 5° of that line on the compass. */
  readonly side: 'left' | 'right' | 'ahead' | 'behind';
  /** From the facing to the sun on the compass, −180° to 180°, to the right positive. */
  readonly bearingFromFacingDegrees: number;
  /** From the lens axis to the antisolar point, where the camera's own shadow falls and rainbows have their centre. */
  readonly antisolarDegrees: number;
  /** Whether the middle of the sun's disc stands in the frame; only where focal length and sensor were given. */
  readonly sunInFrame?: boolean;
}

/** Front-lit: the sun more than this far from the lens axis. Common practice, no source. */
export const frontLitFromDegrees = 135;
/** Back-lit: the sun less than this far from the lens axis. Common practice, no source. */
export const backLitToDegrees = 45;

const straightLine = 5;

/**
 * How the sun lights what the camera faces. Front-lit means a sun behind the camera. The sun's altitude is used as given,
 * below the horizon too: whether it shines at all is for the caller to say.
 */
export function lightDirection(input: LightDirectionInput): LightDirection {
  const { sunAzimuth, sunAltitude, facing, tilt, focal, sensor } = input;
  const sun = { azimuth: sunAzimuth, altitude: sunAltitude };
  const angleFromAxisDegrees = angleBetween(sun, { azimuth: facing, altitude: tilt });
  const bearingFromFacingDegrees = signedDegrees(sunAzimuth - facing);
  const framed =
    focal === undefined || sensor === undefined
      ? undefined
      : projectToFrame(sun, { facing, tilt, focal, sensor }).inFrame;
  const direction: LightDirection = {
    angleFromAxisDegrees,
    kind: kindOf(angleFromAxisDegrees),
    side: sideOf(bearingFromFacingDegrees),
    bearingFromFacingDegrees,
    antisolarDegrees: 180 - angleFromAxisDegrees,
  };
  return framed === undefined ? direction : { ...direction, sunInFrame: framed };
}

function kindOf(angleFromAxis: number): LightDirection['kind'] {
  if (angleFromAxis > frontLitFromDegrees) return 'front-lit';
  return angleFromAxis < backLitToDegrees ? 'back-lit' : 'side-lit';
}

function sideOf(bearingFromFacing: number): LightDirection['side'] {
  const off = Math.abs(bearingFromFacing);
  if (off < straightLine) return 'ahead';
  if (off > 180 - straightLine) return 'behind';
  return bearingFromFacing < 0 ? 'left' : 'right';
}
