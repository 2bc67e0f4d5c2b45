import type { CivilDate } from '../quantities/date.ts';
import { civilDate, civilMs, daysLater } from './civil.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** No zone changes its offset and back within this time: the shortest spell since 1950 is a week (Brazil, October 2000). */
const STEP_MS = 6 * DAY_MS;

function stepOf(instantMs: number): number {
  return Math.floor(instantMs / STEP_MS);
}

/** What a local date and clock time means in a zone. All instants are epoch milliseconds. */
export type LocalTime =
  | { readonly kind: 'one'; readonly instantMs: number }
  | {
      /** The clock jumps over this reading. */
      readonly kind: 'skipped';
      /** The reading moved back by the gap: an instant before the change. */
      readonly beforeMs: number;
      /** The reading moved on by the gap: an instant after the change. */
      readonly afterMs: number;
      readonly gapSeconds: number;
      /** When the clock jumps. */
      readonly changeMs: number;
    }
  | {
      /** The clock is set back over this reading, so that it comes twice. */
      readonly kind: 'repeated';
      readonly earlierMs: number;
      readonly laterMs: number;
      readonly earlierOffsetSeconds: number;
      readonly laterOffsetSeconds: number;
    };

/** The clock on the wall of one time zone, by the runtime's zone data. */
export interface ZoneClock {
  /** The name that was asked for, as written. */
  readonly zone: string;
  /** Local time minus UTC. */
  offsetSeconds(instantMs: number): number;
  resolve(date: CivilDate, hour: number, minute: number, second: number): LocalTime;
  /** The civil date of an instant. */
  date(instantMs: number): CivilDate;
  /** From the first instant of a date to the first of the next: 23 to 25 hours; none where a zone left a date out. */
  day(date: CivilDate): { readonly startMs: number; readonly endMs: number };
}

/** An offset and the instant since which it holds. */
interface Stretch {
  readonly sinceMs: number;
  readonly offsetSeconds: number;
}

/**
 * Whether the runtime knows a zone of this name. A list of names is no test: Europe/Kyiv and UTC are missing from the
 * runtime's own. Bare offsets (+01:00) are no zones: some runtimes take them and others do not.
 */
export function isZone(name: string): boolean {
  if (!/^[A-Za-z]/.test(name)) {
    return false;
  }
  try {
    formatter(name);
    return true;
  } catch {
    return false;
  }
}

/** Whether two names stand for one zone: Europe/Kiev and Europe/Kyiv. Both must be zones. */
export function sameZone(a: string, b: string): boolean {
  return formatter(a).resolvedOptions().timeZone === formatter(b).resolvedOptions().timeZone;
}

function formatter(zone: string): Intl.DateTimeFormat {
  return new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    calendar: 'gregory',
    numberingSystem: 'latn',
    hourCycle: 'h23',
    era: 'short',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  });
}

/** Asks the runtime for the offset at a whole second. */
function runtimeOffset(format: Intl.DateTimeFormat, instantMs: number): number {
  const read = { year: 0, month: 0, day: 0, hour: 0, minute: 0, second: 0 };
  let beforeChrist = false;
  for (const { type, value } of format.formatToParts(instantMs)) {
    if (type === 'era') {
      beforeChrist = value.startsWith('B');
    } else if (Object.hasOwn(read, type)) {
      read[type as keyof typeof read] = Number(value);
    }
  }
  const year = beforeChrist ? 1 - read.year : read.year;
  const local = civilMs({ year, month: read.month, day: read.day }, read.hour, read.minute, read.second);
  return (local - instantMs) / 1000;
}

/**
 * A clock for a zone. The runtime is asked for the offset at either end of a step, and for the change between them, when
 * an instant in it is first asked for; that is kept in the clock, so keep the clock. Throws a RangeError for a name that
 * `isZone` refuses.
 */
