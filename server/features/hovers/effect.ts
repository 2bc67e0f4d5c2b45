import { timeText } from '../../exposure/time-text.ts';
import { streak } from '../../optics/motion.ts';
import { pixelPitch } from '../../optics/view.ts';
import { type Effect, effects } from '../../plan/shotFields.ts';
import { formatStops } from '../../quantities/stops.ts';
import type { DayShot } from '../../schedule/day.ts';
import { effectRange, lookAt, waterOf } from '../../schedule/effects.ts';
import { code, figures, paragraphs } from '../markdown.ts';
import { decimal } from '../numbers.ts';
import { effectScale, rangeText } from '../pictures/effectScale.ts';
import { settingText } from '../wording.ts';
import { facingText } from './facing.ts';
import type { HoverKind } from './scene.ts';

/** How the water shall look: which shutter times give that, and where the planned one lies. */
export const effectHover: HoverKind = (scene) => {
  const { analysis, mark, shot, spot } = scene;
  if (mark.name !== 'effect' || mark.section.name !== 'shot') return undefined;
  const name = shot?.shot.effect?.value;
  if (shot === undefined || spot === undefined || name === undefined || analysis.plan === undefined)
    return undefined;
  const plan = analysis.plan.model;
  const kind = waterOf(shot.shot, spot.spot)?.kind?.value;
  const range = effectRange(name, kind, plan);
  const seconds = shot.exposure?.setting.seconds;
  const doc = effects.find(({ value }) => value === (name as Effect))?.doc;
  const look = seconds === undefined ? undefined : lookAt(seconds, kind, plan);
  return paragraphs(
    `**${name}**: ${doc ?? ''}`,
    figures([
      [
        'shutter times',
        range === undefined
          ? undefined
          : `${rangeText(range)}${kind === undefined ? ', any water' : ` on a ${kind}`}`,
      ],
      ['planned', seconds === undefined ? undefined : plannedText(shot, seconds, range)],
      ['water will look', look === undefined || look === name ? undefined : look],
      ['streak', streakText(shot, spot.spot, seconds)],
    ]),
    range === undefined ? undefined : effectScale(name, range, seconds),
    'The times are common practice, no source: tastes differ, and so does water. A plan can set its own under `effects`.',
    shot.shot.facing === undefined && shot.facing !== undefined ? facingText(scene, spot, shot) : undefined,
  );
};

function plannedText(
  { exposure }: DayShot,
  seconds: number,
  range: { readonly shortest: number; readonly longest: number } | undefined,
): string {
  const setting = exposure === undefined ? timeText(seconds) : settingText(exposure.setting);
  const about = exposure?.basis === 'expected' ? 'about ' : '';
  if (range === undefined) return `${about}${setting}`;
  if (seconds < range.shortest) {
    return `${about}${setting}: ${formatStops(Math.log2(range.shortest / seconds))} too short`;
  }
  if (seconds > range.longest) {
    return `${about}${setting}: ${formatStops(Math.log2(seconds / range.longest))} too long`;
  }
  return `${about}${setting}: within`;
}

/** How far the water runs over the sensor meanwhile, where speed and distance are known. */
function streakText(
  shot: DayShot,
  spot: Parameters<typeof waterOf>[1],
  seconds: number | undefined,
): string | undefined {
  const water = waterOf(shot.shot, spot);
  const speed = water?.speed?.value;
  const distance = water?.distance?.value;
  const { focalMillimetres: focal, sensor, body } = shot.gear;
  const pixels = body?.pixels?.value;
  if (speed === undefined || distance === undefined || focal === undefined || sensor === undefined)
    return undefined;
  if (pixels === undefined || seconds === undefined || distance <= 0) return undefined;
  const pitch = pixelPitch(Math.max(sensor.width, sensor.height), Math.max(pixels.width, pixels.height));
  const found = streak(
    { speedMetresPerSecond: speed, distanceMetres: distance, seconds },
    { focal, pitchMicrometres: pitch, sideMillimetres: sensor.width },
  );
  const working = `${decimal(focal, 0)} mm × ${decimal(speed, 2)} m/s × ${timeText(seconds)} / ${decimal(distance, 1)} m`;
  return `${code(working, { inTable: true })} = ${decimal(found.millimetres, 2)} mm, ${decimal(found.pixels)} pixels, ${decimal(100 * found.share, 1)} % of the width`;
}
