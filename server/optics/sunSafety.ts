import type { Camera } from './view.ts';

/**
 * From this focal length on, as on 36 × 24 mm, the image of the sun is large and hot enough to harm sensor and shutter
 * within moments. Common practice, no source.
 */
export const burningMillimetres = 100;

/** The focal length that gives the same field of view on 36 × 24 mm, by the diagonal; millimetres. */
export function equivalentFocal({ focal, sensor }: Pick<Camera, 'focal' | 'sensor'>): number {
  return (focal * Math.hypot(36, 24)) / Math.hypot(sensor.width, sensor.height);
}

/** Whether the sun in the frame harms sensor and shutter. */
export function burns(camera: Camera): boolean {
  return equivalentFocal(camera) >= burningMillimetres;
}
