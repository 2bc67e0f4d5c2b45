import type { Solution } from '../../exposure/solver.ts';
import { timeText } from '../../exposure/time-text.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import { shotSolutions } from '../../schedule/solutions.ts';
import { code, paragraphs, table } from '../markdown.ts';
import { decimal, spreadText } from '../numbers.ts';
import { settingText } from '../wording.ts';
import type { Scene } from './scene.ts';

/** More ways than this are not read in passing. */
const shown = 3;

/** The best ways to the times of a shot's effect with what is in the bag. Undefined where nothing can be said. */
export function waysText(
  { analysis }: Pick<Scene, 'analysis'>,
  shot: DayShot,
  { spot }: DaySpot,
): string | undefined {
  const { plan, bag, memory } = analysis;
  if (plan === undefined) return undefined;
  const found = shotSolutions(shot, spot, plan.model, bag, memory.sky).slice(0, shown);
  const [first] = found;
  if (first === undefined) return undefined;
  return paragraphs(
    first.kind === 'averaging'
      ? 'No single exposure with what is in the bag gets there; several shorter ones, averaged, do:'
      : 'Ways to it with what is in the bag, the fewest changes first:',
    table(
      ['filters', 'aperture', 'ISO', 'set'],
      found.map((way) => [filtersText(way), `f/${way.fNumber}`, decimal(way.iso), setText(way)]),
      ['left', 'right', 'right', 'left'],
    ),
  );
}

function filtersText({ filters }: Solution): string {
  return filters.length === 0 ? 'none' : filters.map((id) => code(id, { inTable: true })).join(' + ');
}

function setText({ kind, frames, seconds, setting, spreadStops, averagingStops }: Solution): string {
  const spread = spreadText(spreadStops);
  const one = `${settingText(setting)}${spread === undefined ? '' : ` ${spread}`}`;
  if (kind === 'single') return one;
  return `${frames} × ${one}: ${timeText(frames * seconds)} together, as ${decimal(averagingStops, 1)} stops more`;
}
