import type { Rule } from '../analysis.ts';
import type { Day } from '../schedule/day.ts';
import { failuresOf } from './stated.ts';
import { shotName, spotName } from './wording.ts';

/** How many moments of a circle are told. */
const longestTold = 12;

/** Moments may lean on each other in any direction, but not on themselves. */
export const circle: Rule = {
  code: 'time/circle',
  severity: 'error',
  doc: 'Moments that lean on each other in a circle, so that none can be found. Give one of them a time of its own.',
  check(analysis, report) {
    const names = namesByOffset(analysis.day);
    const circles = new Map<readonly string[], Circle>();
    for (const { moment, failure } of failuresOf(analysis, 'circle')) {
      const name = names.get(moment.value.span.start);
      // Those that only lead into the circle share its path too.
      const found = circles.get(failure.path) ?? circleOf(failure.path);
      circles.set(failure.path, found);
      const place = name === undefined ? undefined : found.places.get(name);
      if (place === undefined) continue;
      const { first, left, last } = turnedTo(place, found.members);
      const way = [...first, ...(left === 0 ? [] : [`${left} more`]), ...last];
      report(
        moment.value,
        `This leans on itself: ${way.join(' ← ')}. Give one of them a clock time or an event.`,
        { facts: { path: [...first, ...last], moments: found.members.length } },
      );
    }
  },
};

interface Circle {
  /** Each once. */
  readonly members: readonly string[];
  readonly places: ReadonlyMap<string, number>;
}

function circleOf(path: readonly string[]): Circle {
  const members = path.slice(0, -1);
  return { members, places: new Map(members.map((member, at) => [member, at])) };
}

/** What each stated moment is called while moments are looked for, by where it stands. */
function namesByOffset(day: Day | undefined): ReadonlyMap<number, string> {
  const names = new Map<number, string>();
  day?.spots.forEach(({ spot, shots }, index) => {
    if (spot.arrive !== undefined) names.set(spot.arrive.span.start, `arriving at ${spotName(spot, index)}`);
    shots.forEach(({ shot }, place) => {
      if (shot.start !== undefined) names.set(shot.start.span.start, `the start of ${shotName(shot, place)}`);
    });
  });
  return names;
}

/** The circle told from one of its members and back to it; of a long one, both ends and how many stand between. */
function turnedTo(
  place: number,
  members: readonly string[],
): { readonly first: readonly string[]; readonly left: number; readonly last: readonly string[] } {
  const steps = members.length + 1;
  const left = Math.max(0, steps - longestTold);
  const half = longestTold / 2;
  const told = (from: number, count: number) =>
    Array.from({ length: count }, (_, step) => members[(place + from + step) % members.length] as string);
  if (left === 0) return { first: told(0, steps), left, last: [] };
  return { first: told(0, half), left, last: told(steps - half, half) };
}
