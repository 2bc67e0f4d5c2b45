import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { formatMoment } from '../quantities/moment.ts';
import type { DaySpot } from '../schedule/day.ts';
import { mend, mendFixes } from './mends.ts';
import { also } from './related.ts';
import { timeAt, unnoticedMs } from './wording.ts';

const dayMs = 86_400_000;

/**
 * The visit must lie within the opening hours, from arriving to being back from the walk. Opening hours hold on the
 * days before and after as well.
 */
export const closed: Rule = {
  code: 'time/closed',
  severity: 'error',
  doc: 'You arrive before the place opens, or leave after it closes. `open` gives the hours; they hold every day.',
  check({ day }, report) {
    for (const visit of day?.spots ?? []) {
      const { spot, at, arriveMs, leaveMs } = visit;
      const { open, arrive } = spot;
      const hours = openingAround(visit);
      if (at === undefined || open === undefined || arriveMs === undefined || hours === undefined) continue;
      const related = also(open, 'The opening hours.');
      const earlyMs = hours.opensMs - arriveMs;
      if (earlyMs > unnoticedMs) {
        const opening = formatMoment(open.value.from);
        report(
          arrive ?? open,
          `You arrive at ${timeAt(arriveMs, at)}, but the place opens at ${timeAt(hours.opensMs, at)}: ${minutes(earlyMs)} too early.`,
          {
            related: arrive === undefined ? [] : related,
            facts: {
              arriveMs,
              opensMs: hours.opensMs,
              mends: arrive === undefined ? [] : [mend(`Arrive at ${opening}`, arrive, opening)],
            },
          },
        );
      }
      const overMs = leaveMs === undefined ? 0 : leaveMs - hours.closesMs;
      if (overMs > unnoticedMs && leaveMs !== undefined) {
        report(
          open,
          `The place closes at ${timeAt(hours.closesMs, at)}, but you are packed and back from the walk at ${timeAt(leaveMs, at)}: ${minutes(overMs)} too late.`,
          { facts: { leaveMs, closesMs: hours.closesMs } },
        );
      }
    }
  },
  fixes: mendFixes,
};

/** The opening on the day that suits the visit best. */
function openingAround({ opensMs, closesMs, arriveMs, leaveMs }: DaySpot) {
  if (opensMs === undefined || closesMs === undefined || arriveMs === undefined) return undefined;
  const untilMs = leaveMs ?? arriveMs;
  const outside = (by: number) => Math.max(opensMs + by - arriveMs, 0) + Math.max(untilMs - closesMs - by, 0);
  const by = [0, -dayMs, dayMs].reduce((best, other) => (outside(other) < outside(best) ? other : best));
  return { opensMs: opensMs + by, closesMs: closesMs + by };
}

function minutes(ms: number): string {
  return formatDuration(Math.max(Math.round(ms / 60_000), 1) * 60);
}
