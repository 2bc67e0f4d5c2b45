import { secondsFor } from '../exposure/apex.ts';
import { exactFNumber, exactIso } from '../exposure/dial.ts';
import { type FilteredExposure, type FilteredExposureInput, filteredExposure } from '../exposure/exposure.ts';
import { sequenceTime } from '../exposure/sequence.ts';
import { type ShutterSetting, shutterSetting } from '../exposure/setting.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { ExpectedLight } from '../sky/light.ts';
import type { DayShot } from './day.ts';
import type { ShotDrift } from './drift.ts';
import type { Gear } from './gear.ts';
import { present } from './present.ts';

/** How the time of a shot's frames was found. */
export interface ShotExposure {
  /** `metered`: worked out from the reading; `stated`: the plan sets the time; `expected`: from the light that is expected. */
  readonly basis: 'metered' | 'stated' | 'expected';
  /** What the working starts from; absent when the plan sets the time and has no reading. */
  readonly input?: FilteredExposureInput;
  /** The working; absent likewise. */
  readonly filtered?: FilteredExposure;
  /** What is set on the body. */
  readonly setting: ShutterSetting;
  /** ± stops of the light that was expected, on top of that of the filters. */
  readonly lightSpreadStops?: number;
  /** What changing light does to it; absent while the start or the place is not known. */
  readonly drift?: ShotDrift;
}

/** The frames of a shot: how many, how long each holds the body, how long all of it takes. Seconds. */
export interface ShotFrames {
  readonly frames: number;
  /** Exposures of one frame: more than one with a bracket. */
  readonly exposures: readonly number[];
  readonly openSeconds: number;
  readonly totalSeconds: number;
}

/**
 * The exposure of a shot: the time that the plan sets, else worked out from the meter reading. Undefined while
 * something that it needs is missing or unreadable.
 */
function shotExposure(shot: Shot, gear: Gear): ShotExposure | undefined {
  if (shot.self.broken.has('shutter') || shot.self.broken.has('metered')) return undefined;
  const input = exposureInput(shot, gear);
  const filtered = input === undefined ? undefined : filteredExposure(input);
  if (shot.shutter !== undefined) {
    const setting = shutterSetting(shot.shutter.value, gear.dial, gear.bulb);
    return present({ basis: 'stated' as const, input, filtered, setting });
  }
  if (input === undefined || filtered === undefined) return undefined;
  return { basis: 'metered', input, filtered, setting: filtered.setting };
}

/** The input of the exposure arithmetic for a shot with a meter reading. */
export function exposureInput(shot: Shot, gear: Gear): FilteredExposureInput | undefined {
  const metered = shot.metered?.value;
  if (metered === undefined || gear.stack === undefined || shot.self.broken.has('iso')) return undefined;
  if (shot.self.broken.has('aperture')) return undefined;
  const fNumber = gear.fNumber ?? (metered.kind === 'time' ? metered.aperture : undefined);
  if (fNumber === undefined) return undefined;
  const reading =
    metered.kind === 'time'
      ? { seconds: metered.seconds, fNumber: metered.aperture ?? fNumber, iso: metered.iso ?? gear.iso }
      : { seconds: secondsIn(metered.ev100, fNumber, gear.iso), fNumber, iso: gear.iso };
  return inputFor(reading, fNumber, gear);
}

/** The exposure of a shot by its reading or the plan's word, else by the light that is expected. */
export function readOrExpectedExposure(
  shot: Shot,
  gear: Gear,
  light: ExpectedLight | undefined,
): ShotExposure | undefined {
  return shotExposure(shot, gear) ?? expectedExposure(shot, gear, light);
}

/** What a shot whose time the plan states would be exposed by the light that is expected, had it no such time. */
export function exposureUnstated({ shot, gear, light }: DayShot): ShotExposure | undefined {
  const { shutter: _, ...unstated } = shot;
  return expectedExposure(unstated, gear, light?.expected);
}

/**
 * The exposure of a shot that has no reading, from the light that is expected when it begins: an estimate of an
 * incident-light meter, ± the light's own spread. Undefined while light, aperture or filters are not known.
 */
