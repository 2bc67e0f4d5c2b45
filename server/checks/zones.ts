import type { Checkable } from '../analysis.ts';
import type { DaySpot } from '../schedule/day.ts';
import type { SpotPlace } from '../schedule/place.ts';
import type { Fact } from '../text/finding.ts';
import type { Place } from '../text/span.ts';
import { mend } from './mends.ts';

/** How far the sun's own clock (longitude / 15) may be from a zone's before one of them must be wrong, in hours. */
const mirroredHours = 4;

/**
 * Whether the given zone suits the place once the sign of its longitude is turned, and not before: a minus was left out,
 * or one too many is there. Zones keep within about 3.5 hours of the sun (the west of China is the extreme, by tzdata).
 */
export function longitudeLooksMirrored({ zoneDoubt, place }: SpotPlace): boolean {
  if (zoneDoubt?.kind !== 'disagrees') return false;
  const hours = zoneDoubt.given.offsetSeconds / 3600;
  const off = (longitude: number) => Math.abs(((hours - longitude / 15 + 36) % 24) - 12);
  return off(place.longitude) > mirroredHours && off(-place.longitude) < mirroredHours - 1;
}

/** The first spot of which something holds, with its place. */
export function firstSpot(
  { day }: Checkable,
  holds: (at: SpotPlace, visit: DaySpot) => boolean,
): { readonly visit: DaySpot; readonly at: SpotPlace } | undefined {
  for (const visit of day?.spots ?? []) {
    if (visit.at !== undefined && holds(visit.at, visit)) return { visit, at: visit.at };
  }
  return undefined;
}

/** Where a finding about the zone is shown: the zone, or else the coordinates that it was found from. */
export function zonePlace({ plan }: Checkable, { spot }: DaySpot): Place | undefined {
  return plan?.model.timezone ?? spot.at;
}

/** Mends that name a zone: in the place of the one that is there, or on a line of its own above the date. */
export function zoneMends({ plan, text }: Checkable, zones: readonly string[]): readonly Fact[] {
  const given = plan?.model.timezone;
  if (given !== undefined) return zones.map((zone) => mend(`Write ${zone}`, given, zone));
  const date = plan?.model.self.keys.get('date');
  if (plan === undefined || date === undefined) return [];
  const begins = date.start === 0 || text[date.start - 1] === '\n' || text[date.start - 1] === '\r';
  if (!begins) return [];
  const lineEnd = text.includes('\r\n') ? '\r\n' : '\n';
  const place = { uri: plan.uri, span: { start: date.start, end: date.start } };
  return zones.map((zone) => mend(`Add timezone: ${zone}`, place, `timezone: ${zone}${lineEnd}`));
}
