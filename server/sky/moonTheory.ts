import { getMoonPosition } from 'suncalc';
import { RADIANS, TURN } from './angles.ts';
import { daysSince2000 } from './earth.ts';

/*
 * suncalc gives what an observer sees: lowered by parallax, raised by its refraction, and that at every altitude. What
 * is needed here is the place as seen from the centre of the earth. At the north pole the azimuth is the hour angle and
 * the altitude the declination, so ask for the pole and undo both changes exactly as suncalc makes them.
 */

/** The radius of the earth that suncalc uses, in kilometres. */
const SUNCALC_EARTH_RADIUS_KM = 6378.14;

/** Refraction as suncalc 2.0.2 writes it; radians. Below the horizon it adds the value of altitude 0. */
function suncalcRefraction(altitude: number): number {
  const h = Math.max(0, altitude);
  return 0.0002967 / Math.tan(h + 0.00312536 / (h + 0.08901179));
}

const SUNCALC_HORIZON_REFRACTION = suncalcRefraction(0);

/** Takes the refraction off an altitude that suncalc returned. Degrees in and out; exact to 1e-10 degrees. */
export function withoutSuncalcRefraction(altitudeDegrees: number): number {
  const apparent = RADIANS * altitudeDegrees;
  let airless = apparent - SUNCALC_HORIZON_REFRACTION;
  if (airless <= 0) {
    return airless / RADIANS;
  }
  // Each round shrinks the error at least sixfold, by the slope of the refraction.
  for (let round = 0; round < 16; round++) {
    const next = apparent - suncalcRefraction(airless);
    if (Math.abs(next - airless) < 1e-13) {
      break;
    }
    airless = next;
  }
  return airless / RADIANS;
}

/** The moon's place as seen from the centre of the earth, with nutation: true equator and equinox of date. */
export interface ApparentMoon {
  readonly rightAscension: number;
  readonly declination: number;
  readonly distanceKm: number;
}

/**
 * The moon's apparent place, in radians, from suncalc's position (Meeus, chapter 47: 10 arc-seconds in longitude, 4 in
 * latitude).
 */
export function apparentMoon(instantMs: number): ApparentMoon {
  const atPole = getMoonPosition(new Date(instantMs), 90, 0);
  const lowered = RADIANS * withoutSuncalcRefraction(atPole.altitude);
  const sineParallax = SUNCALC_EARTH_RADIUS_KM / atPole.distance;
  let declination = lowered;
  for (let round = 0; round < 6; round++) {
    declination = lowered + Math.asin(sineParallax * Math.cos(declination));
  }
  // suncalc turns the earth by mean sidereal time without the quadratic term; take that same angle back.
  const siderealTime = RADIANS * (280.46061837 + 360.98564736629 * daysSince2000(instantMs));
  const hourAngle = RADIANS * (atPole.azimuth - 180);
  const rightAscension = siderealTime - hourAngle;
  return {
    rightAscension: rightAscension - TURN * Math.floor(rightAscension / TURN),
    declination,
    distanceKm: atPole.distance,
  };
}
