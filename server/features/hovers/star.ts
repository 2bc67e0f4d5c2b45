import { exactFNumber } from '../../exposure/dial.ts';
import { timeText } from '../../exposure/time-text.ts';
import {
  declinationsInFrame,
  fiveHundredSeconds,
  npfSeconds,
  pixelSeconds,
  trailArcDegrees,
} from '../../optics/stars.ts';
import { pixelPitch } from '../../optics/view.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import { altitudeText, decimal } from '../numbers.ts';

/** How long stars stay points in a frame, by three rules; for trails, how far they turn. */
export function starRows(
  { gear, exposure, light }: DayShot,
  { at }: DaySpot,
): readonly (readonly [string, string | undefined])[] {
  const { focalMillimetres: focal, fNumber, body, sensor } = gear;
  const pixels = body?.pixels?.value;
  const seconds = exposure?.setting.seconds;
  const turn: readonly [string, string | undefined] = [
    'turn of the sky',
    seconds === undefined
      ? undefined
      : `15.04° an hour: ${decimal(trailArcDegrees(seconds), 2)}° in ${timeText(seconds)}`,
  ];
  if (focal === undefined || sensor === undefined || pixels === undefined) return [turn];
  const side = Math.max(sensor.width, sensor.height);
  const pitchMicrometres = pixelPitch(side, Math.max(pixels.width, pixels.height));
  const range =
    light?.camera === undefined || at === undefined
      ? undefined
      : (declinationsInFrame(light.camera, at.place.latitude) ?? undefined);
  const view = { focal, pitchMicrometres, ...(range === undefined ? {} : { declination: range.fastest }) };
  const where =
    range === undefined
      ? 'at declination 0°'
      : `at declination ${altitudeText(range.fastest)}, the fastest in the frame`;
  const crop = Math.hypot(36, 24) / Math.hypot(sensor.width, sensor.height);
  return [
    turn,
    ['one pixel', `${timeText(pixelSeconds(view))} ${where}`],
    [
      'points by the NPF rule',
      fNumber === undefined ? undefined : `up to about ${timeText(npfSeconds(view, exactFNumber(fNumber)))}`,
    ],
    [
      'by the rule of 500',
      `\`500 / (${decimal(crop, 2)} × ${decimal(focal)})\` = about ${timeText(fiveHundredSeconds(focal, crop))}, for small prints`,
    ],
  ];
}
