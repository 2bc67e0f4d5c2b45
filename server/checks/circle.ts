import type { Rule } from '../analysis.ts';
import type { Day } from '../schedule/day.ts';
import { failuresOf } from './stated.ts';
import { shotName, spotName } from './wording.ts';

/** Moments may lean on each other in any direction, but not on themselves. */
export const circle: Rule = {
  code: 'time/circle',
  severity: 'error',
  doc: 'Moments that lean on each other in a circle, so that none can be found. Give one of them a time of its own.',
  check(analysis, report) {
    const names = namesByOffset(analysis.day);
    for (const { moment, failure } of failuresOf(analysis, 'circle')) {
      const name = names.get(moment.value.span.start);
      if (name === undefined || !failure.path.includes(name)) continue;
      report(
        moment.value,
        `This leans on itself: ${turnedTo(name, failure.path).join(' ← ')}. Give one of them a clock time or an event.`,
        { facts: { path: failure.path } },
      );
    }
  },
};

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

/** The same circle, told from one of its members and back to it. */
function turnedTo(name: string, path: readonly string[]): readonly string[] {
  const members = path.slice(0, -1);
  const place = members.indexOf(name);
  if (place < 0) return path;
  return [...members.slice(place), ...members.slice(0, place), name];
}
