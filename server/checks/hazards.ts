import type { Checkable, Report, Rule } from '../analysis.ts';
import type { Value } from '../plan/table.ts';
import type { DaySpot } from '../schedule/day.ts';
import { dangerOf, deferring } from './cautions.ts';
import { type Dark, darkOf } from './dark.ts';
import { also } from './related.ts';
import { timeAt } from './wording.ts';

/**
 * A hazard is no mistake, and its caution is said in its hover and on the day's sheet. A finding it becomes where the
 * plan itself makes it acute: dark and no lamp, water that may be released and nobody asked, a tide without a table or
 * without a thought for the way back. Common practice, no source.
 */
export const hazards: Rule = {
  code: 'safety/hazard',
  severity: 'hint',
  doc: 'The plan makes a hazard of a spot acute: it is dark and no lamp is carried, water may be released and nobody seems to be asked, the tide is not in the plan or rises while you are there. Local rules, signs and the people responsible there go first.',
  check(analysis, report) {
    for (const visit of analysis.day?.spots ?? []) {
      reportDark(analysis, visit, report);
      reportRelease(visit, report);
      reportTide(analysis, visit, report);
    }
  },
};

/** Any known hazard, in the dark, when the kit lists what is carried and no light is in it. */
function reportDark({ bag }: Checkable, visit: DaySpot, report: Report): void {
  const first = visit.spot.hazards?.find(({ value }) => dangerOf(value) !== undefined);
  const dark = darkOf(visit);
  if (first === undefined || dark === undefined) return;
  if (!bag.carriedKnown || bag.carried.some((thing) => /lamp|torch|light/.test(thing))) return;
  report(
    first,
    `${darkText(dark, visit)} at a spot with hazards, and \`carried\` names no lamp. Pack one, and add it there. ${deferring}`,
    {
      related: also(visit.spot.arrive, 'The arrival.'),
      facts: { situation: 'dark', hazard: first.value },
    },
  );
}

function darkText(dark: Dark, { at }: DaySpot): string {
  if (dark.kind === 'all day' || at === undefined) return 'It is dark all day';
  const [what, edge] =
    dark.kind === 'arrives before dawn'
      ? ['arrive in the dark', 'civil dawn comes']
      : ['leave in the dark', 'civil dusk was'];
  return `You ${what} (${timeAt(dark.ms, at)}; ${edge} at ${timeAt(dark.edgeMs, at)})`;
}

/** Water above that somebody can let go: whoever has the operator's permission, or a note, has asked. */
function reportRelease({ spot }: DaySpot, report: Report): void {
  const hazard = hazardOf(spot.hazards, (value) => dangerOf(value)?.kind === 'release');
  if (hazard === undefined || spot.permission?.value === 'granted' || spot.note !== undefined) return;
  report(
    hazard,
    `Water can be released there without warning, and nothing says that you have asked. Ask whoever runs the gates, and write the answer as the spot’s \`note\`. ${deferring}`,
    { facts: { situation: 'release', hazard: hazard.value } },
  );
}

/** A tide that the plan does not know, or one that rises during the visit and about which the spot says nothing. */
function reportTide({ plan }: Checkable, visit: DaySpot, report: Report): void {
  const { spot } = visit;
  const hazard = hazardOf(spot.hazards, (value) => /\btides?\b|\btidal\b/.test(value.toLowerCase()));
  if (hazard === undefined) return;
  if (plan?.model.tides === undefined) {
    report(
      hazard,
      `The tide is a hazard there, and the plan has no \`tides\`. Copy high and low water from the table of the nearest harbour. ${deferring}`,
      { facts: { situation: 'no tides', hazard: hazard.value } },
    );
    return;
  }
  const minded =
    spot.open !== undefined ||
    spot.note !== undefined ||
    spot.needs?.some(({ value }) => value.quantity === 'tide');
  const highMs = minded ? undefined : risesUntil(visit);
  if (highMs === undefined || visit.at === undefined) return;
  report(
    hazard,
    `The water rises until ${timeAt(highMs, visit.at)} while you are there. Say how long the way back is free, with \`open\` or a need such as \`tide < 1.5 m\`. ${deferring}`,
    { facts: { situation: 'rising tide', hazard: hazard.value, highMs } },
  );
}

/** From low to high water, where the low one is not in the plan: half of the 12 h 25 min from tide to tide. */
const usualRiseMs = 6.2 * 3_600_000;

/** The high water towards which the sea rises during a visit. */
function risesUntil({ at, arriveMs, leaveMs }: DaySpot): number | undefined {
  if (at === undefined || arriveMs === undefined) return undefined;
  const untilMs = leaveMs ?? arriveMs;
  return at.tides.find(({ kind, instantMs }, index) => {
    const before = at.tides[index - 1];
    const fromMs = before?.kind === 'low' ? before.instantMs : instantMs - usualRiseMs;
    return kind === 'high' && arriveMs < instantMs && untilMs > fromMs;
  })?.instantMs;
}

function hazardOf(
  hazardsOfSpot: readonly Value<string>[] | undefined,
  is: (value: string) => boolean,
): Value<string> | undefined {
  return hazardsOfSpot?.find(({ value }) => is(value));
}
