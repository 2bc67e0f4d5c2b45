import { from0To360, RADIANS, TURN, within180 } from './angles.ts';
import { centuriesSince2000, meanSiderealTime, type Orientation, orientation } from './earth.ts';
import { type ApparentMoon, apparentMoon } from './moonTheory.ts';
import type { Place } from './place.ts';
import { apparentAltitudeDegrees } from './refraction.ts';
import { apparentSun } from './sunTheory.ts';

/** Equatorial radius of the earth, WGS 84, in kilometres. */
const EARTH_RADIUS_KM = 6378.137;
/** First eccentricity squared of WGS 84. */
const ECCENTRICITY_SQUARED = 0.00669437999014;
/** One astronomical unit in kilometres (IAU 2012). */
const AU_KM = 149_597_870.7;
/** Radius of the moon in radii of the earth (IAU). */
const MOON_RADIUS = 0.2725076;
/** Semidiameter of the sun at one astronomical unit, in degrees: 959.63 arc-seconds (Astronomical Almanac). */
const SUN_SEMIDIAMETER_DEGREES = 959.63 / 3600;

/** Where a body stands for one observer. Degrees; azimuth clockwise from true north. */
export interface BodyPosition {
  /** Of the centre, topocentric and airless: what twilight, light level and rise and set are computed from. */
  readonly altitudeDegrees: number;
  /** Where the eye or camera sees the centre, raised by usual refraction: for pointing. */
  readonly apparentAltitudeDegrees: number;
  readonly azimuthDegrees: number;
}

export interface MoonPosition extends BodyPosition {
  /** Between the centres of earth and moon. */
  readonly distanceKm: number;
  /** The share of the disc that is lit, 0 to 1. */
  readonly illuminatedFraction: number;
  /** Moon minus sun in apparent ecliptic longitude, 0 to 360: 0 new, 90 first quarter, 180 full, 270 last quarter. */
  readonly elongationDegrees: number;
  /** As seen from the place. */
  readonly semidiameterDegrees: number;
  /** Equatorial horizontal parallax. */
  readonly horizontalParallaxDegrees: number;
}

/** A body as seen from the centre of the earth. */
export interface Geocentric {
  /** Hour angle at the meridian of Greenwich in radians, westward; not reduced to one turn. */
  readonly hourAngle: number;
  readonly declination: number;
  /** In equatorial radii of the earth. */
  readonly distance: number;
}

/** A place made ready for many positions. */
export interface Observer {
  readonly longitude: number;
  readonly sinLatitude: number;
  readonly cosLatitude: number;
  /** Distance from the earth's axis and height above the plane of the equator, in equatorial radii. */
  readonly fromAxis: number;
  readonly fromEquator: number;
}

/** The place on the ellipsoid at sea level; elevation would move the moon by less than 0.001° and is left out. */
export function observer(place: Place): Observer {
  const latitude = RADIANS * place.latitude;
  const sinLatitude = Math.sin(latitude);
  const cosLatitude = Math.cos(latitude);
  const curvature = 1 / Math.sqrt(1 - ECCENTRICITY_SQUARED * sinLatitude * sinLatitude);
  return {
    longitude: RADIANS * place.longitude,
    sinLatitude,
    cosLatitude,
    fromAxis: curvature * cosLatitude,
    fromEquator: (1 - ECCENTRICITY_SQUARED) * curvature * sinLatitude,
  };
}

function hourAngle(instantMs: number, rightAscension: number, axis: Orientation): number {
  return meanSiderealTime(instantMs) + axis.nutation * Math.cos(axis.obliquity) - rightAscension;
}

/** The sun from the centre of the earth. */
export function geocentricSun(instantMs: number): Geocentric {
  const sun = apparentSun(centuriesSince2000(instantMs));
  return {
    hourAngle: hourAngle(instantMs, sun.rightAscension, sun),
    declination: sun.declination,
    distance: (sun.distanceAu * AU_KM) / EARTH_RADIUS_KM,
  };
}

function geocentric(moon: ApparentMoon, instantMs: number, axis: Orientation): Geocentric {
  return {
    hourAngle: hourAngle(instantMs, moon.rightAscension, axis),
    declination: moon.declination,
    distance: moon.distanceKm / EARTH_RADIUS_KM,
  };
}

/** The moon from the centre of the earth. */
export function geocentricMoon(instantMs: number): Geocentric {
  return geocentric(apparentMoon(instantMs), instantMs, orientation(centuriesSince2000(instantMs)));
}

/** A body as seen from a place: airless, in radians, and its distance in equatorial radii of the earth. */
export interface Topocentric {
  readonly altitude: number;
  /** Clockwise from north, -pi to pi. */
  readonly azimuth: number;
  readonly distance: number;
}

/** Moves the view from the centre of the earth to the observer on the ellipsoid. Meeus, chapters 11, 13 and 40. */
export function topocentric(body: Geocentric, from: Observer): Topocentric {
  const local = body.hourAngle + from.longitude;
  const inEquator = body.distance * Math.cos(body.declination);
  const towardMeridian = inEquator * Math.cos(local) - from.fromAxis;
  const west = inEquator * Math.sin(local);
  const towardPole = body.distance * Math.sin(body.declination) - from.fromEquator;
  const up = towardMeridian * from.cosLatitude + towardPole * from.sinLatitude;
  const north = towardPole * from.cosLatitude - towardMeridian * from.sinLatitude;
  const level = Math.sqrt(north * north + west * west);
  return {
    altitude: Math.atan2(up, level),
    azimuth: Math.atan2(-west, north),
    distance: Math.sqrt(level * level + up * up),
  };
}

