import { type Camera, fieldOfView } from './view.ts';

/** A panorama of level rows; angles in degrees. */
export interface Panorama {
  readonly columns: number;
  readonly rows: number;
  readonly frames: number;
  /** From one frame to the next, chosen so that the frames just cover the span. */
  readonly stepDegrees: number;
  readonly rowStepDegrees: number;
}

/**
 * How many frames cover a span, neighbours overlapping by at least a share (0.3 is common practice, no source). Each frame
 * counts with its angle of view; a span of 360° must join at its ends, so it needs one overlap more.
 */
export function panorama(
  camera: Pick<Camera, 'focal' | 'sensor'>,
  span: { readonly horizontalDegrees: number; readonly verticalDegrees?: number },
  overlap = 0.3,
): Panorama {
  const field = fieldOfView(camera.focal, camera.sensor);
  const across = strip(field.horizontalDegrees, span.horizontalDegrees, overlap);
  const up = strip(field.verticalDegrees, span.verticalDegrees ?? 0, overlap);
  return {
    columns: across.frames,
    rows: up.frames,
    frames: across.frames * up.frames,
    stepDegrees: across.stepDegrees,
    rowStepDegrees: up.stepDegrees,
  };
}

/** The angle that a row of frames covers. */
export function panoramaSpan(frames: number, fieldDegrees: number, overlap = 0.3): number {
  return Math.min(fieldDegrees * (1 + (frames - 1) * (1 - overlap)), 360);
}

function strip(field: number, span: number, overlap: number): { frames: number; stepDegrees: number } {
  const widest = field * (1 - overlap);
  if (span >= 360) {
    const frames = Math.ceil(360 / widest - 1e-9);
    return { frames, stepDegrees: 360 / frames };
  }
  if (span <= field) return { frames: 1, stepDegrees: 0 };
  const frames = 1 + Math.ceil((span - field) / widest - 1e-9);
  return { frames, stepDegrees: (span - field) / (frames - 1) };
}
