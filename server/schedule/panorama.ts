import { type Panorama, panorama } from '../optics/panorama.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { Gear } from './gear.ts';

/** The panorama of a shot with a `sweep`; undefined without one, or while focal length or sensor is not known. */
export function shotPanorama(shot: Shot, gear: Gear): Panorama | undefined {
  const { focalMillimetres: focal, sensor } = gear;
  if (shot.sweep === undefined || focal === undefined || sensor === undefined) return undefined;
  const overlap = Math.min(shot.overlap?.value ?? 0.3, 0.9);
  return panorama({ focal, sensor }, { horizontalDegrees: Math.abs(shot.sweep.value) }, overlap);
}

/** How many frames stand side by side: one without a panorama. */
export function panoramaColumns(shot: Shot, gear: Gear): number {
  return shotPanorama(shot, gear)?.columns ?? 1;
}
