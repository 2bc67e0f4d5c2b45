import { formatClock } from '../quantities/clock.ts';
import type { CivilDate } from '../quantities/date.ts';
import type { EventName, Occurrence } from '../quantities/events.ts';
import type { Moment } from '../quantities/moment.ts';
import { daysLater } from '../sky/civil.ts';
import type { SkyDay } from '../sky/events.ts';
import type { LocalTime, ZoneClock } from '../sky/zones.ts';
import type { Facts } from '../text/finding.ts';

/** What a symbolic moment comes to on the day. Instants are epoch milliseconds. */
export type Resolution =
  | { readonly kind: 'at'; readonly instantMs: number; readonly notes: readonly Note[] }
  | ({ readonly kind: 'failed' } & Failure)
  /** It rests on something that is missing or broken, which is reported there. */
  | { readonly kind: 'unknown' };

/** A moment that cannot be. */
export type Failure =
  | {
      readonly failure: 'no-such-event';
      readonly event: EventName;
      /** Set when the event happens, but not so many times. */
      readonly occurrence?: Occurrence;
      readonly reason: string;
      readonly facts: Facts;
    }
  | {
      readonly failure: 'skipped';
      readonly clock: string;
      readonly local: LocalTime & { readonly kind: 'skipped' };
    }
  | { readonly failure: 'circle'; readonly path: readonly string[] };

/** Something to be said of a moment that was found all the same. */
export type Note =
  | {
      readonly note: 'repeated';
      readonly clock: string;
      readonly local: LocalTime & { readonly kind: 'repeated' };
    }
  | { readonly note: 'several'; readonly event: EventName; readonly instants: readonly number[] };

export const unknown: Resolution = { kind: 'unknown' };

/** What a moment may refer to, seen from the line in which it stands. */
export interface MomentScope {
  readonly date: CivilDate;
  readonly clock: ZoneClock;
  /** The sky over the spot, so many days after the plan's date; undefined where the spot has no coordinates. */
  sky(dayOffset: number): SkyDay | undefined;
  /** False while the spot's skyline cannot be read. */
  readonly skylineKnown: boolean;
  mark(mark: 'arrive' | 'ready'): Resolution;
  /** The end of a shot; undefined for an id that is not in the plan. */
  endOf(shot: string): Resolution | undefined;
}

/** The instant that a moment names. A repeated local time is taken at its first reading, and says so. */
export function resolveMoment(moment: Moment, scope: MomentScope): Resolution {
  switch (moment.kind) {
    case 'clock': {
      const { hour, minute, second, dayOffset } = moment.clock;
      const local = scope.clock.resolve(daysLater(scope.date, dayOffset), hour, minute, second);
      const clock = formatClock({ ...moment.clock, dayOffset: 0 });
      if (local.kind === 'one') return at(local.instantMs);
      if (local.kind === 'repeated') return at(local.earlierMs, [{ note: 'repeated', clock, local }]);
      return { kind: 'failed', failure: 'skipped', clock, local };
    }
    case 'event': {
      if (!scope.skylineKnown && moment.event.includes('skyline')) return unknown;
      const sighting = scope.sky(moment.dayOffset)?.event(moment.event);
      if (sighting === undefined) return unknown;
      if (sighting.kind === 'never') {
        return {
          kind: 'failed',
          failure: 'no-such-event',
          event: moment.event,
          reason: sighting.reason,
          facts: sighting.facts,
        };
      }
      const instants = [sighting.instantMs, ...sighting.others];
      if (moment.occurrence !== undefined) return occurrenceOf(moment.event, moment.occurrence, instants);
      return at(
        sighting.instantMs,
        instants.length === 1 ? [] : [{ note: 'several', event: moment.event, instants }],
      );
    }
    case 'mark':
      return scope.mark(moment.mark);
    case 'after':
      return scope.endOf(moment.shot) ?? unknown;
    case 'offset': {
      const base = resolveMoment(moment.base, scope);
      return base.kind === 'at' ? at(base.instantMs + moment.seconds * 1000, base.notes) : base;
    }
    case 'earlier':
    case 'later':
      return pick(
        moment.kind,
        moment.of.map((part) => resolveMoment(part, scope)),
      );
  }
}

/** One of the times of an event, in their order. Who asks for one of them has heard that there are several. */
function occurrenceOf(event: EventName, occurrence: Occurrence, instants: readonly number[]): Resolution {
  const instantMs = instants[occurrence - 1];
  if (instantMs !== undefined) return at(instantMs);
  return {
    kind: 'failed',
    failure: 'no-such-event',
    event,
    occurrence,
    reason: `${event} comes only ${instants.length === 1 ? 'once' : `${instants.length} times`} that day`,
    facts: { occurrence, instants },
  };
}

/** The first or last of several moments. One that cannot be leaves the choice to the others. */
function pick(which: 'earlier' | 'later', parts: readonly Resolution[]): Resolution {
  const circle = parts.find((part) => part.kind === 'failed' && part.failure === 'circle');
  if (circle !== undefined) return circle;
  if (parts.some((part) => part.kind === 'unknown')) return unknown;
  const found = parts.flatMap((part) => (part.kind === 'at' ? [part] : []));
  if (found.length === 0) return parts[0] ?? unknown;
  return found.reduce((best, part) =>
    (which === 'earlier') === part.instantMs < best.instantMs ? part : best,
  );
}

export function at(instantMs: number, notes: readonly Note[] = []): Resolution {
  return { kind: 'at', instantMs, notes };
}
