import type { Rule } from '../analysis.ts';
import { offsetText } from '../schedule/localTime.ts';
import { mendFixes } from './mends.ts';
import { firstSpot, zoneMends } from './zones.ts';

/** The map from which zones are found is simplified; within 30 km of a border it may name the wrong one. */
export const zoneNearBorder: Rule = {
  code: 'time/zone-near-border',
  severity: 'warning',
  doc: 'The time zone was found from the coordinates, and a border to a zone with another time is within 30 km. Name the zone to be sure.',
  check(analysis, report) {
    const found = firstSpot(analysis, (at) => at.zoneDoubt?.kind === 'near-border');
    const doubt = found?.at.zoneDoubt;
    const place = found?.visit.spot.at;
    if (place === undefined || doubt?.kind !== 'near-border') return;
    const zones = [doubt.own.zone, ...new Set(doubt.others.map(({ zone }) => zone))].slice(0, 4);
    const others = doubt.others
      .slice(0, 3)
      .map(({ zone, offsetSeconds }) => `${zone} (${offsetText(offsetSeconds)})`);
    report(
      place,
      `Clock times here follow ${doubt.own.zone} (${offsetText(doubt.own.offsetSeconds)}), but ${others.join(' and ')} ${others.length === 1 ? 'lies' : 'lie'} within 30 km. Write ${zones.map((zone) => `\`timezone: ${zone}\``).join(' or ')}.`,
      { facts: { zones, open: true, mends: zoneMends(analysis, zones) } },
    );
  },
  fixes: mendFixes,
};
