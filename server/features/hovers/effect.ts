import { markingGraceStops } from '../../exposure/dial.ts';
import { timeText } from '../../exposure/time-text.ts';
import type { Streak } from '../../optics/motion.ts';
import type { PlanModel } from '../../plan/fields.ts';
import { type Effect, effects } from '../../plan/shotFields.ts';
import { formatStops } from '../../quantities/stops.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import {
  type EffectRange,
  effectTable,
  isLookOfWater,
  isWithin,
  lookAt,
  stopsOutside,
  waterOf,
} from '../../schedule/effects.ts';
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
  const planned = plannedTime(shot, range);
  const doc = effects.find(({ value }) => value === (name as Effect))?.doc;
  const within = range !== undefined && seconds !== undefined && isWithin(seconds, range);
  const look =
    seconds === undefined || range === undefined || within || !isLookOfWater(name)
      ? undefined
      : lookAt(seconds, kind, plan, name);
  return paragraphs(
    `**${name}**: ${doc ?? ''}`,
    range === undefined ? undefined : effectScale(name, range, planned),
    figures([
      ['shutter times', range === undefined ? undefined : `${rangeText(range)}${onWater(name, kind)}`],
      ['planned', planned === undefined ? undefined : plannedText(planned, range)],
      ['water will look', look],
      ['streak', isLookOfWater(name) ? streakText(shot, spot.spot) : undefined],
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

/** The planned time as the effect counts it, and how it is told: by the names on the dial. */
interface Planned {
  readonly seconds: number;
  readonly text: string;
}

/** Star trails are as long as all frames together, gaps and all; frames that are averaged count together too. */
function plannedTime(shot: DayShot, range: EffectRange | undefined): Planned | undefined {
  const { exposure, frames } = shot;
  if (exposure === undefined) return undefined;
  const one = exposure.setting.seconds;
  const about = exposure.basis === 'expected' ? 'about ' : '';
  const name = settingText(exposure.setting);
  const count = frames?.frames ?? 1;
  if (frames !== undefined && count > 1 && shot.shot.effect?.value === 'star trails') {
    const gaps = frames.totalSeconds > frames.openSeconds * 1.001 ? ' with gaps' : '';
    return {
      seconds: frames.totalSeconds,
      text: `${about}${count} × ${name} = ${timeText(frames.totalSeconds)}${gaps}`,
    };
  }
  const averaged =
    range === undefined || stopsOutside(one, range) >= -markingGraceStops ? 1 : averagedFrames(shot);
  if (averaged === 1) return { seconds: one, text: `${about}${name}` };
  return {
    // Of more frames than the effect needs, as many are averaged as it takes.
    seconds: Math.min(one * averaged, Math.max(one, range?.longest ?? one)),
    text: `${about}${averaged} × ${name} = ${timeText(one * averaged)}, averaged`,
  };
}

function plannedText({ seconds, text }: Planned, range: EffectRange | undefined): string {
  if (range === undefined) return text;
  if (isWithin(seconds, range)) return `${text}: within`;
  const off = stopsOutside(seconds, range);
  return `${text}: ${formatStops(Math.abs(off))} too ${off < 0 ? 'short' : 'long'}`;
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
  const run = `${threeFigures(millimetres)} mm`;
  return share > 1
    ? `${run}, through the whole frame: ${decimal(share, 1)} times its width`
    : `${run}, ${threeFigures(pixels)} pixels, ${decimal(100 * share, 1)} % of the width`;
}

/** Wind and base of clouds in a forecast are off by so much and more. Common practice, no source. */
const forecastDoubt = 'wind and base as forecast, so ± half';

/** How far the clouds run meanwhile, by the forecast's wind aloft and cloud base; the formula is one of small angles. */
function cloudText(shot: DayShot, { at }: DaySpot, plan: PlanModel): string | undefined {
  const found = shotCloudStreak(shot, at, plan);
  const focal = shot.gear.focalMillimetres;
  const seconds = shot.exposure?.setting.seconds;
  if (found === undefined || focal === undefined || seconds === undefined) return undefined;
  const { windMetresPerSecond, heightMetres, elevationDegrees, share } = found;
  const rate = `${decimal(focal)} mm × ${decimal(windMetresPerSecond, 1)} m/s × sin ${decimal(elevationDegrees)}° / ${decimal(heightMetres)} m`;
  const condition = `by the geometry of a flat layer, if they cross the view ${decimal(elevationDegrees)}° up; ${forecastDoubt} (common practice, no source)`;
  if (share > 1) {
    const speed = (found.millimetres / seconds) * 60;
    return `through the whole frame, in about ${timeText(Number((seconds / share).toPrecision(2)))}: \`${rate} × 60 s\` = ${threeFigures(speed)} mm a minute, ${condition}`;
  }
  return `\`${rate} × ${timeText(seconds)}\` = about ${runText(found)}, ${condition}`;
}

/** Who stands still for this share of an exposure is taken for gone. Common practice, no source. */
const unseenShare = 0.1;

/** How long somebody may stand still. What is black hides a share of the light behind it: log2(1 / (1 − share)) stops. */
function peopleText(seconds: number): string {
  const darker = Math.log2(1 / (1 - unseenShare));
  return `whoever stands still for up to ${timeText(unseenShare * seconds)}, a tenth of it, darkens what is behind by at most ${decimal(darker, 2)} stop; bright clothes and lamps show sooner`;
}