export function zoneClock(zone: string): ZoneClock {
  const format = formatter(zone);
  const steps = new Map<number, readonly Stretch[]>();
  const startOffsets = new Map<number, number>();

  function offsetAtSecond(instantMs: number): number {
    return runtimeOffset(format, instantMs);
  }

  function offsetAtStart(step: number): number {
    const offset = startOffsets.get(step) ?? offsetAtSecond(step * STEP_MS);
    startOffsets.set(step, offset);
    return offset;
  }

  /** The stretches of one step of time, counted from 1970; the first begins with the step. */
  function stretches(step: number): readonly Stretch[] {
    const known = steps.get(step);
    if (known !== undefined) {
      return known;
    }
    const sinceMs = step * STEP_MS;
    const offset = offsetAtStart(step);
    const next = offsetAtStart(step + 1);
    const found: Stretch[] = [{ sinceMs, offsetSeconds: offset }];
    if (next !== offset) {
      found.push({ sinceMs: changeBetween(sinceMs, sinceMs + STEP_MS, offset), offsetSeconds: next });
    }
    steps.set(step, found);
    return found;
  }

  /** The first whole second at which the offset is no longer `offset`. */
  function changeBetween(fromMs: number, toMs: number, offset: number): number {
    let before = fromMs;
    let after = toMs;
    while (after - before > 1000) {
      const middle = before + Math.floor((after - before) / 2000) * 1000;
      if (offsetAtSecond(middle) === offset) {
        before = middle;
      } else {
        after = middle;
      }
    }
    return after;
  }

  /** The stretches that touch the time between two instants at most a few days apart, in order. */
  function stretchesBetween(fromMs: number, toMs: number): Stretch[] {
    const merged: Stretch[] = [];
    for (let step = stepOf(fromMs); step <= stepOf(toMs); step++) {
      for (const stretch of stretches(step)) {
        if (stretch.sinceMs > toMs) {
          break;
        }
        if (stretch.sinceMs <= fromMs) {
          merged.length = 0;
        }
        if (merged.at(-1)?.offsetSeconds !== stretch.offsetSeconds) {
          merged.push(stretch);
        }
      }
    }
    return merged;
  }

  function offsetSeconds(instantMs: number): number {
    let offset = 0;
    for (const stretch of stretches(stepOf(instantMs))) {
      if (stretch.sinceMs > instantMs) {
        break;
      }
      offset = stretch.offsetSeconds;
    }
    return offset;
  }

  function resolve(date: CivilDate, hour: number, minute: number, second: number): LocalTime {
    const local = civilMs(date, hour, minute, second);
    // No offset reaches 26 hours, so every stretch that can show this reading touches this window.
    const around = stretchesBetween(local - 26 * HOUR_MS, local + 26 * HOUR_MS);
    const readings = around.flatMap((stretch, index) => {
      const instantMs = local - stretch.offsetSeconds * 1000;
      const untilMs = around[index + 1]?.sinceMs ?? Number.POSITIVE_INFINITY;
      const sinceMs = index === 0 ? Number.NEGATIVE_INFINITY : stretch.sinceMs;
      return sinceMs <= instantMs && instantMs < untilMs
        ? [{ instantMs, offsetSeconds: stretch.offsetSeconds }]
        : [];
    });
    const [first, other] = readings;
    if (first !== undefined && other !== undefined) {
      return {
        kind: 'repeated',
        earlierMs: first.instantMs,
        laterMs: other.instantMs,
        earlierOffsetSeconds: first.offsetSeconds,
        laterOffsetSeconds: other.offsetSeconds,
      };
    }
    if (first !== undefined) {
      return { kind: 'one', instantMs: first.instantMs };
    }
    return skipped(local, around);
  }

  function skipped(local: number, around: readonly Stretch[]): LocalTime {
    for (let index = 1; index < around.length; index++) {
      const before = (around[index - 1] as Stretch).offsetSeconds;
      const { sinceMs: changeMs, offsetSeconds: after } = around[index] as Stretch;
      if (changeMs + before * 1000 <= local && local < changeMs + after * 1000) {
        return {
          kind: 'skipped',
          beforeMs: local - after * 1000,
          afterMs: local - before * 1000,
          gapSeconds: after - before,
          changeMs,
        };
      }
    }
    throw new RangeError(`No reading and no change at ${local} in ${zone}`);
  }

  function startOf(date: CivilDate): number {
    const midnight = resolve(date, 0, 0, 0);
    switch (midnight.kind) {
      case 'one':
        return midnight.instantMs;
      case 'repeated':
        return midnight.earlierMs;
      case 'skipped':
        return midnight.changeMs;
    }
  }

  return {
    zone,
    offsetSeconds,
    resolve,
    date: (instantMs) => civilDate(instantMs + offsetSeconds(instantMs) * 1000),
    day: (date) => ({ startMs: startOf(date), endMs: startOf(daysLater(date, 1)) }),
  };
}

/** A source of clocks that makes each zone's clock once and keeps it. The caller keeps the source. */
export function zoneClocks(): (zone: string) => ZoneClock {
  const clocks = new Map<string, ZoneClock>();
  return (zone) => {
    const known = clocks.get(zone) ?? zoneClock(zone);
    clocks.set(zone, known);
    return known;
  };
}
