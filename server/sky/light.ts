import { from0To360, RADIANS } from './angles.ts';
import { type MoonPosition, moonPosition, sunPosition } from './bodies.ts';
import type { Place } from './place.ts';
import type { Skyline } from './skyline.ts';

/** The coefficients of log10(lux) = a + bx + cx² + dx³, with x the altitude / 90°. */
export type Coefficients = readonly [a: number, b: number, c: number, d: number];

/** One polynomial, good from `fromDegrees` up to the next row. */
interface Stretch {
  readonly fromDegrees: number;
  readonly coefficients: Coefficients;
}

/*
 * Horizontal illuminance under a clear sky: P. K. Seidelmann (ed.), Explanatory Supplement to the Astronomical Almanac,
 * 1992, section 9.3 (Yallop and Hohenkerk), after D. R. E. Brown, Natural Illumination Charts, 1952.
 */
const SUN: readonly Stretch[] = [
  { fromDegrees: -18, coefficients: [13.84, 262.72, 1447.42, 2797.93] },
  { fromDegrees: -12, coefficients: [2.7, 12.17, -431.69, -1899.83] },
  { fromDegrees: -5, coefficients: [2.88, 21.81, -258.11, -858.36] },
  { fromDegrees: -0.8, coefficients: [2.88, 22.26, -207.64, 1034.3] },
  { fromDegrees: 5, coefficients: [3.05, 13.28, -45.98, 64.33] },
  { fromDegrees: 20, coefficients: [3.74, 3.97, -4.07, 1.47] },
];
/** The same for the full moon at mean distance; the same source. */
const MOON: readonly Stretch[] = [
  { fromDegrees: -0.8, coefficients: [-2.79, 24.27, -252.95, 1321.29] },
  { fromDegrees: 5, coefficients: [-2.58, 12.58, -42.58, 59.06] },
  { fromDegrees: 20, coefficients: [-1.95, 4.06, -4.24, 1.56] },
];

/** Horizontal parallax of the moon at the mean distance of the table. */
export const MEAN_MOON_PARALLAX_DEGREES = 0.951;

/** Half the width over which one polynomial goes over into the next; they miss each other by up to 1 %. */
const SEAM_DEGREES = 0.25;

/** Where an altitude falls in a table: in one row, or at the seam between two. */
export interface TableReading {
  /** Altitude / 90°. */
  readonly x: number;
  readonly row: Coefficients;
  /** The row above and its share, 0 to 1; the share of `row` is what is left. Absent away from a seam. */
  readonly next?: { readonly row: Coefficients; readonly share: number };
}

/** How the table of the sun is read at an airless altitude: not below -18°, where the night sky alone is left. */
export function sunReading(altitudeDegrees: number): TableReading {
  return reading(SUN, Math.max(-18, Math.min(90, altitudeDegrees)));
}

/** How the table of the full moon at its mean distance is read. */
export function moonReading(altitudeDegrees: number): TableReading {
  return reading(MOON, Math.min(90, altitudeDegrees));
}

function reading(rows: readonly Stretch[], altitudeDegrees: number): TableReading {
  const x = altitudeDegrees / 90;
  const begun = rows.findLastIndex(({ fromDegrees }) => altitudeDegrees > fromDegrees - SEAM_DEGREES);
  const last = rows[Math.max(0, begun)] as Stretch;
  const before = rows[begun - 1];
  const share = (altitudeDegrees - last.fromDegrees + SEAM_DEGREES) / (2 * SEAM_DEGREES);
  if (before === undefined || share >= 1) return { x, row: last.coefficients };
  return { x, row: before.coefficients, next: { row: last.coefficients, share } };
}

function logLux({ x, row, next }: TableReading): number {
  const value = polynomial(row, x);
  return next === undefined ? value : value + (polynomial(next.row, x) - value) * next.share;
}

function polynomial([a, b, c, d]: Coefficients, x: number): number {
  return a + x * (b + x * (c + x * d));
}

/**
 * Illuminance of level ground by sun and sky, in lux, for the airless altitude of the sun's centre; clear sky. Below -18°
 * the night sky alone is left: starlight and airglow, held at the table's last value of 0.0006 lux.
 */
export function sunIlluminanceLux(altitudeDegrees: number): number {
  return 10 ** logLux(sunReading(altitudeDegrees));
}

/** How far the moon stands from full, 0 to 180. */
export function degreesFromFull(elongationDegrees: number): number {
  return Math.abs(180 - from0To360(elongationDegrees));
}

/**
 * Illuminance of level ground by the moon, in lux; clear sky. Airless altitude of the centre, elongation from the sun 0
 * to 360, horizontal parallax. 0 when the moon is down.
 */
