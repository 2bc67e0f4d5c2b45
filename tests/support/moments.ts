import fc from 'fast-check';
import { events } from '../../server/quantities/events.ts';
import type { Moment } from '../../server/quantities/moment.ts';

const seconds = fc.oneof(
  fc.integer({ min: -86_400, max: 86_400 }),
  fc.integer({ min: -999, max: 999 }).map((n) => n / 8),
);

/** The day before, the plan's date and the day after. */
const days = fc.integer({ min: -1, max: 1 });

const bases: fc.Arbitrary<Moment> = fc.oneof(
  fc.record({
    kind: fc.constant('clock' as const),
    clock: fc.record({ hour: fc.nat(23), minute: fc.nat(59), second: fc.nat(59), dayOffset: days }),
  }),
  fc.record(
    {
      kind: fc.constant('event' as const),
      event: fc.constantFrom(...events.map((event) => event.name)),
      dayOffset: days,
      occurrence: fc.constantFrom(1 as const, 2 as const, 3 as const),
    },
    { requiredKeys: ['kind', 'event', 'dayOffset'] },
  ),
  fc.record({
    kind: fc.constant('mark' as const),
    mark: fc.constantFrom('arrive' as const, 'ready' as const),
  }),
  fc.record({
    kind: fc.constant('after' as const),
    shot: fc.constantFrom('mirror', 'north-2', '7', 'låg_vann', 'sunset', 'next'),
    span: fc.constant({ start: 0, end: 0 }),
  }),
);

const simple: fc.Arbitrary<Moment> = fc.oneof(
  bases,
  fc.record({ kind: fc.constant('offset' as const), base: bases, seconds }),
);

/** Moments that `parse` can return, but for the spans of `after`. */
export const moments: fc.Arbitrary<Moment> = fc.oneof(
  simple,
  fc.record({
    kind: fc.constantFrom('earlier' as const, 'later' as const),
    of: fc.array(simple, { minLength: 2, maxLength: 31 }),
  }),
);

/** The moment without the places of its parts. */
export function withoutSpans(moment: Moment): unknown {
  switch (moment.kind) {
    case 'after':
      return { kind: 'after', shot: moment.shot };
    case 'offset':
      return { ...moment, base: withoutSpans(moment.base) };
    case 'earlier':
    case 'later':
      return { ...moment, of: moment.of.map(withoutSpans) };
    default:
      return moment;
  }
}
