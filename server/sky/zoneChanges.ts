import { type ZoneClock, zoneClock } from './zones.ts';

/** An offset that holds for good from an instant on, and that zone data of before does not know. */
interface ZoneChange {
  readonly zones: readonly string[];
  readonly sinceMs: number;
  readonly offsetSeconds: number;
}

/**
 * Changes of zones after tzdata 2025c, found by comparing every zone of 2025c with tzdata 2026d (IANA) from 2025 to
 * 2028. Left out: Europe/Chisinau, where only the hour of the change itself moved.
 */
const CHANGES: readonly ZoneChange[] = [
  {
    zones: ['America/Vancouver', 'Canada/Pacific'],
    sinceMs: Date.UTC(2026, 10, 1, 9),
    offsetSeconds: -7 * 3600,
  },
  {
    zones: ['America/Edmonton', 'America/Inuvik', 'America/Yellowknife', 'Canada/Mountain'],
    sinceMs: Date.UTC(2026, 10, 1, 8),
    offsetSeconds: -6 * 3600,
  },
  {
    zones: ['Africa/Casablanca', 'Africa/El_Aaiun'],
    sinceMs: Date.UTC(2026, 8, 20, 1),
    offsetSeconds: 0,
  },
];

/**
 * Whether the runtime's zone data is older than a known change that matters at this instant: then its local times are
 * off by the difference. Undefined when the runtime agrees or nothing is known.
 */
export function staleZoneData(
  zone: string,
  instantMs: number,
  clock: ZoneClock = zoneClock(zone),
): { readonly expectedOffsetSeconds: number; readonly runtimeOffsetSeconds: number } | undefined {
  const name = zone.toLowerCase();
  const change = CHANGES.find(({ zones }) => zones.some((known) => known.toLowerCase() === name));
  if (change === undefined || instantMs < change.sinceMs) {
    return undefined;
  }
  const runtimeOffsetSeconds = clock.offsetSeconds(instantMs);
  return runtimeOffsetSeconds === change.offsetSeconds
    ? undefined
    : { expectedOffsetSeconds: change.offsetSeconds, runtimeOffsetSeconds };
}
