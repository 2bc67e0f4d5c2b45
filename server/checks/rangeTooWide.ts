import type { Checkable, Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { formatStops } from '../quantities/stops.ts';
import { graduatedOf, type SceneRange, sceneRange, shotBracket } from '../schedule/scene.ts';
import { filterFits } from '../schedule/solutions.ts';
import type { Fact } from '../text/finding.ts';
import { settingName } from './figures.ts';
import { mendFixes } from './mends.ts';
import { also, headOf } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/** A difference this small is within every meter's error. */
const unnoticedStops = 0.1;

/**
 * A scene that one frame does not hold: scene − graduated filter > usable range of the body, all in stops. A graduated
 * filter of difference − keep (one stop) mends it, or a bracket of 1 + ceil((scene − range) / step) frames, spread
 * evenly about the middle. Definitions of the project; the stop that stays is common practice, no source.
 */
export const rangeTooWide: Rule = {
  code: 'filter/range-too-wide',
  severity: 'warning',
  doc: 'The scene spans more stops than the body can hold in one frame, so that highlights clip or shadows drown. Take a graduated filter of the difference less one stop where the horizon allows it, or a bracket; the message gives strength, number of frames and times. It needs `scene` in the shot and `range` in the kit.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const scene = shot.shot.scene;
      const range = sceneRange(shot);
      if (scene === undefined || range?.missingStops === undefined || range.bodyStops === undefined) continue;
      if (range.missingStops <= unnoticedStops || shot.shot.bracket !== undefined) continue;
      const place = scene.range ?? scene.sky ?? headOf(scene);
      const graded =
        range.graduatedStops > 0 ? ` less ${formatStops(range.graduatedStops)} of graduated filter` : '';
      report(
        place,
        `The scene spans ${formatStops(range.sceneStops)}${graded}, the body holds ${formatStops(range.bodyStops)}: ${formatStops(range.missingStops)} too many. ${advice(shot, range)}`,
        {
          related: also(shot.gear.body?.range, 'What the body holds.'),
          facts: {
            sceneStops: range.sceneStops,
            bodyStops: range.bodyStops,
            missingStops: range.missingStops,
            graduatedStops: range.wantedGraduatedStops ?? null,
            frames: range.framesNeeded ?? null,
            mends: mends(analysis, shot, range),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

/** The filter that would do, and the bracket with its times. */
export function advice(shot: ShotOfDay, range: SceneRange): string {
  const { wantedGraduatedStops: strength, framesNeeded: frames, stepStops, keepStops } = range;
  const keeps =
    range.skyOverForegroundStops === undefined
      ? ''
      : `, which keeps the sky ${formatStops(keepStops)} brighter`;
  const filter =
    strength === undefined || strength <= 0
      ? ''
      : `Take a graduated filter of ${formatStops(strength)}${keeps}`;
  const found = frames === undefined ? undefined : shotBracket(shot, { frames, stepStops });
  const times =
    found === undefined
      ? ''
      : `: ${found.frames.map(({ setting }) => settingName(setting)).join(', ')}, ${formatDuration(Math.max(found.totalSeconds, 1))} in all`;
  const bracket = frames === undefined ? '' : `${frames} frames ${formatStops(stepStops)} apart${times}`;
  if (filter === '' || bracket === '') return `${filter === '' ? `Take ${bracket}` : filter}.`;
  return `${filter}; or ${bracket}.`;
}

function mends(analysis: Checkable, shot: ShotOfDay, range: SceneRange): readonly Fact[] {
  const { framesNeeded: frames, stepStops, wantedGraduatedStops: strength } = range;
  const bracket =
    frames === undefined
      ? undefined
      : mendShot(analysis, shot.shot, `Bracket ${frames} frames`, {
          bracket: `{ frames: ${frames}, step: ${formatStops(stepStops)} }`,
        });
  return written([strength === undefined ? undefined : graduated(analysis, shot, strength), bracket]);
}

/** The graduated filter of the kit that comes nearest, where it is within a stop and is not too hard for the horizon. */
function graduated(analysis: Checkable, shot: ShotOfDay, strength: number): Fact | undefined {
  const { bag } = analysis;
  const broken = shot.shot.scene?.horizon?.value === 'broken';
  let best: { readonly id: string; readonly off: number } | undefined;
  for (const [id, filter] of bag.filters) {
    const stops = filter.id === undefined ? 0 : graduatedOf({ use: filter.id, filter });
    if (stops === 0 || !filterFits(filter, shot.gear, bag)) continue;
    if (broken && filter.edge?.value === 'hard') continue;
    const off = Math.abs(stops - strength);
    if (off <= 1 && (best === undefined || off < best.off)) best = { id, off };
  }
  if (best === undefined) return undefined;
  const kept = shot.gear.filters.filter(({ filter }) => filter.kind?.value !== 'graduated');
  const ids = [...kept.map(({ use }) => use.value), best.id];
  return mendShot(analysis, shot.shot, `Use ${best.id}`, { filters: `[${ids.join(', ')}]` });
}
