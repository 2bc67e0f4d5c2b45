import type { Analysis } from '../../analysis.ts';
import { shotEdits } from '../../checks/shotEdits.ts';
import { filteredExposure } from '../../exposure/exposure.ts';
import { type FilterInStack, stackStops } from '../../exposure/stack.ts';
import { formatShutter } from '../../quantities/shutter.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import { readOrExpectedExposure } from '../../schedule/frames.ts';
import { type Gear, stackPart } from '../../schedule/gear.ts';
import { filterFits, shotSolutions } from '../../schedule/solutions.ts';
import type { Edit } from '../../text/edit.ts';
import { settingText } from '../wording.ts';
import type { Step } from './climb.ts';

/** A shot around the cursor. */
export interface ShotHere {
  readonly shot: DayShot;
  readonly spot: DaySpot;
}

/** The shot that a path leads into: the last one that begins before the cursor, if it begins behind the item's dash. */
export function shotAt(analysis: Analysis, path: readonly Step[], offset: number): ShotHere | undefined {
  const list = path.findIndex((step) => step.kind === 'key' && step.name === 'shots');
  const item = path[list + 1];
  if (list < 0 || item?.kind !== 'item') return undefined;
  let found: ShotHere | undefined;
  for (const spot of analysis.day?.spots ?? []) {
    for (const shot of spot.shots) {
      const { start } = shot.shot.self.span;
      if (shot.shot.self.uri === analysis.uri && start >= item.at && start <= offset) found = { shot, spot };
    }
  }
  return found;
}

/** The shot as it would be with other filters: those of the kit with these ids. Undefined when one has no known strength. */
function withFilters({ shot }: ShotHere, analysis: Analysis, ids: readonly string[]): DayShot | undefined {
  const uses = ids.map((id) => analysis.bag.filters.get(id));
  const parts = uses.map((filter) => (filter === undefined ? undefined : stackPart(filter)));
  if (parts.some((part) => part === undefined)) return undefined;
  const filters = uses.flatMap((filter) => {
    const use = filter?.id;
    return filter === undefined || use === undefined ? [] : [{ use, filter }];
  });
  const gear: Gear = {
    ...shot.gear,
    filters,
    filtersKnown: true,
    stack: stackStops(parts as FilterInStack[]),
  };
  const exposure = readOrExpectedExposure(shot.shot, gear, shot.light?.expected);
  return exposure === undefined ? undefined : { ...shot, gear, exposure };
}

/** Whether a filter of the kit can be mounted on the lens of a shot. */
export function canBeMounted({ shot }: ShotHere, { bag }: Analysis, id: string): boolean {
  const filter = bag.filters.get(id);
  return filter === undefined || filterFits(filter, shot.gear, bag);
}

/** The shutter time with these filters on the lens: `42 s bulb`, with `about` in front where it is only expected. */
export function timeWith(here: ShotHere, analysis: Analysis, ids: readonly string[]): string | undefined {
  const exposure = withFilters(here, analysis, ids)?.exposure;
  if (exposure?.input === undefined) return undefined;
  const { correctedSeconds, setting } = filteredExposure(exposure.input);
  const shown = Number.isFinite(correctedSeconds) ? settingText(setting) : formatShutter(correctedSeconds);
  return exposure.basis === 'expected' ? `about ${shown}` : shown;
}

/** A whole stack that gives the effect of the shot. */
export interface StackProposal {
  readonly ids: readonly string[];
  /** `pol, nd6 at f/16 for silky`: what else has to change, and what it is for. */
  readonly label: string;
  readonly detail: string;
  /** The changes of aperture and speed, and of the reading that was taken at the old ones. */
  readonly additional: readonly Edit[];
}

/** Stacks of the kit's filters that bring the time into the range of the shot's effect, the best first. */
export function stackProposals(
  here: ShotHere,
  analysis: Analysis,
  mounted: readonly string[],
): readonly StackProposal[] {
  const { plan, bag, memory } = analysis;
  const known = mounted.filter((id) => bag.filters.has(id));
  const shot = withFilters(here, analysis, known);
  if (plan === undefined || shot === undefined) return [];
  const { aperture, iso, effect } = shot.shot;
  const solutions = shotSolutions(shot, here.spot.spot, plan.model, bag, memory.sky);
  return solutions.flatMap((solution): readonly StackProposal[] => {
    if (solution.kind !== 'single' || solution.filters.length === 0) return [];
    const otherAperture = solution.fNumber !== shot.exposure?.input?.fNumber;
    const otherIso = solution.iso !== shot.gear.iso;
    // A key that is not written cannot be changed along with the filters.
    if ((otherAperture && aperture === undefined) || (otherIso && iso === undefined)) return [];
    const additional = shotEdits(analysis, shot.shot, {
      ...(otherAperture ? { aperture: `f/${solution.fNumber}` } : {}),
      ...(otherIso ? { iso: String(solution.iso) } : {}),
    });
    if (additional === undefined) return [];
    const changes = [
      ...(otherAperture ? [`f/${solution.fNumber}`] : []),
      ...(otherIso ? [`ISO ${solution.iso}`] : []),
    ];
    const at = changes.length === 0 ? '' : ` at ${changes.join(', ')}`;
    return [
      {
        ids: solution.filters,
        label: `${solution.filters.join(', ')}${at} for ${effect?.value ?? 'the effect'}`,
        detail: settingText(solution.setting),
        additional,
      },
    ];
  });
}
