import type { Place } from '../sky/place.ts';
import { type ZoneOffset, zonesDisagree, zoneUncertainty } from '../sky/zoneLookup.ts';
import type { ZoneClock } from '../sky/zones.ts';

/** Why the zone of a place may be wrong. */
export type ZoneUncertainty =
  | { readonly kind: 'disagrees'; readonly given: ZoneOffset; readonly lookedUp: ZoneOffset }
  | { readonly kind: 'near-border'; readonly own: ZoneOffset; readonly others: readonly ZoneOffset[] };

/** A zone that was given and does not suit the place, or one that was found near a border. */
export function zoneDoubt(
  place: Place,
  zone: string,
  given: boolean,
  instantMs: number,
  clockOf: (zone: string) => ZoneClock,
): ZoneUncertainty | undefined {
  if (given) {
    const disagreement = zonesDisagree(place, zone, instantMs, clockOf);
    return disagreement === undefined ? undefined : { kind: 'disagrees', ...disagreement };
  }
  const doubt = zoneUncertainty(place, instantMs, clockOf);
  if (doubt === undefined) return undefined;
  const { others, ...own } = doubt;
  return { kind: 'near-border', own, others };
}
