import { timeText } from '../../exposure/time-text.ts';
import { angleBetween } from '../../optics/sphere.ts';
import { fiveHundredSeconds, trailArcDegrees } from '../../optics/stars.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import { clockText } from '../../schedule/localTime.ts';
import type { Memory } from '../../schedule/memory.ts';
import {
  moonDuring,
  type StarLimits,
  type Stretch,
  shotMoon,
  starLimits,
  trailArc,
} from '../../schedule/stars.ts';
import { phaseName } from '../../sky/moonPhase.ts';
import { altitudeText, bearingText, decimal } from '../numbers.ts';
import type { Scene } from './scene.ts';

type Rows = readonly (readonly [string, string | undefined])[];

/** How long stars stay points in a frame, by geometry and by two customs; of trails which gaps do not show; how far they turn; the moon among them. */
export function starRows({ analysis }: Pick<Scene, 'analysis'>, shot: DayShot, { at }: DaySpot): Rows {
  const limits = starLimits(shot, at, analysis.memory.sky);
  return [
    ['turn of the sky', turnText(shot)],
    ...(limits === undefined
      ? []
      : shot.shot.effect?.value === 'star trails'
        ? gapRows(limits, shot)
        : limitRows(limits, shot)),
    ['moon', moonText(shot, at)],
    ['moon meanwhile', meanwhileText(shot, at, analysis.memory.sky)],
  ];
}

/** How far every star turns about the pole: in one frame, and in all of them. */
function turnText(shot: DayShot): string | undefined {
  const seconds = shot.exposure?.setting.seconds;
  if (seconds === undefined) return undefined;
  const arc = trailArc(shot);
  const all =
    arc === undefined || (shot.frames?.frames ?? 1) < 2 ? '' : `; ${decimal(arc, 2)}° in all frames`;
  return `15.04° an hour: ${decimal(trailArcDegrees(seconds), 2)}° in ${timeText(seconds)}${all}`;
}

/** Trails want no points; between their frames the shutter may stay closed while stars move by less than shows. */
function gapRows({ pixelSeconds }: StarLimits, { frames }: DayShot): Rows {
  if ((frames?.frames ?? 1) < 2) return [];
  return [
    ['gaps', `do not show up to ${timeText(pixelSeconds)}, in which the fastest star moves by one pixel`],
  ];
}

function limitRows(limits: StarLimits, { gear }: DayShot): Rows {
  const { declinations, declination, pixels, pixelSeconds, npfSeconds, strictSeconds } = limits;
  const { focalMillimetres: focal, sensor } = gear;
  const where =
    declinations === undefined
      ? 'at declination 0°, where stars move fastest'
      : `at declination ${altitudeText(declination)}, the fastest in the frame (${altitudeText(declinations.lowest)} to ${altitudeText(declinations.highest)})`;
  const moves = pixels === undefined ? '' : `; planned: ${decimal(pixels, 1)} pixels`;
  const crop = sensor === undefined ? 1 : Math.hypot(36, 24) / Math.hypot(sensor.width, sensor.height);
  return [
    ['one pixel', `${timeText(pixelSeconds)} ${where}: geometry${moves}`],
    [
      'points by the NPF rule',
      npfSeconds === undefined || strictSeconds === undefined
        ? undefined
        : `up to about ${timeText(npfSeconds)}, for the strictest eye ${timeText(strictSeconds)}; custom, coefficients from memory`,
    ],
    [
      'by the rule of 500',
      focal === undefined
        ? undefined
        : `\`500 / (${decimal(crop, 2)} × ${decimal(focal)})\` = about ${timeText(fiveHundredSeconds(focal, crop))}, for small prints; custom`,
    ],
  ];
}

function moonText(shot: DayShot, at: DaySpot['at']): string | undefined {
  const moon = shotMoon(shot, at);
  if (moon === undefined) return undefined;
  const phase = `${phaseName(moon.elongationDegrees)}, ${decimal(100 * moon.illuminatedFraction)} % lit`;
  if (!moon.up) return `down; ${phase}`;
  const target = { azimuth: moon.azimuthDegrees, altitude: moon.apparentAltitudeDegrees };
  const { facing } = shot;
  const apart =
    facing === undefined
      ? ''
      : `, ${decimal(angleBetween(target, { azimuth: facing.degrees, altitude: facing.tiltDegrees }))}° from the lens axis`;
  const where = moon.behindSkyline
    ? ', behind the skyline'
    : moon.inFrame === true
      ? ', **in the frame**'
      : '';
  return `up at ${bearingText(moon.azimuthDegrees)}, ${altitudeText(moon.apparentAltitudeDegrees)}${apart}${where}; ${phase}`;
}

/** What the moon does later in the shot; undefined where it stays as it is at the start. */
function meanwhileText(shot: DayShot, at: DaySpot['at'], memory: Memory): string | undefined {
  const { startMs, endMs } = shot;
  const during = moonDuring(shot, at, memory);
  if (at === undefined || during === undefined || startMs === undefined || endMs === undefined)
    return undefined;
  const time = (instantMs: number) => clockText(instantMs, at.clock, at.date);
  const part = (what: string, stretch: Stretch | undefined) =>
    stretch === undefined || (stretch.fromMs === startMs && stretch.toMs === endMs)
      ? undefined
      : `${what} from ${time(stretch.fromMs)} to ${time(stretch.toMs)}`;
  const parts = [part('up', during.seen), part('**in the frame**', during.inFrame)].filter(
    (text) => text !== undefined,
  );
  return parts.length === 0 ? undefined : parts.join(', ');
}