function position(seen: Topocentric): BodyPosition {
  const altitudeDegrees = seen.altitude / RADIANS;
  return {
    altitudeDegrees,
    apparentAltitudeDegrees: apparentAltitudeDegrees(altitudeDegrees),
    azimuthDegrees: from0To360(seen.azimuth / RADIANS),
  };
}

/** Where the sun stands. Within 0.001° of the full theory, apart from refraction, from 1950 to 2050. */
export function sunPosition(instantMs: number, place: Place): BodyPosition {
  return position(topocentric(geocentricSun(instantMs), observer(place)));
}

/** Where the moon stands and how it is lit. Within about 0.005°. Fraction by Meeus, chapter 48. */
export function moonPosition(instantMs: number, place: Place): MoonPosition {
  const sun = apparentSun(centuriesSince2000(instantMs));
  const moon = apparentMoon(instantMs);
  const { distanceKm } = moon;
  const seen = topocentric(geocentric(moon, instantMs, sun), observer(place));
  const { longitude, latitude } = moonEcliptic(moon, sun.obliquity);
  const apart = Math.acos(Math.cos(latitude) * Math.cos(longitude - sun.longitude));
  const sunKm = sun.distanceAu * AU_KM;
  const phaseAngle = Math.atan2(sunKm * Math.sin(apart), distanceKm - sunKm * Math.cos(apart));
  return {
    ...position(seen),
    distanceKm,
    illuminatedFraction: (1 + Math.cos(phaseAngle)) / 2,
    elongationDegrees: from0To360((longitude - sun.longitude) / RADIANS),
    semidiameterDegrees: moonSemidiameter(seen.distance) / RADIANS,
    horizontalParallaxDegrees: Math.asin(EARTH_RADIUS_KM / distanceKm) / RADIANS,
  };
}

/** Semidiameter of the moon in radians at a distance in equatorial radii of the earth. */
export function moonSemidiameter(distance: number): number {
  return Math.asin(MOON_RADIUS / distance);
}

/** Meeus, formulas 13.1 and 13.2. */
function moonEcliptic(moon: ApparentMoon, obliquity: number): { longitude: number; latitude: number } {
  const cosine = Math.cos(obliquity);
  const sine = Math.sin(obliquity);
  return {
    longitude: Math.atan2(
      Math.sin(moon.rightAscension) * cosine + Math.tan(moon.declination) * sine,
      Math.cos(moon.rightAscension),
    ),
    latitude: Math.asin(
      Math.sin(moon.declination) * cosine - Math.cos(moon.declination) * sine * Math.sin(moon.rightAscension),
    ),
  };
}

/** Apparent ecliptic longitude of the sun in degrees, 0 to 360. */
export function sunLongitudeDegrees(instantMs: number): number {
  return apparentSun(centuriesSince2000(instantMs)).longitude / RADIANS;
}

/** Apparent ecliptic longitude and latitude of the moon as seen from the centre of the earth, in degrees. */
export function moonEclipticDegrees(instantMs: number): { longitude: number; latitude: number } {
  const { obliquity } = orientation(centuriesSince2000(instantMs));
  const { longitude, latitude } = moonEcliptic(apparentMoon(instantMs), obliquity);
  return { longitude: from0To360(longitude / RADIANS), latitude: latitude / RADIANS };
}

/** Moon minus sun in apparent ecliptic longitude, in degrees, 0 to 360. */
export function elongationDegrees(instantMs: number): number {
  return from0To360(moonEclipticDegrees(instantMs).longitude - sunLongitudeDegrees(instantMs));
}

/** Distance of the sun in astronomical units. */
export function sunDistanceAu(instantMs: number): number {
  return apparentSun(centuriesSince2000(instantMs)).distanceAu;
}

/** Apparent semidiameter of the sun, about 0.267°. */
export function sunSemidiameterDegrees(instantMs: number): number {
  return SUN_SEMIDIAMETER_DEGREES / sunDistanceAu(instantMs);
}

/** A direction in the sky. Degrees; azimuth clockwise from true north. */
export interface Direction {
  readonly altitudeDegrees: number;
  readonly azimuthDegrees: number;
}

/** The angle between two directions in degrees, 0 to 180; exact for small and for nearly opposite angles too. */
export function angularDistanceDegrees(a: Direction, b: Direction): number {
  const altitudeA = RADIANS * a.altitudeDegrees;
  const altitudeB = RADIANS * b.altitudeDegrees;
  const turn = RADIANS * within180(b.azimuthDegrees - a.azimuthDegrees);
  const sinA = Math.sin(altitudeA);
  const cosA = Math.cos(altitudeA);
  const sinB = Math.sin(altitudeB);
  const cosB = Math.cos(altitudeB);
  const across = cosB * Math.sin(turn);
  const along = cosA * sinB - sinA * cosB * Math.cos(turn);
  return (
    Math.atan2(Math.sqrt(across * across + along * along), sinA * sinB + cosA * cosB * Math.cos(turn)) /
    RADIANS
  );
}

/** Mean time between two meridian passages, in milliseconds. */
export const MEAN_DAY_MS = { sun: 86_400_000, moon: 89_428_000 } as const;

/** The hour angle at a place, in radians, brought to within half a turn of the meridian. */
export function localHourAngle(body: Geocentric, from: Observer): number {
  const local = body.hourAngle + from.longitude;
  return local - TURN * Math.round(local / TURN);
}
