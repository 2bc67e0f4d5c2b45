import type { Screen } from '../optics/motion.ts';
import { pixelPitch } from '../optics/view.ts';
import type { Gear } from './gear.ts';

/** The distance between the centres of two pixels in micrometres; undefined while sensor or pixels are not known. */
export function pitchOf({ body }: Gear): number | undefined {
  const width = body?.sensor?.value.widthMillimetres;
  const pixels = body?.pixels?.value.width;
  return width === undefined || pixels === undefined ? undefined : pixelPitch(width, pixels);
}

/** The sensor of a shot as something moves across it; undefined while focal length, sensor or pixels are not known. */
export function screenOf(gear: Gear): Screen | undefined {
  const { focalMillimetres: focal, sensor } = gear;
  const pitchMicrometres = pitchOf(gear);
  if (focal === undefined || sensor === undefined || pitchMicrometres === undefined) return undefined;
  return { focal, pitchMicrometres, sideMillimetres: sensor.width };
}
