import { usualDial } from '../exposure/dial.ts';
import { type Drift, driftingSeconds, latestStart, longestDriftSeconds } from '../exposure/drift.ts';
import { type ShutterSetting, shutterSetting } from '../exposure/setting.ts';
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

/**
 * What is set in light that changes: the time that collects the metered light, where it differs from the plain time by
 * more than the threshold `drift`, in stops. Else, and where the plan sets the time, the plain setting.
 */
export function heldSetting(exposure: ShotExposure, thresholdStops: number): ShutterSetting {
  const { basis, drift, input, setting } = exposure;
  if (basis === 'stated' || drift === undefined || input === undefined) return setting;
  if (drift.drift.neverCompletes || Math.abs(drift.stops) <= thresholdStops) return setting;
  return shutterSetting(drift.drift.seconds, input.dial ?? usualDial(), input.bulb);
}

/** The longest that a body holds its shutter open, as far as anybody waits: its bulb, or without bulb its dial. */
function longestSeconds({ input }: ShotExposure): number {
  const bulb = input?.bulb;
  if (bulb === undefined) return longestDriftSeconds;
  const limit = bulb === 'none' ? (input?.dial ?? usualDial()).longest.seconds : bulb.longestSeconds;
  return Math.min(limit, longestDriftSeconds);
}

/** A start from which an exposure completes. */
export interface CompletingStart {
  readonly startMs: number;
  /** How many stops more light there is than at the start that was planned, by the light model. */
  readonly brighterStops: number;
}

/**
 * The latest whole minute, within the two hours before, at which an exposure can start and complete before the body must
 * close its shutter; null when there is none. The same light is collected: at each start the meter is read again.
 */
export function latestCompletingStart(
  exposure: ShotExposure,
  startMs: number,
  at: SpotPlace,
  plan: PlanModel,
): CompletingStart | null {
  const wantedSeconds = exposure.filtered?.correctedSeconds;
  if (wantedSeconds === undefined) return null;
  const lightStops = lightStopsFrom(startMs, at, plan);
  const latest = latestStart({
    wantedSeconds,
    fromMs: startMs - 2 * 3_600_000,
    toMs: startMs,
    longestSeconds: longestSeconds(exposure),
    withinMs: 15_000,
    lightStops,
  });
  if (latest === null) return null;
  const minute = Math.floor(latest / 60_000) * 60_000;
  return { startMs: minute, brighterStops: lightStops(minute) };
}

/** The light against that at the start, in stops. */
function lightStopsFrom(startMs: number, at: SpotPlace, plan: PlanModel): (instantMs: number) => number {
  const ev = lightAt(at.place, lightOptions(startMs, at, plan));
  const metered = ev(startMs);
  return (instantMs) => ev(instantMs) - metered;
}
