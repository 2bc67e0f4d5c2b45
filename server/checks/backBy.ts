import type { Rule } from '../analysis.ts';
import { mend, mendFixes } from './mends.ts';
import { lateness, timeAt, unnoticedMs, writtenTime } from './wording.ts';

/** Whoever waits at home calls for help when the time is past: it must not lie before the end of the day. */
export const backBy: Rule = {
  code: 'safety/back-by-too-early',
  severity: 'error',
  doc: 'The time at which somebody expects you back lies before you leave the last spot. Give a later time, or cut the day short.',
  check({ day, plan }, report) {
    const value = plan?.model.party?.backBy;
    const stated = day?.moments.find((moment) => moment.value === value);
    const last = day?.spots.findLast(({ leaveMs }) => leaveMs !== undefined);
    if (value === undefined || stated?.resolution.kind !== 'at' || last?.leaveMs === undefined) return;
    const { at, leaveMs } = last;
    const backMs = stated.resolution.instantMs;
    if (at === undefined || leaveMs - backMs <= unnoticedMs) return;
    const written = writtenTime(Math.ceil((leaveMs + 3_600_000) / 900_000) * 900_000, at);
    report(
      value,
      `You are expected back at ${timeAt(backMs, at)}, but leave the last spot at ${timeAt(leaveMs, at)}, ${lateness(backMs, leaveMs)} later, and still have to get home.`,
      {
        facts: {
          backMs,
          leaveMs,
          mends:
            written === undefined
              ? []
              : [mend(`Write ${written}, an hour after the last spot`, value, written)],
        },
      },
    );
  },
  fixes: mendFixes,
};
