import geographic from 'geographiclib-geodesic';
import { from0To360, within180 } from './angles.ts';
import type { Place } from './place.ts';

/** The shortest way from one place to another on the ellipsoid. Bearings from true north, 0 to 360. */
export interface GeodesicLine {
  readonly distanceMetres: number;
  /** At the start, toward the other place. */
  readonly bearingDegrees: number;
  /** At the other place, back toward the start. */
  readonly backBearingDegrees: number;
}

/**
 * Distance and bearings on WGS 84. C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87 (2013): it converges for
 * every pair of places, also for the nearly opposite ones at which Vincenty's method fails.
 */
export function geodesic(from: Place, to: Place): GeodesicLine {
  const line = geographic.Geodesic.WGS84.Inverse(from.latitude, from.longitude, to.latitude, to.longitude);
  return {
    distanceMetres: line.s12 ?? 0,
    bearingDegrees: from0To360(line.azi1 ?? 0),
    backBearingDegrees: from0To360((line.azi2 ?? 0) + 180),
  };
}

/** The place that lies so far in that direction, at sea level. */
export function destination(from: Place, bearingDegrees: number, distanceMetres: number): Place {
  const line = geographic.Geodesic.WGS84.Direct(
    from.latitude,
    from.longitude,
    bearingDegrees,
    distanceMetres,
  );
  return { latitude: line.lat2 ?? from.latitude, longitude: within180(line.lon2 ?? from.longitude) };
}
