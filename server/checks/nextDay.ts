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
  if (onOtherDay(value.value, 1) === undefined) return false;
  return beforeMs - instantMs > slipMs && instantMs + dayMs > beforeMs;
}

/** The same moment on the next or the previous day; undefined where it does not hang on a day, or names another one itself. */
function onOtherDay(moment: Moment, dayOffset: 1 | -1): Moment | undefined {
  if (moment.kind === 'clock') {
    const { clock } = moment;
    return clock.dayOffset === 0 ? { ...moment, clock: { ...clock, dayOffset } } : undefined;
  }
  if (moment.kind === 'event') return moment.dayOffset === 0 ? { ...moment, dayOffset } : undefined;
  if (moment.kind !== 'offset') return undefined;
  const base = onOtherDay(moment.base, dayOffset);
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
  check({ day, plan }, report) {
    const say = (
      value: Value<Moment>,
      at: SpotPlace,
      instantMs: number,
      beforeMs: number,
      what: string,
      leave?: Value<Moment>,
    ) => {
      const meant = onOtherDay(value.value, 1);
      if (meant === undefined) return;
      const written = formatMoment(meant);
      const earlier = leave === undefined ? undefined : onOtherDay(leave.value, -1);
      const left = earlier === undefined ? undefined : formatMoment(earlier);
      const orLeave = left === undefined ? '' : `; if you leave the evening before, write leave: ${left}`;
      const mends = [mend(`Write ${written}`, value, written)];
      if (leave !== undefined && left !== undefined) mends.push(mend(`Leave ${left}`, leave, left));
      report(
        value,
        `${timeAt(instantMs, at)} on the plan’s date lies before ${what} at ${timeAt(beforeMs, at)}. For the morning after, write ${written}${orLeave}.`,
        { facts: { instantMs, beforeMs, mends } },
      );
    };
    day?.spots.forEach((visit, index) => {
      const { spot, at, arriveMs, shots } = visit;
      if (at === undefined) return;
      const before = day.spots[index - 1];
      const leaveMs = index === 0 ? day.leaveMs : before?.leaveMs;
      if (forgetsNextDay(spot.arrive, arriveMs, leaveMs)) {
        const from = before === undefined ? 'leaving home' : `leaving ${spotName(before.spot, index - 1)}`;
        const leave = index === 0 ? plan?.model.start?.leave : undefined;
        say(spot.arrive, at, arriveMs as number, leaveMs as number, from, leave);
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
