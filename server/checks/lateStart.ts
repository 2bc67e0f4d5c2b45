import type { Rule } from '../analysis.ts';
import type { Day, DaySpot } from '../schedule/day.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { mend, mendFixes } from './mends.ts';
import { forgetsNextDay } from './nextDay.ts';
import { also } from './related.ts';
import { lateness, timeAt, unnoticedMs, writtenTime } from './wording.ts';

/** A shot cannot start before the camera stands: ready = arriving + setting up. */
export const lateStart: Rule = {
  code: 'time/late-start',
  severity: 'error',
  doc: 'You are ready only after the stated start of the first shot. Ready is arriving plus `setup`. Leave earlier, arrive earlier, or start later.',
  check({ day }, report) {
    day?.spots.forEach((visit, index) => {
      const { at, arriveMs, readyMs } = visit;
      const first = visit.shots[0];
      const start = first?.shot.start;
      const startMs = first?.startMs;
      if (at === undefined || start === undefined || startMs === undefined || readyMs === undefined) return;
      if (readyMs - startMs <= unnoticedMs || forgetsNextDay(start, startMs, arriveMs)) return;
      const written = writtenTime(readyMs, at);
      report(
        start,
        `Ready ${timeAt(readyMs, at)}, but the shot starts at ${timeAt(startMs, at)}: ${lateness(startMs, readyMs)} late. ${advice(day, visit, index, at, readyMs - startMs)}, or start at ${timeAt(Math.ceil(readyMs / 60_000) * 60_000, at)} or later.`,
        {
          related: [...also(visit.spot.arrive, 'The arrival.'), ...also(visit.spot.setup, 'Setting up.')],
          facts: {
            readyMs,
            startMs,
            lateSeconds: (readyMs - startMs) / 1000,
            mends: [
              mend('Start when ready', start, 'ready'),
              ...(written === undefined ? [] : [mend(`Start at ${written}`, start, written)]),
            ],
          },
        },
      );
    });
  },
  fixes: mendFixes,
};

/** How much earlier one must come or leave. */
function advice(day: Day, visit: DaySpot, index: number, at: SpotPlace, lateMs: number): string {
  const floor = (ms: number) => timeAt(Math.floor((ms + 1) / 60_000) * 60_000, at);
  if (visit.arrivalStated) return `Arrive by ${floor((visit.arriveMs as number) - lateMs)}`;
  if (index === 0) {
    return day.leaveMs === undefined ? 'Come earlier' : `Leave by ${floor(day.leaveMs - lateMs)}`;
  }
  const leaveMs = day.spots[index - 1]?.leaveMs;
  return leaveMs === undefined ? 'Come earlier' : `Leave the spot before by ${floor(leaveMs - lateMs)}`;
}
