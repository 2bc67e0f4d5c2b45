import type { Analysis } from '../../analysis.ts';
import { eventNamed } from '../../quantities/events.ts';
import { type Moment, moment } from '../../quantities/moment.ts';
import type { Suggestion } from '../../quantities/quantity.ts';
import type { DaySpot } from '../../schedule/day.ts';
import { type MomentScope, resolveMoment, unknown } from '../../schedule/moments.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { clockText } from '../localTime.ts';
import { settledScope } from '../momentScope.ts';
import type { Cursor } from './cursor.ts';

/** A moment that is offered, with the clock time that it comes to. */
export interface TimedSuggestion extends Suggestion {
  /** Markdown of this program: what the event is. */
  readonly documentation?: string;
}

/**
 * The same suggestions with the clock time that each has at the spot of the cursor on the plan's date, in the place of
 * the words beside it; of an event that does not happen, why. Those without one (no date, no coordinates, a plain clock
 * time) stay as they are.
 */
export function withTimes(
  suggestions: readonly Suggestion[],
  analysis: Analysis,
  cursor: Cursor,
): readonly TimedSuggestion[] {
  const spot = spotAround(analysis, cursor);
  if (spot?.at === undefined) return suggestions;
  const scope = scopeOf(spot, spot.at, analysis, cursor);
  const { clock, date } = spot.at;
  return suggestions.map((suggestion) => {
    const { value } = moment.parse(lastMoment(suggestion.text));
    if (value === undefined || value.kind === 'clock') return suggestion;
    const resolution = resolveMoment(value, scope);
    const doc = eventOf(value)?.doc;
    const documented = doc === undefined ? {} : { documentation: doc };
    if (resolution.kind === 'at') {
      const several = resolution.notes.find((note) => note.note === 'several');
      const times = several?.note === 'several' ? several.instants : [resolution.instantMs];
      const detail = times.map((instantMs) => clockText(instantMs, clock, date)).join(', ');
      return { ...suggestion, detail, ...documented };
    }
    if (resolution.kind !== 'failed' || resolution.failure !== 'no-such-event') return suggestion;
    return { ...suggestion, detail: `none: ${resolution.reason.replace(/\.$/, '')}`, ...documented };
  });
}

/** The spot whose lines the cursor is among; for the lines above all spots, the first one. */
function spotAround({ day, uri }: Analysis, { path, offset }: Cursor): DaySpot | undefined {
  const list = path.findIndex((step) => step.kind === 'key' && step.name === 'spots');
  if (list < 0) return day?.spots[0];
  const begins = path[list + 1]?.at ?? 0;
  return day?.spots.filter(({ spot: { self } }) => {
    return self.uri === uri && self.span.start >= begins && self.span.start <= offset;
  })[0];
}

/** What moments may refer to. A line that itself decides when one arrives cannot lean on that. */
function scopeOf(spot: DaySpot, place: SpotPlace, analysis: Analysis, { path }: Cursor): MomentScope {
  const scope = settledScope(analysis, spot, place);
  const key = path.at(-1);
  const decidesArrival = key?.kind === 'key' && (key.name === 'arrive' || key.name === 'leave');
  return decidesArrival ? { ...scope, mark: () => unknown } : scope;
}

/** The last moment of a list or a range that is being written. */
function lastMoment(text: string): string {
  let end = text.length;
  while (end > 0 && ' ,.'.includes(text.charAt(end - 1))) end -= 1;
  const written = text.slice(0, end);
  const ends = [', ', '.. ', ' of '].map((separator) => {
    const place = written.lastIndexOf(separator);
    return place < 0 ? 0 : place + separator.length;
  });
  return written.slice(Math.max(...ends));
}

function eventOf(value: Moment) {
  const base = value.kind === 'offset' ? value.base : value;
  return base.kind === 'event' ? eventNamed(base.event) : undefined;
}
