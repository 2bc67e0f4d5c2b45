import type { Analysis } from '../../analysis.ts';
import { formatDuration } from '../../quantities/duration.ts';
import { formatStops } from '../../quantities/stops.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import {
  bracketBeyondStops,
  type SceneRange,
  type SceneWay,
  sceneRange,
  shotBracket,
  wayWithFilter,
} from '../../schedule/scene.ts';
import { type PartOfScene, type SceneEstimate, sceneLight } from '../../schedule/sceneLight.ts';
import { figures, paragraphs } from '../markdown.ts';
import { altitudeText, decimal, threeFigures } from '../numbers.ts';
import { settingText } from '../wording.ts';
import { lightWorking } from './light.ts';
import type { HoverKind } from './scene.ts';

/** The values of `scene`: what the body holds of it, and the graduated filter or bracket that holds the rest. */
export const sceneHover: HoverKind = ({ mark, shot, spot, analysis }) =>
  mark.section.name === 'scene' && shot !== undefined ? sceneText(shot, spot, analysis) : undefined;

/** The same for any place in the text. Undefined while a part of it cannot be read. */
export function sceneText(
  shot: DayShot,
  spot: DaySpot | undefined,
  { thresholds, memory }: Pick<Analysis, 'thresholds' | 'memory'>,
): string | undefined {
  const range = sceneRange(shot, spot?.at, thresholds, memory.sky);
  // With a stated range the estimate says nothing of it, but is worth knowing.
  const light = range?.light ?? sceneLight(shot, spot?.at, thresholds, memory.sky);
  if (range === undefined) return whyNot(shot);
  const estimate = light?.estimate;
  return paragraphs(
    headline(range),
    figures([
      ['scene', workingText(shot, range)],
      ['sky', light === undefined ? undefined : partText(light.sky, estimate, skyWorking)],
      ['foreground', light === undefined ? undefined : partText(light.foreground, estimate, groundWorking)],
      [
        'body holds',
        range.bodyStops === undefined ? undefined : `${formatStops(range.bodyStops)} usable, by the kit`,
      ],
      [
        'graduated filter',
        graduatedText(shot, range, wayWithFilter(range, thresholds['strongest-graduated'])),
      ],
      ['bracket', bracketText(shot, range)],
    ]),
    'Strength = difference − what the sky keeps (`keep`, one stop when left out); frames = 1 + ceil((scene − range) / step). Common practice, no source.',
    estimate === undefined ? undefined : estimateNote(estimate),
    estimate === undefined || shot.light?.expected === undefined
      ? undefined
      : lightWorking(shot.light.expected, { skyPart: true }),
  );
}

/** Why neither range nor estimate can be said; undefined where a broken line says it already. */
function whyNot({ shot, light }: DayShot): string | undefined {
  if (shot.scene === undefined || shot.scene.self.broken.size > 0 || shot.self.broken.size > 0)
    return undefined;
  if (light !== undefined && light.expected === undefined) return undefined;
  const why =
    light === undefined
      ? 'start or place is not known'
      : light.sun.altitudeDegrees < -6
        ? 'it is too dark'
        : 'no sky is in the frame';
  return `Sky and foreground cannot be estimated: ${why}. Write \`sky\` and \`foreground\` as metered, or \`range\`.`;
}

function headline({ sceneStops, spreadStops, bodyStops, graduatedStops, missingStops }: SceneRange): string {
  const spans =
    spreadStops > 0
      ? `about ${decimal(sceneStops, 1)} ± ${decimal(spreadStops, 1)} stops**, estimated`
      : `${formatStops(sceneStops)}**`;
  const scene = `**The scene spans ${spans}`;
  if (bodyStops === undefined || missingStops === undefined)
    return `${scene}; the kit does not say what the body holds.`;
  const mounted = graduatedStops > 0 ? ` with the ${formatStops(graduatedStops)} that is mounted` : '';
  return missingStops > 0
    ? `${scene}, ${formatStops(missingStops)} more than one frame holds${mounted}.`
    : `${scene}; one frame holds it${mounted}.`;
}

function workingText(
  { shot }: DayShot,
  { sceneStops, spreadStops, skyOverForegroundStops, light }: SceneRange,
): string {
  if (skyOverForegroundStops === undefined || light === undefined)
    return `${formatStops(sceneStops)}, as written`;
  const { sky, foreground } = light;
  const stated = shot.scene?.range === undefined ? '' : `; in all ${formatStops(sceneStops)}, as written`;
  const spread = spreadStops > 0 ? ` ± ${decimal(spreadStops, 1)}` : '';
  return `sky − foreground: \`EV ${decimal(sky.ev100, 1)} − EV ${decimal(foreground.ev100, 1)}\` = ${spread === '' ? formatStops(skyOverForegroundStops) : `${decimal(skyOverForegroundStops, 1)}${spread} stops`}${stated}`;
}

