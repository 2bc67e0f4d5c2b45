import { fieldOfView } from '../optics/view.ts';
import { ev100OfLuminance, skyLuminancePerLux } from '../sky/skyLuminance.ts';
import type { DayShot } from './day.ts';
import type { ShotLight } from './light.ts';
import type { Memory } from './memory.ts';
import type { SpotPlace } from './place.ts';
import type { Thresholds } from './thresholds.ts';

/** A part of a scene on a spot meter, EV at ISO 100: as metered, or estimated. */
export interface PartOfScene {
  readonly ev100: number;
  /** An estimate is good to about plus or minus so many stops; absent for a reading. */
  readonly spreadStops?: number;
}

/** What sky and foreground were estimated from. */
export interface SceneEstimate {
  /** Light on level ground, in lux: all of it, and the sky's. */
  readonly groundLux: number;
  readonly skyLux: number;
  /** How much of the light the foreground throws back. */
  readonly reflectance: number;
  /** The place of the sky that was taken: the middle of what the frame shows of it. Degrees. */
  readonly skyAltitudeDegrees: number;
  readonly azimuthFromSunDegrees: number;
  /** False while it is not known where the lens points: then the sky at 90° from the sun is taken. */
  readonly facingKnown: boolean;
  readonly skyLuminance: number;
  readonly foregroundLuminance: number;
  /** The share of the sky that was taken as overcast. */
  readonly cloudShare: number;
}

/** Sky and foreground of a scene. The doubt about how much light there is drops out of the difference. */
export interface SceneLight {
  readonly sky: PartOfScene;
  readonly foreground: PartOfScene;
  /** Sky less foreground, in stops. */
  readonly differenceStops: number;
  /** Of the difference; 0 when both were metered. */
  readonly spreadStops: number;
  /** Absent when both were metered. */
  readonly estimate?: SceneEstimate;
}

/** Until the sun is so far down the standard sky is taken, as it is with the sun on the horizon; later nothing is. */
const darkDegrees = -6;
/** Ground may be half as bright as the threshold says, or twice. Common practice, no source, as are the others. */
const foregroundSpreadStops = 1;
const clearSpreadStops = 0.5;
/** Lit edges and dark undersides. */
const cloudSpreadStops = 1;
const twilightSpreadStops = 1;
const facingSpreadStops = 1;
/** Where the frame is not known. */
const usualSkyDegrees = 15;

/**
 * Sky and foreground of a shot with a `scene`: as metered, else estimated from the light that is expected. Ground throws
 * back L = ρ·E / π (Lambert); the sky is that of ISO 15469. What was metered carries the estimate of the other.
 * Undefined without a scene, and when an estimate is needed and time, place or sky are not known, or it is dark.
 */
export function sceneLight(
  { shot, light }: DayShot,
  at: SpotPlace | undefined,
  thresholds: Thresholds,
  memory: Memory,
): SceneLight | undefined {
  const { scene } = shot;
  if (scene === undefined || scene.self.broken.size > 0) return undefined;
  const sky = scene.sky?.value;
  const foreground = scene.foreground?.value;
  if (sky !== undefined && foreground !== undefined) {
    const differenceStops = sky - foreground;
    return { sky: { ev100: sky }, foreground: { ev100: foreground }, differenceStops, spreadStops: 0 };
  }
  // What is written and cannot be read is not guessed at.
  if (light?.expected === undefined || shot.self.broken.has('facing') || shot.self.broken.has('tilt'))
    return undefined;
  const estimate = estimated(light, at, thresholds, memory);
  if (estimate === undefined) return undefined;
  const skyEv = ev100OfLuminance(estimate.skyLuminance);
  const foregroundEv = ev100OfLuminance(estimate.foregroundLuminance);
  const differenceStops = skyEv - foregroundEv;
  const ofSky = skyDoubt(light);
  const spreadStops = Math.hypot(ofSky, foregroundSpreadStops);
  const ofLight = light.expected.spreadStops;
  return {
    sky:
      sky !== undefined
        ? { ev100: sky }
        : foreground !== undefined
          ? { ev100: foreground + differenceStops, spreadStops }
          : { ev100: skyEv, spreadStops: Math.hypot(ofSky, ofLight) },
    foreground:
      foreground !== undefined
        ? { ev100: foreground }
        : sky !== undefined
          ? { ev100: sky - differenceStops, spreadStops }
          : { ev100: foregroundEv, spreadStops: Math.hypot(foregroundSpreadStops, ofLight) },
    differenceStops,
    spreadStops,
    estimate,
  };
}

/** The doubt about one place of the sky against the light of all of it: independent causes, their squares add. */
function skyDoubt({ cloudShare, sun, direction }: ShotLight): number {
  return Math.hypot(
    clearSpreadStops,
    cloudSpreadStops * (cloudShare ?? 1),
    sun.altitudeDegrees < 0 ? twilightSpreadStops : 0,
    direction === undefined ? facingSpreadStops : 0,
  );
}

function estimated(
  light: ShotLight,
  at: SpotPlace | undefined,
  thresholds: Thresholds,
  memory: Memory,
): SceneEstimate | undefined {
  const { sun, expected, direction } = light;
  const skyAltitudeDegrees = skyAltitude(light, at);
  if (expected === undefined || skyAltitudeDegrees === undefined) return undefined;
  if (sun.altitudeDegrees < darkDegrees) return undefined;
  const turned = direction === undefined ? 90 : Math.abs(direction.bearingFromFacingDegrees);
  const place = { altitudeDegrees: skyAltitudeDegrees, azimuthFromSunDegrees: turned };
  const cloudShare = light.cloudShare ?? 0.5;
  const { skyLux } = expected.parts;
  const perLux = memory.once(
    `standard sky ${cloudShare} ${skyAltitudeDegrees} ${turned} ${sun.altitudeDegrees}`,
    () =>
      (1 - cloudShare) * skyLuminancePerLux('clear', place, sun.altitudeDegrees) +
      cloudShare * skyLuminancePerLux('overcast', place, sun.altitudeDegrees),
  );
  const reflectance = thresholds['foreground-reflectance'];
  return {
    groundLux: expected.lux,
    skyLux,
    reflectance,
    skyAltitudeDegrees,
    azimuthFromSunDegrees: turned,
    facingKnown: direction !== undefined,
    cloudShare,
    skyLuminance: skyLux * perLux,
    foregroundLuminance: (expected.lux * reflectance) / Math.PI,
  };
}

/** The middle of the sky that the frame shows above the land; undefined when it shows none. */
function skyAltitude({ camera }: ShotLight, at: SpotPlace | undefined): number | undefined {
  if (camera === undefined) return usualSkyDegrees;
  const half = fieldOfView(camera.focal, camera.sensor).verticalDegrees / 2;
  const land = Math.max(at?.skyline?.altitudeDegrees(camera.facing) ?? 0, 0);
  const bottom = Math.max(camera.tilt - half, land);
  const top = Math.min(camera.tilt + half, 90);
  return top <= bottom ? undefined : (bottom + top) / 2;
}
