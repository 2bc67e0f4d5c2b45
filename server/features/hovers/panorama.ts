import { fieldOfView } from '../../optics/view.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import { lightOptions } from '../../schedule/light.ts';
import { shotPanorama } from '../../schedule/panorama.ts';
import { lightAt } from '../../sky/light.ts';
import { figures, paragraphs } from '../markdown.ts';
import { decimal, lastingText, stopsDifference } from '../numbers.ts';
import type { HoverKind, Scene } from './scene.ts';

/** A panorama, on its sweep or overlap: how many frames, how far apart, how long, and what the light does meanwhile. */
export const panoramaHover: HoverKind = (scene) => {
  const { mark, shot, spot } = scene;
  if (mark.section.name !== 'shot' || (mark.name !== 'sweep' && mark.name !== 'overlap')) return undefined;
  return shot === undefined ? undefined : panoramaText(scene, shot, spot);
};

/** The same for any place in the text. Undefined while focal length or sensor is not known. */
export function panoramaText(
  { analysis }: Pick<Scene, 'analysis'>,
  day: DayShot,
  spot: DaySpot | undefined,
): string | undefined {
  const { shot, gear } = day;
  const found = shotPanorama(shot, gear);
  if (found === undefined || gear.focalMillimetres === undefined || gear.sensor === undefined)
    return undefined;
  const sweep = Math.abs(shot.sweep?.value ?? 0);
  const overlap = Math.min(shot.overlap?.value ?? 0.3, 0.9);
  const field = fieldOfView(gear.focalMillimetres, gear.sensor).horizontalDegrees;
  const widest = `(${decimal(field, 1)}° × (1 − ${decimal(overlap, 2)}))`;
  const working =
    sweep >= 360
      ? `ceil(360° / ${widest})`
      : `1 + ceil((${decimal(sweep)}° − ${decimal(field, 1)}°) / ${widest})`;
  return paragraphs(
    `**${found.columns} ${found.columns === 1 ? 'frame' : 'frames'}** side by side${found.columns === 1 ? ': one covers it' : `, ${decimal(found.stepDegrees, 1)}° from one to the next`}.`,
    figures([
      ['frames', found.columns === 1 ? undefined : `\`${working}\` = ${found.columns}`],
      ['takes', takesText(day, found.columns)],
      ['light meanwhile', changeText(analysis, day, spot, found.columns)],
    ]),
    'Level camera, rectilinear lens, evenly spread; an overlap of 30 % is common practice, no source. Set exposure and focus by hand, and turn about the entrance pupil where something is near.',
  );
}

/** To turn the camera and let it come to rest. Common practice, no source. */
const turnSeconds = 5;

/** Turning takes time where the plan gives no `gap` for it. */
function turningSeconds({ shot, frames }: DayShot, columns: number): number {
  return frames === undefined || shot.gap !== undefined ? 0 : (columns - 1) * turnSeconds;
}

function takesText(day: DayShot, columns: number): string | undefined {
  const { frames, shot } = day;
  if (frames === undefined) return undefined;
  const exposures = frames.frames * frames.exposures.length;
  const count = exposures === 1 ? 'one exposure' : `${exposures} exposures`;
  const turning = turningSeconds(day, columns);
  if (turning === 0) {
    const gaps = shot.gap === undefined ? '' : ', gaps as written';
    return `${lastingText(frames.totalSeconds)} for ${count}${gaps}`;
  }
  return `${lastingText(frames.totalSeconds)} for ${count}, and \`${columns - 1} × ${turnSeconds} s\` = ${lastingText(turning)} to turn (common practice, no source; set \`gap\` to your own): about **${lastingText(frames.totalSeconds + turning)}**`;
}

/** How the light changes from the first frame to the last, by the light model. */
function changeText(
  { plan }: Scene['analysis'],
  day: DayShot,
  spot: DaySpot | undefined,
  columns: number,
): string | undefined {
  const { startMs, endMs } = day;
  if (startMs === undefined || endMs === undefined || spot?.at === undefined || plan === undefined)
    return undefined;
  const ev = lightAt(spot.at.place, lightOptions(startMs, spot.at, plan.model));
  const change = ev(endMs + 1000 * turningSeconds(day, columns)) - ev(startMs);
  return Math.abs(change) < 0.05
    ? 'stays as it is'
    : `about ${stopsDifference(change)} from first to last frame (estimate)`;
}