/** A reading, or an estimate with its ± and its working. */
function partText(
  { ev100, spreadStops }: PartOfScene,
  estimate: SceneEstimate | undefined,
  working: (estimate: SceneEstimate) => string,
): string {
  if (spreadStops === undefined || estimate === undefined) return `EV ${decimal(ev100, 1)}, metered`;
  return `about EV ${decimal(ev100, 1)} ± ${decimal(spreadStops, 1)}, estimated: ${working(estimate)}`;
}

function skyWorking({
  skyLux,
  skyLuminance,
  skyAltitudeDegrees,
  azimuthFromSunDegrees,
  facingKnown,
}: SceneEstimate) {
  const from = facingKnown
    ? `${decimal(azimuthFromSunDegrees)}° from the sun on the compass`
    : '90° from the sun, as `facing` is not known';
  return `${threeFigures(skyLux)} lx from the sky make ${threeFigures(skyLuminance)} cd/m² at ${altitudeText(skyAltitudeDegrees)}, ${from}; \`log2(${threeFigures(skyLuminance)} × 100 / 12.5)\``;
}

function groundWorking({ groundLux, reflectance, foregroundLuminance }: SceneEstimate): string {
  return `\`${decimal(reflectance, 2)} × ${threeFigures(groundLux)} lx / π\` = ${threeFigures(foregroundLuminance)} cd/m²; \`log2(${threeFigures(foregroundLuminance)} × 100 / 12.5)\``;
}

function estimateNote({ cloudShare }: SceneEstimate): string {
  return `The estimate takes the light that is expected, ${decimal(cloudShare * 100)} % of the sky as overcast and the rest as clear (ISO 15469, K = 12.5 by ISO 2720), and ground that throws back the share \`foreground-reflectance\` (Lambert). Its ± is common practice, no source. Meter both on the spot.`;
}

function graduatedText(shot: DayShot, range: SceneRange, way: SceneWay | undefined): string | undefined {
  const { wantedGraduatedStops: wanted, skyOverForegroundStops: difference, keepStops, bodyStops } = range;
  if (wanted === undefined) return undefined;
  if (wanted <= 0) return 'none needed';
  const working =
    difference === undefined
      ? `${decimal(range.sceneStops, 1)} − ${decimal(bodyStops ?? 0, 1)}`
      : `${decimal(difference, 1)} − ${decimal(keepStops, 1)}`;
  const spread = range.spreadStops > 0 ? ` ± ${decimal(range.spreadStops, 1)}` : '';
  const strength = spread === '' ? `**${formatStops(wanted)}**` : `**${decimal(wanted, 1)}${spread} stops**`;
  const capped = way?.strongest === true ? `, of which ${formatStops(way.graduatedStops)} are to be had` : '';
  const left = way === undefined || way.frames < 2 ? '' : `; it leaves ${way.frames} frames`;
  return `\`${working}\` = ${strength}${capped}${left}, ${edgeText(shot)}`;
}

/** The edge that suits the horizon. */
function edgeText({ shot, light }: DayShot): string {
  const low = light?.sunUp === true && light.sun.apparentAltitudeDegrees < 5;
  if (low && light.direction?.sunInFrame === true) return 'reverse edge: the sun stands on the horizon';
  const horizon = shot.scene?.horizon?.value;
  if (horizon === 'straight') return 'hard or soft edge: the horizon is straight';
  if (horizon === 'broken') return 'soft edge: a hard one darkens what stands up into the sky';
  return 'the edge by the shape of the horizon (`horizon`)';
}

function bracketText(shot: DayShot, range: SceneRange): string | undefined {
  const { framesNeeded: frames, bodyStops, stepStops, sceneStops, graduatedStops } = range;
  if (frames === undefined || bodyStops === undefined || frames > 99) return undefined;
  if (frames === 1) return 'not needed: one frame';
  const left = decimal(Math.max(sceneStops - graduatedStops, 0), 1);
  const found = shotBracket(shot, { frames, stepStops });
  const beyond =
    found !== undefined && bracketBeyondStops(found) > 0 ? '; the longest is more than the body can' : '';
  const times =
    found === undefined
      ? ''
      : `: ${found.frames.map(({ setting }) => settingText(setting)).join(', ')}; ${formatDuration(found.totalSeconds)} in all${beyond}`;
  return `\`1 + ceil((${left} − ${decimal(bodyStops, 1)}) / ${decimal(stepStops, 1)})\` = **${frames} frames**${times}`;
}