export function moonIlluminanceLux(
  altitudeDegrees: number,
  elongationDegrees: number,
  horizontalParallaxDegrees = MEAN_MOON_PARALLAX_DEGREES,
): number {
  if (altitudeDegrees < -0.8) {
    return 0;
  }
  const fromFull = degreesFromFull(elongationDegrees);
  return (
    10 **
    (logLux(moonReading(altitudeDegrees)) -
      0.00868 * fromFull -
      2.2e-9 * fromFull ** 4 +
      2 * Math.log10(horizontalParallaxDegrees / MEAN_MOON_PARALLAX_DEGREES))
  );
}

/**
 * What a cloud cover (0 to 1) leaves of the light on level ground. F. Kasten and G. Czeplak, Solar Energy 24 (1980),
 * 177-189: 1 - 0.75 N^3.4, with N the share of the sky (eighths / 8). Found for sunlight; taken for the moon too.
 */
export function cloudFactor(share: number): number {
  return 1 - 0.75 * Math.max(0, Math.min(1, share)) ** 3.4;
}

/**
 * The share of the clear-sky illuminance of level ground that comes from the sky and not straight from the sun; 1 when
 * the sun is down. IES RP-21 (1984), clear sky, from memory: sky 800 + 15500 √sin h lux, sun 127500 exp(-0.21 / sin h)
 * sin h lux. About 15 % at 60°, 30 % at 20°, 85 % at 5°.
 */
export function skyShare(altitudeDegrees: number): number {
  const sine = Math.sin(RADIANS * altitudeDegrees);
  if (sine <= 0.001) {
    return 1;
  }
  const sky = 800 + 15_500 * Math.sqrt(sine);
  const sun = 127_500 * Math.exp(-0.21 / sine) * sine;
  return sky / (sky + sun);
}

/** Calibration constant of an incident-light meter with a flat receptor, lux at EV 0 and ISO 100 (ISO 2720: C = 250). */
export const LUX_AT_EV_0 = 2.5;

/** Exposure value at ISO 100 for an illuminance in lux. */
export function ev100OfLux(lux: number): number {
  return Math.log2(lux / LUX_AT_EV_0);
}

/** What the light is made of, in lux on level ground, clouds taken off. */
export interface LightParts {
  /** Airless, of the centre: what the table is read at. */
  readonly sunAltitudeDegrees: number;
  /** Sun and sky together without clouds, as the table has it. */
  readonly clearLux: number;
  /** Straight from the sun; 0 behind the skyline. */
  readonly directSunLux: number;
  /** From the sky by day and in twilight, down to starlight. */
  readonly skyLux: number;
  /** 0 behind the skyline. */
  readonly moonLux: number;
  /** What the clouds leave, 0 to 1. */
  readonly cloudFactor: number;
  /** What the clouds leave of the sun's own beam, 0 to 1. */
  readonly openShare: number;
  readonly sunBehindSkyline: boolean;
  /** Absent while the sun stands so high that the moon adds nothing that counts. */
  readonly moon?: MoonPosition;
  readonly moonBehindSkyline: boolean;
}

/** What the ± of an estimate is made of, in stops: independent causes, so their squares add. */
export interface SpreadParts {
  /** Real skies against the table: by day and in twilight, by moonlight and by starlight, each by its share of the light. */
  readonly skyStops: number;
  readonly cloudStops: number;
  /** How much of the sky the land hides; 0 unless the sun stands behind the skyline by day. */
  readonly shadeStops: number;
  /** The moon's share of the light, 0 to 1. */
  readonly moonShare: number;
  /** The share of the night sky, starlight and airglow, 0 to 1. */
  readonly nightShare: number;
}

/** An estimate of the light on level ground, as an incident-light meter would read it. */
export interface ExpectedLight {
  readonly lux: number;
  readonly ev100: number;
  /** The estimate is good to about plus or minus so many stops. */
  readonly spreadStops: number;
  readonly spread: SpreadParts;
  readonly parts: LightParts;
  /** The cloud cover that was taken, 0 to 1; absent when it is not known. */
  readonly cloudShare?: number;
}

export interface LightOptions {
  /** Share of the sky under cloud, 0 to 1. When it is not known, the estimate lies half way, in stops, between clear and overcast. */
  readonly cloudShare?: number;
  readonly skyline?: Skyline;
}

