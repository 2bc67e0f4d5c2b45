import type { Rule } from '../analysis.ts';
import type { Value } from '../plan/table.ts';
import { formatMoment, type Moment } from '../quantities/moment.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { mend, mendFixes } from './mends.ts';
import { shotName, spotName, timeAt } from './wording.ts';

const dayMs = 86_400_000;

/** A time that lies further back than this belongs to the next day rather than to a plan that overlaps. */
const slipMs = 6 * 3_600_000;

/** Whether a time lies so far before what goes before it that the night between them was forgotten. */
export function forgetsNextDay(
  value: Value<Moment> | undefined,
  instantMs: number | undefined,
  beforeMs: number | undefined,
): value is Value<Moment> {
  if (value === undefined || instantMs === undefined || beforeMs === undefined) return false;
  if (onNextDay(value.value) === undefined) return false;
  return beforeMs - instantMs > slipMs && instantMs + dayMs > beforeMs;
}

/** The same moment on the next day; undefined where the moment does not hang on a day, or names another one itself. */
function onNextDay(moment: Moment): Moment | undefined {
  if (moment.kind === 'clock') {
    const { clock } = moment;
    return clock.dayOffset === 0 ? { ...moment, clock: { ...clock, dayOffset: 1 } } : undefined;
  }
  if (moment.kind === 'event') return moment.dayOffset === 0 ? { ...moment, dayOffset: 1 } : undefined;
  if (moment.kind !== 'offset') return undefined;
  const base = onNextDay(moment.base);
  return base === undefined ? undefined : { ...moment, base };
}

/**
 * A clock time and an event mean the plan's date unless they say `next day`. One that lies more than six hours before the shot or the
 * visit before it was meant for the morning after: an overlap that large is no overlap. Common practice, no source.
 */
export const nextDay: Rule = {
  code: 'time/clock-vs-next-day',
  severity: 'error',
  doc: 'A clock time or an event more than six hours before what comes before it: it belongs to the next day. Both mean the date of the plan; write `00:30 next day`, `sunrise next day - 30 min`.',
  check({ day }, report) {
    const say = (value: Value<Moment>, at: SpotPlace, instantMs: number, beforeMs: number, what: string) => {
      const meant = onNextDay(value.value);
      if (meant === undefined) return;
      const written = formatMoment(meant);
      report(
        value,
        `${timeAt(instantMs, at)} on the plan’s date lies before ${what} at ${timeAt(beforeMs, at)}. For the morning after, write ${written}.`,
        { facts: { instantMs, beforeMs, mends: [mend(`Write ${written}`, value, written)] } },
      );
    };
    day?.spots.forEach((visit, index) => {
      const { spot, at, arriveMs, shots } = visit;
      if (at === undefined) return;
      const before = day.spots[index - 1];
      const leaveMs = index === 0 ? day.leaveMs : before?.leaveMs;
      if (forgetsNextDay(spot.arrive, arriveMs, leaveMs)) {
        const from = before === undefined ? 'leaving home' : `leaving ${spotName(before.spot, index - 1)}`;
        say(spot.arrive, at, arriveMs as number, leaveMs as number, from);
      }
      shots.forEach(({ shot, startMs }, place) => {
        const previous = shots[place - 1];
        const beforeMs = previous === undefined ? arriveMs : previous.startMs;
        if (!forgetsNextDay(shot.start, startMs, beforeMs)) return;
        const what =
          previous === undefined ? 'arriving' : `the start of ${shotName(previous.shot, place - 1)}`;
        say(shot.start, at, startMs as number, beforeMs as number, what);
      });
    });
  },
  fixes: mendFixes,
};
