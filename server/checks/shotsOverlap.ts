import type { Rule } from '../analysis.ts';
import { mend, mendFixes } from './mends.ts';
import { forgetsNextDay } from './nextDay.ts';
import { also, headOf } from './related.ts';
import { lateness, shotName, timeAt, unnoticedMs, writtenTime } from './wording.ts';

/** One camera takes one picture at a time: a shot ends after all its frames, with brackets, gaps and dark frames. */
export const shotsOverlap: Rule = {
  code: 'time/shots-overlap',
  severity: 'error',
  doc: 'A shot has a stated start that lies before the end of the shot before it. The end counts all frames, brackets, gaps and the dark frames of noise reduction.',
  check({ day }, report) {
    for (const { at, shots } of day?.spots ?? []) {
      if (at === undefined) continue;
      shots.forEach(({ shot, startMs }, place) => {
        const before = shots[place - 1];
        const { start } = shot;
        if (before?.endMs === undefined || start === undefined || startMs === undefined) return;
        if (before.endMs - startMs <= unnoticedMs) return;
        if (forgetsNextDay(start, startMs, before.startMs)) return;
        const name = shotName(before.shot, place - 1);
        const written = writtenTime(before.endMs, at);
        const id = before.shot.id;
        report(
          start,
          `This starts at ${timeAt(startMs, at)}, but ${name} ends at ${timeAt(before.endMs, at)}: ${lateness(startMs, before.endMs)} of overlap. Start at ${timeAt(Math.ceil(before.endMs / 60_000) * 60_000, at)} or later, or take fewer or shorter frames of ${name}.`,
          {
            related: also(headOf(before.shot), `The shot before, ${name}.`),
            facts: {
              startMs,
              freeFromMs: before.endMs,
              overlapSeconds: (before.endMs - startMs) / 1000,
              mends: [
                ...(id === undefined ? [] : [mend(`Start after ${id.value}`, start, `after ${id.value}`)]),
                ...(written === undefined ? [] : [mend(`Start at ${written}`, start, written)]),
              ],
            },
          },
        );
      });
    }
  },
  fixes: mendFixes,
};
