import { timeText } from '../../exposure/time-text.ts';
import { cloudStreak, type Screen, type Streak, streak } from '../../optics/motion.ts';
import { pixelPitch } from '../../optics/view.ts';
import type { PlanModel } from '../../plan/fields.ts';
import { type Effect, effects } from '../../plan/shotFields.ts';
import { formatStops } from '../../quantities/stops.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import { effectRange, effectTable, lookAt, waterOf } from '../../schedule/effects.ts';
import { forecastAt } from '../../schedule/light.ts';
import { code, figures, paragraphs } from '../markdown.ts';
import { decimal } from '../numbers.ts';
import { effectScale, rangeText } from '../pictures/effectScale.ts';
import { settingText } from '../wording.ts';
import { facingText } from './facing.ts';
import type { HoverKind } from './scene.ts';
import { starRows } from './star.ts';

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
      ['shutter times', range === undefined ? undefined : `${rangeText(range)}${onWater(name, kind)}`],
      ['planned', seconds === undefined ? undefined : plannedText(shot, seconds, range)],
      ['water will look', look === undefined || look === name || name === 'mirror' ? undefined : look],
      ['streak', streakText(shot, spot.spot, seconds)],
      ...(name.startsWith('star') ? starRows(shot, spot) : []),
      ['clouds', name === 'cloud streaks' ? cloudText(shot, spot, plan) : undefined],
    ]),
    range === undefined ? undefined : effectScale(name, range, seconds),
    'The times are common practice, no source: tastes differ, and so does water. A plan can set its own under `effects`.',
    shot.shot.facing === undefined && shot.facing !== undefined ? facingText(scene, spot, shot) : undefined,
  );
};

/** Of which water the times hold; stars, clouds and people do not ask. */
function onWater(effect: string, kind: string | undefined): string {
  if (!effectTable.some((row) => row.effect === effect && row.water !== undefined)) return '';
  return kind === undefined ? ', any water' : ` on ${kind === 'sea' ? 'the sea' : `a ${kind}`}`;
}

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

/** The sensor of a shot as something moves over it; undefined while focal length, sensor or pixels are not known. */
function screenOf({ gear }: DayShot): Screen | undefined {
  const { focalMillimetres: focal, sensor, body } = gear;
  const pixels = body?.pixels?.value;
  if (focal === undefined || sensor === undefined || pixels === undefined) return undefined;
  const pitchMicrometres = pixelPitch(
    Math.max(sensor.width, sensor.height),
    Math.max(pixels.width, pixels.height),
  );
  return { focal, pitchMicrometres, sideMillimetres: sensor.width };
}

/** How far the water runs over the sensor meanwhile, where speed and distance are known. */
function streakText(shot: DayShot, spot: DaySpot['spot'], seconds: number | undefined): string | undefined {
  const water = waterOf(shot.shot, spot);
  const speed = water?.speed?.value;
  const distance = water?.distance?.value;
  const screen = screenOf(shot);
  if (speed === undefined || distance === undefined || screen === undefined || seconds === undefined)
    return undefined;
  if (distance <= 0) return undefined;
  const found = streak({ speedMetresPerSecond: speed, distanceMetres: distance, seconds }, screen);
  const working = `${decimal(screen.focal, 0)} mm × ${decimal(speed, 2)} m/s × ${timeText(seconds)} / ${decimal(distance, 1)} m`;
  return `${code(working, { inTable: true })} = ${runText(found)}`;
}

function runText({ millimetres, pixels, share }: Streak): string {
  return `${decimal(millimetres, 2)} mm, ${decimal(pixels)} pixels, ${decimal(100 * share, 1)} % of the width`;
}

/** How far the clouds run meanwhile, by the forecast's wind aloft and cloud base. */
function cloudText(shot: DayShot, { at }: DaySpot, plan: PlanModel): string | undefined {
  const seconds = shot.exposure?.setting.seconds;
  const screen = screenOf(shot);
  if (at === undefined || shot.startMs === undefined || seconds === undefined || screen === undefined)
    return undefined;
  const hour = forecastAt(shot.startMs, at, plan);
  const wind = hour?.windAloft?.value;
  const height = hour?.cloudBase?.value;
  if (wind === undefined || height === undefined || height <= 0) return undefined;
  const found = cloudStreak(
    { windMetresPerSecond: wind, heightMetres: height, elevationDegrees: cloudElevation, seconds },
    screen,
  );
  return `about ${runText(found)}, if they cross the view ${cloudElevation}° up with ${decimal(wind * 3.6)} km/h at ${decimal(height)} m`;
}

/** How high above the horizon a usual frame shows its clouds. Common practice, no source. */
const cloudElevation = 20;