/** Single causes of doubt, in stops either way. */
export const DOUBT_STOPS = {
  /** Real clear skies differ from the table by 0.1 in log10 and more (notes to the same tables). */
  clear: 0.1 * Math.log2(10),
  /** Overcast takes a factor of 3 to 10: 1.3 stops either side of the formula's 4. */
  overcast: 1.3,
  /** Two published formulas for moonlight differ by 0.19 in log10. */
  moon: 0.2 * Math.log2(10),
  /** A moonless night sky is given as 0.0005 to 0.002 lux. */
  night: 0.5 * Math.log2(10),
  /** Shade: how much of the sky a wall of land hides, and how bright the land is, is not known. Common practice, no source. */
  shade: 1,
} as const;

/** The estimate for an instant at a place. */
export function expectedLight(
  at: LightOptions & { readonly instantMs: number; readonly place: Place },
): ExpectedLight {
  const parts = lightParts(at.instantMs, at.place, at);
  const lux = parts.directSunLux + parts.skyLux + parts.moonLux;
  const spread = spreadOf(parts, lux, at.cloudShare);
  return {
    lux,
    ev100: ev100OfLux(lux),
    spreadStops: Math.hypot(spread.skyStops, spread.cloudStops, spread.shadeStops),
    spread,
    parts,
    ...(at.cloudShare === undefined ? {} : { cloudShare: at.cloudShare }),
  };
}

/** The exposure value at ISO 100 against time, for the light that changes during an exposure. */
export function lightAt(place: Place, options: LightOptions = {}): (instantMs: number) => number {
  return (instantMs) => {
    const { directSunLux, skyLux, moonLux } = lightParts(instantMs, place, options);
    return ev100OfLux(directSunLux + skyLux + moonLux);
  };
}

/** Above this sun altitude even a full moon adds less than 0.3 % (0.3 lux to 140): four thousandths of a stop. */
const MOON_DROWNS_DEGREES = -2;

function lightParts(instantMs: number, place: Place, options: LightOptions): LightParts {
  const { skyline, cloudShare } = options;
  const sun = sunPosition(instantMs, place);
  const factor = cloudShare === undefined ? Math.sqrt(cloudFactor(1)) : cloudFactor(cloudShare);
  const clearLux = sunIlluminanceLux(sun.altitudeDegrees);
  const total = clearLux * factor;
  // Of the sun's own beam, the clouds leave the share of the sky that is open.
  const open = cloudShare === undefined ? factor : 1 - Math.max(0, Math.min(1, cloudShare));
  const beam = Math.min(total, clearLux * (1 - skyShare(sun.altitudeDegrees)) * open);
  const isBehind = (azimuthDegrees: number, apparentDegrees: number): boolean =>
    skyline !== undefined && apparentDegrees < skyline.altitudeDegrees(azimuthDegrees);
  const sunBehindSkyline = isBehind(sun.azimuthDegrees, sun.apparentAltitudeDegrees);
  let moon: MoonPosition | undefined;
  let moonLux = 0;
  let moonBehindSkyline = false;
  if (sun.altitudeDegrees < MOON_DROWNS_DEGREES) {
    moon = moonPosition(instantMs, place);
    moonBehindSkyline = isBehind(moon.azimuthDegrees, moon.apparentAltitudeDegrees);
    moonLux = moonBehindSkyline
      ? 0
      : factor *
        moonIlluminanceLux(moon.altitudeDegrees, moon.elongationDegrees, moon.horizontalParallaxDegrees);
  }
  return {
    sunAltitudeDegrees: sun.altitudeDegrees,
    clearLux,
    directSunLux: sunBehindSkyline ? 0 : beam,
    skyLux: total - beam,
    moonLux,
    cloudFactor: factor,
    openShare: open,
    sunBehindSkyline,
    ...(moon === undefined ? {} : { moon }),
    moonBehindSkyline,
  };
}

function spreadOf(parts: LightParts, lux: number, cloudShare: number | undefined): SpreadParts {
  const night = sunIlluminanceLux(-18) * parts.cloudFactor;
  const moonShare = parts.moonLux / lux;
  const nightShare = Math.min(1, night / lux);
  const skyStops =
    DOUBT_STOPS.clear * (1 - moonShare) +
    DOUBT_STOPS.moon * moonShare +
    (DOUBT_STOPS.night - DOUBT_STOPS.clear) * nightShare * (1 - moonShare);
  // Not known: anything from clear to overcast, and the doubt of overcast on top.
  const cloudStops =
    cloudShare === undefined
      ? Math.log2(1 / parts.cloudFactor) + DOUBT_STOPS.overcast / 2
      : DOUBT_STOPS.overcast * Math.max(0, Math.min(1, cloudShare));
  const shadeStops = parts.sunBehindSkyline && parts.skyLux > 100 ? DOUBT_STOPS.shade : 0;
  return { skyStops, cloudStops, shadeStops, moonShare, nightShare };
}
