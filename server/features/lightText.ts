import type { ShotLight } from '../schedule/light.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { type BodyPosition, moonPosition } from '../sky/bodies.ts';
import { altitudeText, bearingText } from './numbers.ts';

/** `side-lit, sun 098° +12°`; below civil twilight the moon instead: `sun −18°, moon 232° +4°`. */
export function lightText(
  { atMs, sun, sunUp, sunBehindSkyline, overcast, direction }: ShotLight,
  { place }: SpotPlace,
): string {
  if (sun.altitudeDegrees < -6) {
    return `sun ${altitudeText(sun.altitudeDegrees)}, ${moonText(moonPosition(atMs, place))}`;
  }
  const where = `${bearingText(sun.azimuthDegrees)} ${altitudeText(sun.apparentAltitudeDegrees)}`;
  if (!sunUp) return `sun down, ${bearingText(sun.azimuthDegrees)} ${altitudeText(sun.altitudeDegrees)}`;
  if (sunBehindSkyline) return `sun behind skyline, ${where}`;
  if (overcast) return `overcast, sun ${where}`;
  return `${direction?.kind ?? 'light'}, sun ${direction?.sunInFrame === true ? 'in frame ' : ''}${where}`;
}

function moonText({ azimuthDegrees, apparentAltitudeDegrees }: BodyPosition): string {
  return apparentAltitudeDegrees < 0
    ? 'no moon'
    : `moon ${bearingText(azimuthDegrees)} ${altitudeText(apparentAltitudeDegrees)}`;
}
