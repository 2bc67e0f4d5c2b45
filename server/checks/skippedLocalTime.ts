import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import { mend, mendFixes } from './mends.ts';
import { failuresOf } from './stated.ts';
import { timeAt, writtenTime } from './wording.ts';

/** When clocks are set forward, an hour of local time does not exist; a plan cannot mean it. */
export const skippedLocalTime: Rule = {
  code: 'time/skipped-local-time',
  severity: 'error',
  doc: 'A local time that does not exist, because the clocks are set forward over it on that day. Both readings are offered.',
  check(analysis, report) {
    for (const { moment, failure } of failuresOf(analysis, 'skipped')) {
      const { value, at } = moment;
      if (at === undefined) continue;
      const { beforeMs, afterMs, gapSeconds, changeMs } = failure.local;
      const readings = [beforeMs, afterMs].flatMap((ms) => writtenTime(ms, at) ?? []);
      const mends =
        value.value.kind === 'clock' ? readings.map((text) => mend(`Write ${text}`, value, text)) : [];
      report(
        value,
        `There is no ${failure.clock} on that day: the clocks go forward by ${formatDuration(gapSeconds)} to ${timeAt(changeMs, at)}. Write ${readings.join(' or ')}.`,
        { facts: { beforeMs, afterMs, gapSeconds, open: true, mends } },
      );
    }
  },
  fixes: mendFixes,
};
