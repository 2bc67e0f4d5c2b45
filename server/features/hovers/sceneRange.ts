import { formatDuration } from '../../quantities/duration.ts';
import { formatStops } from '../../quantities/stops.ts';
import type { DayShot } from '../../schedule/day.ts';
import { type SceneRange, sceneRange, shotBracket } from '../../schedule/scene.ts';
import { figures, paragraphs } from '../markdown.ts';
import { decimal } from '../numbers.ts';
import { settingText } from '../wording.ts';
import type { HoverKind } from './scene.ts';

/** The values of `scene`: what the body holds of it, and the graduated filter or bracket that holds the rest. */
export const sceneHover: HoverKind = ({ mark, shot }) =>
  mark.section.name === 'scene' && shot !== undefined ? sceneText(shot) : undefined;

/** The same for any place in the text. Undefined without a scene that says how bright it is. */
export function sceneText(shot: DayShot): string | undefined {
  const range = sceneRange(shot);
  if (range === undefined) return undefined;
  return paragraphs(
    headline(range),
    figures([
      ['scene', workingText(shot, range)],
      [
        'body holds',
        range.bodyStops === undefined ? undefined : `${formatStops(range.bodyStops)} usable, by the kit`,
      ],
      ['graduated filter', graduatedText(shot, range)],
      ['bracket', bracketText(shot, range)],
    ]),
    'Strength = difference − what the sky keeps (`keep`, one stop when left out); frames = 1 + ceil((scene − range) / step). Common practice, no source.',
  );
}

function headline({ sceneStops, bodyStops, graduatedStops, missingStops }: SceneRange): string {
  const scene = `**The scene spans ${formatStops(sceneStops)}**`;
  if (bodyStops === undefined || missingStops === undefined)
    return `${scene}; the kit does not say what the body holds.`;
  const mounted = graduatedStops > 0 ? ` with the ${formatStops(graduatedStops)} that is mounted` : '';
  return missingStops > 0
    ? `${scene}, ${formatStops(missingStops)} more than one frame holds${mounted}.`
    : `${scene}; one frame holds it${mounted}.`;
}

function workingText({ shot }: DayShot, { sceneStops, skyOverForegroundStops }: SceneRange): string {
  const sky = shot.scene?.sky?.value;
  const foreground = shot.scene?.foreground?.value;
  if (skyOverForegroundStops === undefined || sky === undefined || foreground === undefined)
    return `${formatStops(sceneStops)}, as written`;
  const stated = shot.scene?.range === undefined ? '' : `; in all ${formatStops(sceneStops)}, as written`;
  return `sky − foreground: \`EV ${decimal(sky, 1)} − EV ${decimal(foreground, 1)}\` = ${formatStops(skyOverForegroundStops)}${stated}`;
}

function graduatedText(shot: DayShot, range: SceneRange): string | undefined {
  const { wantedGraduatedStops: wanted, skyOverForegroundStops: difference, keepStops, bodyStops } = range;
  if (wanted === undefined) return undefined;
  if (wanted <= 0) return 'none needed';
  const working =
    difference === undefined
      ? `${decimal(range.sceneStops, 1)} − ${decimal(bodyStops ?? 0, 1)}`
      : `${decimal(difference, 1)} − ${decimal(keepStops, 1)}`;
  return `\`${working}\` = **${formatStops(wanted)}**, ${edgeText(shot)}`;
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
  const times =
    found === undefined
      ? ''
      : `: ${found.frames.map(({ setting }) => settingText(setting)).join(', ')}; ${formatDuration(found.totalSeconds)} in all`;
  return `\`1 + ceil((${left} − ${decimal(bodyStops, 1)}) / ${decimal(stepStops, 1)})\` = **${frames} frames**${times}`;
}
