import type { Rule } from '../analysis.ts';
import { offsetText } from '../schedule/localTime.ts';
import type { SpotPlace } from '../schedule/place.ts';
import { staleZoneData as staleness } from '../sky/zoneChanges.ts';
import { firstSpot, zonePlace } from './zones.ts';

/** Governments change zones at short notice; a machine that has not heard of it shows the wrong time. */
export const staleZoneData: Rule = {
  code: 'time/stale-zone-data',
  severity: 'warning',
  doc: 'The zone data of this machine is older than a change of this time zone, so that its local times are off. Update the editor or the machine.',
  check(analysis, report) {
    const found = firstSpot(analysis, (at) => staleness(at.clock.zone, noonMs(at), at.clock) !== undefined);
    const place = found === undefined ? undefined : zonePlace(analysis, found.visit);
    if (found === undefined || place === undefined) return;
    const stale = staleness(found.at.clock.zone, noonMs(found.at), found.at.clock);
    if (stale === undefined) return;
    const { expectedOffsetSeconds, runtimeOffsetSeconds } = stale;
    report(
      place,
      `Since a change of law, ${found.at.clock.zone} is at ${offsetText(expectedOffsetSeconds)} on that date; the zone data of this machine still says ${offsetText(runtimeOffsetSeconds)}. Update it: until then times here are off.`,
      { facts: { zone: found.at.clock.zone, expectedOffsetSeconds, runtimeOffsetSeconds } },
    );
  },
};

function noonMs(at: SpotPlace): number {
  return at.clock.day(at.date).startMs + 12 * 3_600_000;
}
