import { timeText } from '../../exposure/time-text.ts';
import type { Streak } from '../../optics/motion.ts';
import type { PlanModel } from '../../plan/fields.ts';
import { type Effect, effects } from '../../plan/shotFields.ts';
import { formatStops } from '../../quantities/stops.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import { effectTable, lookAt, waterOf } from '../../schedule/effects.ts';
import { shotCloudStreak, shotStreak } from '../../schedule/motion.ts';
import { averagedFrames, shotRange } from '../../schedule/solutions.ts';
import { code, figures, paragraphs } from '../markdown.ts';
import { decimal, threeFigures } from '../numbers.ts';
import { effectScale, rangeText } from '../pictures/effectScale.ts';
import { settingText } from '../wording.ts';
import { facingText } from './facing.ts';
import type { HoverKind } from './scene.ts';
import { starRows } from './star.ts';
import { waysText } from './ways.ts';

/** How the water shall look: which shutter times give that, and where the planned one lies. */
export const effectHover: HoverKind = (scene) => {
  const { analysis, mark, shot, spot } = scene;
  if (mark.name !== 'effect' || mark.section.name !== 'shot') return undefined;
  const name = shot?.shot.effect?.value;
  if (shot === undefined || spot === undefined || name === undefined || analysis.plan === undefined)
    return undefined;
  const plan = analysis.plan.model;
  const kind = waterOf(shot.shot, spot.spot)?.kind?.value;
  const range = shotRange(shot.shot, spot.spot, plan);
  const seconds = shot.exposure?.setting.seconds;
  const doc = effects.find(({ value }) => value === (name as Effect))?.doc;
  const within =
    range !== undefined &&
    seconds !== undefined &&
    seconds >= range.shortest / grace &&
    seconds <= range.longest * grace;
  const look =
    seconds === undefined || within || !looks.has(name) ? undefined : lookAt(seconds, kind, plan, name);
  return paragraphs(
    `**${name}**: ${doc ?? ''}`,
    range === undefined ? undefined : effectScale(name, range, seconds),
    figures([
      ['shutter times', range === undefined ? undefined : `${rangeText(range)}${onWater(name, kind)}`],
      ['planned', seconds === undefined ? undefined : plannedText(shot, seconds, range)],
      ['water will look', look],
      ['streak', looks.has(name) ? streakText(shot, spot.spot) : undefined],
      ...(name.startsWith('star') ? starRows(scene, shot, spot) : []),
      ['clouds', name === 'cloud streaks' ? cloudText(shot, spot, plan) : undefined],
      ['people', name === 'cleared of people' && seconds !== undefined ? peopleText(seconds) : undefined],
    ]),
    waysText(scene, shot, spot),
    'The times are common practice, no source: tastes differ, and so does water. A plan can set its own under `effects`.',
    shot.shot.facing === undefined && shot.facing !== undefined ? facingText(scene, spot, shot) : undefined,
  );
};

/** Of which water the times hold; stars, clouds and people do not ask. */
function onWater(effect: string, kind: string | undefined): string {
  if (!effectTable.some((row) => row.effect === effect && row.water !== undefined)) return '';
  return kind === undefined ? ', any water' : ` on ${kind === 'sea' ? 'the sea' : `a ${kind}`}`;
}

/** A dial's 30 s keeps 32 s: a tenth of a stop beyond a range is within it. */
const grace = 2 ** 0.1;

/** The looks of moving water. */
const looks: ReadonlySet<string> = new Set(['frozen', 'textured', 'silky', 'mist']);

function plannedText(
  shot: DayShot,
  oneSeconds: number,
  range: { readonly shortest: number; readonly longest: number } | undefined,
): string {
  const { exposure } = shot;
  const frames = range === undefined || oneSeconds >= range.shortest / grace ? 1 : averagedFrames(shot);
  // Of more frames than the effect needs, as many are averaged as it takes.
  const seconds = Math.min(oneSeconds * frames, Math.max(oneSeconds, range?.longest ?? oneSeconds));
  const one = exposure === undefined ? timeText(oneSeconds) : settingText(exposure.setting);
  const setting = frames > 1 ? `${frames} × ${one} = ${timeText(oneSeconds * frames)}, averaged` : one;
  const about = exposure?.basis === 'expected' ? 'about ' : '';
  if (range === undefined) return `${about}${setting}`;
  if (seconds < range.shortest / grace) {
    return `${about}${setting}: ${formatStops(Math.log2(range.shortest / seconds))} too short`;
  }
  if (seconds > range.longest * grace) {
    return `${about}${setting}: ${formatStops(Math.log2(seconds / range.longest))} too long`;
  }
  return `${about}${setting}: within`;
}

/** How far the water runs over the sensor meanwhile, where speed and distance are known. */
function streakText(shot: DayShot, spot: DaySpot['spot']): string | undefined {
  const found = shotStreak(shot, spot);
  const focal = shot.gear.focalMillimetres;
  if (found === undefined || focal === undefined) return undefined;
  const working = `${decimal(focal, 0)} mm × ${decimal(found.speedMetresPerSecond, 2)} m/s × ${timeText(found.seconds)} / ${decimal(found.distanceMetres, 1)} m`;
  return `${code(working, { inTable: true })} = ${runText(found)}`;
}

function runText({ millimetres, pixels, share }: Streak): string {
  const ofFrame =
    share > 1
      ? `${decimal(share, 1)} times the width of the frame`
      : `${decimal(100 * share, 1)} % of the width`;
  return `${threeFigures(millimetres)} mm, ${threeFigures(pixels)} pixels, ${ofFrame}`;
}

/** How far the clouds run meanwhile, by the forecast's wind aloft and cloud base. */
function cloudText(shot: DayShot, { at }: DaySpot, plan: PlanModel): string | undefined {
  const found = shotCloudStreak(shot, at, plan);
  if (found === undefined) return undefined;
  return `about ${runText(found)}, if they cross the view ${decimal(found.elevationDegrees)}° up with ${decimal(found.windMetresPerSecond * 3.6)} km/h at ${decimal(found.heightMetres)} m`;
}

/** Who stands still for this share of an exposure is taken for gone. Common practice, no source. */
const unseenShare = 0.1;

/** How long somebody may stand still. What is black hides a share of the light behind it: log2(1 / (1 − share)) stops. */
function peopleText(seconds: number): string {
  const darker = Math.log2(1 / (1 - unseenShare));
  return `whoever stands still for up to ${timeText(unseenShare * seconds)}, a tenth of it, darkens what is behind by at most ${decimal(darker, 2)} stop; bright clothes and lamps show sooner`;
}
