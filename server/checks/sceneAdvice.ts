import type { Checkable } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { formatStops } from '../quantities/stops.ts';
import {
  bracketBeyondStops,
  framesWith,
  graduatedOf,
  type SceneRange,
  type SceneWay,
  sceneRange,
  shotBracket,
} from '../schedule/scene.ts';
import { filterFits } from '../schedule/solutions.ts';
import type { Fact } from '../text/finding.ts';
import { settingName } from './figures.ts';
import { mend } from './mends.ts';
import { mendShot } from './shotEdits.ts';
import type { ShotOfDay } from './shots.ts';

/** A difference this small is within every meter's error. */
export const unnoticedStops = 0.1;

/** The scene of a shot against its body. */
export function rangeOf({ thresholds, memory }: Checkable, shot: ShotOfDay): SceneRange | undefined {
  return sceneRange(shot, shot.visit.at, thresholds, memory.sky);
}

/** `The scene spans 17 stops`, with what is estimated and what a filter takes off. */
export function sceneText({ sceneStops, spreadStops, graduatedStops, light }: SceneRange): string {
  const graded = graduatedStops > 0 ? ` less ${formatStops(graduatedStops)} of graduated filter` : '';
  if (spreadStops === 0 || light === undefined) return `The scene spans ${formatStops(sceneStops)}${graded}`;
  const ev = ({ ev100, spreadStops: spread }: typeof light.sky) =>
    `EV ${ev100.toFixed(1)}${spread === undefined ? '' : ', estimated'}`;
  return `The scene spans about ${sceneStops.toFixed(1)} ± ${spreadStops.toFixed(1)} stops (sky ${ev(light.sky)}; foreground ${ev(light.foreground)})${graded}`;
}

/** What the ways come to, as advice: `Take a graduated filter of 4 stops; or 6 frames 1 stop apart: ...` */
export function advice(shot: ShotOfDay, range: SceneRange, ways: readonly (SceneWay | undefined)[]): string {
  const texts = ways.filter((way) => way !== undefined).map((way) => wayText(shot, range, way));
  return texts.length === 0 ? '' : ` Take ${texts.join('; or ')}.`;
}

function wayText(shot: ShotOfDay, range: SceneRange, way: SceneWay): string {
  const { graduatedStops: mounted, wantedGraduatedStops: wanted, skyOverForegroundStops: difference } = range;
  const filter =
    way.graduatedStops <= mounted
      ? ''
      : `a graduated filter of ${formatStops(way.graduatedStops)}${mounted > 0 ? ' in all' : ''}`;
  const asWanted = difference !== undefined && way.graduatedStops === wanted;
  const note = way.strongest
    ? ', the strongest to be had'
    : asWanted
      ? `, which keeps the sky ${formatStops(range.keepStops)} brighter`
      : '';
  if (way.frames === 1) return `${filter}${note}`;
  if (way.frames === shot.shot.bracket?.frames?.value) return `${filter}${note} with this bracket`;
  const frames = framesText(shot, range, way.frames);
  return filter === '' ? frames : `${filter}${note}, and ${frames}`;
}

/** The frames and their times, and what stands in their way. */
function framesText(shot: ShotOfDay, range: SceneRange, frames: number): string {
  const { stepStops } = range;
  const apart = `${frames} frames ${formatStops(stepStops)} apart`;
  const found = shotBracket(shot, { frames, stepStops });
  if (found === undefined) return apart;
  const beyond = bracketBeyondStops(found);
  const longest = found.frames.at(-1)?.wantedSeconds ?? 0;
  if (beyond > 0) {
    return `${apart}, of which the longest would take ${formatDuration(Math.round(longest))}, longer than the body can: expose ${formatStops(Math.ceil(beyond * 3) / 3)} less first, by less filter, a wider aperture or a higher ISO`;
  }
  const times = found.frames.map(({ setting }) => settingName(setting)).join(', ');
  return `${apart}: ${times}, ${formatDuration(Math.max(found.totalSeconds, 1))} in all`;
}

/** Whether the body can set all frames of a bracket; true as well while the exposure is not known. */
function canSet(shot: ShotOfDay, frames: number, stepStops: number): boolean {
  const found = shotBracket(shot, { frames, stepStops });
  return found === undefined || bracketBeyondStops(found) === 0;
}

/** A bracket of so many frames, written in place; undefined where the body cannot set it. */
export function bracketMend(
  analysis: Checkable,
  shot: ShotOfDay,
  { stepStops }: SceneRange,
  frames: number | undefined,
): Fact | undefined {
  if (frames === undefined || frames < 2 || !canSet(shot, frames, stepStops)) return undefined;
  const title = `Bracket ${frames} frames`;
  const { bracket, self } = shot.shot;
  const written = bracket?.frames;
  if (written === undefined) {
    return mendShot(analysis, shot.shot, title, { bracket: bracketValue(frames, stepStops) });
  }
  // Only the number changes. What stands elsewhere, behind an alias, is left alone.
  const key = self.keys.get('bracket');
  const inPlace =
    written.uri === analysis.uri &&
    key !== undefined &&
    written.span.start >= key.end &&
    written.span.end <= self.span.end;
  return inPlace ? mend(title, written, String(frames)) : undefined;
}

function bracketValue(frames: number, stepStops: number): string {
  return `{ frames: ${frames}, step: ${formatStops(stepStops)} }`;
}

/**
 * The graduated filter of the kit that mends most: nearest to what is wanted, not above it by more than a stop, not too
 * hard for the horizon, and stronger than what is mounted. What it leaves goes to frames: those of the shot's bracket,
 * else new ones.
 */
export function filterMend(
  analysis: Checkable,
  shot: ShotOfDay,
  range: SceneRange,
  wantedStops: number | undefined,
): Fact | undefined {
  const { bag } = analysis;
  const broken = shot.shot.scene?.horizon?.value === 'broken';
  if (wantedStops === undefined) return undefined;
  let best: { readonly id: string; readonly stops: number } | undefined;
  for (const [id, filter] of bag.filters) {
    const stops = filter.id === undefined ? 0 : graduatedOf({ use: filter.id, filter });
    if (stops <= range.graduatedStops || !filterFits(filter, shot.gear, bag)) continue;
    if (stops > wantedStops + 1 || (broken && filter.edge?.value === 'hard')) continue;
    const off = Math.abs(stops - wantedStops);
    if (best === undefined || off < Math.abs(best.stops - wantedStops)) best = { id, stops };
  }
  const frames = best === undefined ? undefined : framesWith(range, best.stops);
  if (best === undefined || frames === undefined) return undefined;
  const { bracket } = shot.shot;
  if (bracket !== undefined && (bracket.frames?.value ?? 1) < frames) return undefined;
  if (frames >= (range.framesNeeded ?? frames + 1)) return undefined;
  const kept = shot.gear.filters.filter(({ filter }) => filter.kind?.value !== 'graduated');
  const filters = `[${[...kept.map(({ use }) => use.value), best.id].join(', ')}]`;
  if (bracket !== undefined || frames === 1)
    return mendShot(analysis, shot.shot, `Use ${best.id}`, { filters });
  if (!canSet(shot, frames, range.stepStops)) return undefined;
  return mendShot(analysis, shot.shot, `Use ${best.id} and bracket ${frames} frames`, {
    filters,
    bracket: bracketValue(frames, range.stepStops),
  });
}
