import { type Drift, driftingSeconds, latestStart } from '../exposure/drift.ts';
import type { PlanModel } from '../plan/fields.ts';
import { lightAt } from '../sky/light.ts';
import type { DayInput } from './day.ts';
import type { ShotExposure } from './frames.ts';
import { forecastAt, lightOptions } from './light.ts';
import type { SpotPlace } from './place.ts';

/** What changing light does to an exposure that begins at a known instant. */
export interface ShotDrift {
  /** The time that collects the metered light. */
  readonly drift: Drift;
  /** By how many stops it is longer (positive) or shorter than in light that stays; Infinity when it never completes. */
  readonly stops: number;
}

/** Exposures shorter than this see no change of light worth a word, whatever the sun does: a tenth of a stop a minute at most. */
const shortestSeconds = 10;

/** Light that changes by less than this from first to last is steady: a sixth of the smallest step of a dial. */
const steadyStops = 0.05;

/** The reading is taken to be made when the shutter opens. Undefined for short exposures and for steady light. */
export function shotDrift(
  exposure: ShotExposure,
  startMs: number,
  at: SpotPlace,
  { plan, memory }: DayInput,
): ShotDrift | undefined {
  const wantedSeconds = exposure.filtered?.correctedSeconds;
  if (wantedSeconds === undefined || wantedSeconds < shortestSeconds) return undefined;
  const cloud = forecastAt(startMs, at, plan)?.cloud?.value;
  return memory.once(`drift ${at.key} ${startMs} ${wantedSeconds} ${cloud}`, () =>
    findDrift(wantedSeconds, startMs, lightStopsFrom(startMs, at, plan)),
  );
}

function findDrift(
  wantedSeconds: number,
  startMs: number,
  lightStops: (instantMs: number) => number,
): ShotDrift | undefined {
  const middle = lightStops(startMs + wantedSeconds * 500);
  const end = lightStops(startMs + wantedSeconds * 1000);
  if (Math.abs(middle) < steadyStops && Math.abs(end) < steadyStops) return undefined;
  const drift = driftingSeconds({ wantedSeconds, startMs, lightStops });
  const stops = drift.neverCompletes ? Number.POSITIVE_INFINITY : Math.log2(drift.seconds / wantedSeconds);
  return { drift, stops };
}

/** The latest start, within the two hours before, of an exposure that would complete; null when none would. The meter is read again at each start. */
export function latestCompletingStart(
  exposure: ShotExposure,
  startMs: number,
  at: SpotPlace,
  plan: PlanModel,
): number | null {
  const wantedSeconds = exposure.filtered?.correctedSeconds;
  if (wantedSeconds === undefined) return null;
  return latestStart({
    wantedSeconds,
    fromMs: startMs - 2 * 3_600_000,
    toMs: startMs,
    lightStops: lightStopsFrom(startMs, at, plan),
  });
}

/** The light against that at the start, in stops. */
function lightStopsFrom(startMs: number, at: SpotPlace, plan: PlanModel): (instantMs: number) => number {
  const ev = lightAt(at.place, lightOptions(startMs, at, plan));
  const metered = ev(startMs);
  return (instantMs) => ev(instantMs) - metered;
}