function expectedExposure(
  shot: Shot,
  gear: Gear,
  light: ExpectedLight | undefined,
): ShotExposure | undefined {
  const { fNumber, iso } = gear;
  if (light === undefined) return undefined;
  const broken = shot.self.broken;
  if (fNumber === undefined || shot.metered !== undefined || shot.shutter !== undefined) return undefined;
  if (broken.has('metered') || broken.has('shutter') || broken.has('aperture') || broken.has('iso'))
    return undefined;
  const seconds = secondsIn(light.ev100, fNumber, iso);
  const input = inputFor({ seconds, fNumber, iso }, fNumber, gear);
  if (input === undefined) return undefined;
  const spreadStops = Math.hypot(input.spreadStops, light.spreadStops);
  const filtered = filteredExposure({ ...input, spreadStops });
  return {
    basis: 'expected',
    input,
    filtered,
    setting: filtered.setting,
    lightSpreadStops: light.spreadStops,
  };
}

/** A time that the plan sets, beside that which the expected light asks for. */
export interface StatedEstimate {
  readonly expectedSeconds: number;
  /** By how many stops the set time is longer (brighter) than that. */
  readonly differenceStops: number;
  /** ± of light and filters together. */
  readonly spreadStops: number;
}

/**
 * For a shot that sets its time and has no reading. Undefined where nothing can be estimated, and for stars, which are
 * exposed for themselves and not for the light on the ground.
 */
export function statedEstimate(dayShot: DayShot): StatedEstimate | undefined {
  const { shot, exposure } = dayShot;
  if (exposure?.basis !== 'stated' || exposure.filtered !== undefined) return undefined;
  if (shot.effect?.value.startsWith('star') === true) return undefined;
  const estimate = exposureUnstated(dayShot);
  if (estimate?.filtered === undefined) return undefined;
  const { correctedSeconds, shortestSeconds } = estimate.filtered;
  const differenceStops = Math.log2(exposure.setting.seconds / correctedSeconds);
  if (!Number.isFinite(differenceStops)) return undefined;
  return {
    expectedSeconds: correctedSeconds,
    differenceStops,
    spreadStops: Math.log2(correctedSeconds / shortestSeconds),
  };
}

/** The shutter time in light of an exposure value, at the values that the markings of aperture and ISO stand for. */
function secondsIn(ev100: number, fNumber: number, iso: number): number {
  return secondsFor({ ev100, fNumber: exactFNumber(fNumber), iso: exactIso(iso) });
}

/** The same for any reading, with the gear of a shot. */
export function inputFor(
  metered: FilteredExposureInput['metered'],
  fNumber: number,
  gear: Gear,
): FilteredExposureInput | undefined {
  if (gear.stack === undefined) return undefined;
  return present({
    metered,
    fNumber,
    iso: gear.iso,
    stops: gear.stack.stops,
    spreadStops: gear.stack.spreadStops,
    dial: gear.dial,
    bulb: gear.bulb,
    noiseReduction: gear.noiseReduction,
    film: gear.reciprocity,
  });
}

/** How long all frames of a shot take, each of `exposureSeconds`, `columns` of them side by side in a panorama. */
export function shotFrames(shot: Shot, gear: Gear, exposureSeconds: number, columns = 1): ShotFrames {
  const frames = (shot.frames?.value ?? 1) * columns;
  const exposures = bracketExposures(shot, exposureSeconds);
  const gapSeconds = shot.gap?.value ?? 0;
  const one = sequenceTime(exposures, { noiseReduction: gear.noiseReduction, gapSeconds });
  return {
    frames,
    exposures,
    openSeconds: one.openSeconds * frames,
    totalSeconds: one.totalSeconds * frames + gapSeconds * Math.max(frames - 1, 0),
  };
}

/** The times of a bracket around the middle one, the shortest first; one time without a bracket. */
function bracketExposures(shot: Shot, middleSeconds: number): readonly number[] {
  const count = shot.bracket?.frames?.value ?? 1;
  const step = Math.abs(shot.bracket?.step?.value ?? 1);
  return Array.from(
    { length: Math.min(count, 99) },
    (_, place) => middleSeconds * 2 ** ((place - (count - 1) / 2) * step),
  );
}
