import type { Rule } from '../analysis.ts';
import type { EventName } from '../quantities/events.ts';
import { formatMoment } from '../quantities/moment.ts';
import { offsetText } from '../schedule/localTime.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { mend, mendFixes } from './mends.ts';
import { notesOf } from './stated.ts';

/** When clocks are set back, an hour of local time comes twice; the first is taken, and both are named. */
export const repeatedLocalTime: Rule = {
  code: 'time/repeated-local-time',
  severity: 'warning',
  doc: 'A local time that comes twice, because the clocks are set back over it on that day. The first is used; to choose, write the moment as an event with an offset.',
  check(analysis, report) {
    for (const { moment, note } of notesOf(analysis, 'repeated')) {
      const { value, at } = moment;
      if (at === undefined) continue;
      const { earlierMs, laterMs, earlierOffsetSeconds, laterOffsetSeconds } = note.local;
      const dayOffset = value.value.kind === 'clock' ? value.value.clock.dayOffset : 0;
      const choices = [
        ['first', fromEvent(earlierMs, at, dayOffset)],
        ['second', fromEvent(laterMs, at, dayOffset)],
      ] as const;
      const mends =
        value.value.kind !== 'clock'
          ? []
          : choices.flatMap(([which, text]) =>
              text === undefined ? [] : [mend(`Mean the ${which} time: ${text}`, value, text)],
            );
      const example = choices[1][1];
      report(
        value,
        `${note.clock} comes twice on that day: at ${offsetText(earlierOffsetSeconds)} and again at ${offsetText(laterOffsetSeconds)}. The first is used here.${example === undefined ? '' : ` For the second, write ${example}.`}`,
        { facts: { earlierMs, laterMs, earlierOffsetSeconds, laterOffsetSeconds, open: true, mends } },
      );
    }
  },
  fixes: mendFixes,
};

const anchors: readonly EventName[] = ['sunrise', 'solar noon'];

/** An instant as an event of its day and an offset in whole minutes. */
function fromEvent(instantMs: number, at: SpotPlace, dayOffset: number): string | undefined {
  for (const event of anchors) {
    const sighting = at.sky(dayOffset).event(event);
    if (sighting.kind !== 'at') continue;
    const seconds = Math.round((instantMs - sighting.instantMs) / 60_000) * 60;
    return formatMoment({ kind: 'offset', base: { kind: 'event', event, dayOffset }, seconds });
  }
  return undefined;
}
