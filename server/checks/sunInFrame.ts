import type { Checkable, Rule } from '../analysis.ts';
import { degrees, signedDegrees } from '../optics/sphere.ts';
import { type Camera, fieldOfView, projectToFrame } from '../optics/view.ts';
import { sunPosition } from '../sky/bodies.ts';
import type { Severity } from '../text/finding.ts';
import { figure, framePlace } from './figures.ts';
import { also } from './related.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';
import { timeAt } from './wording.ts';

/** From this focal length on, as on 36 × 24 mm, the sun's image burns within moments. Common practice, no source. */
const burningFocal = 135;

/**
 * The sun in or near the frame, up, over the skyline and not behind a closed sky, at the start or the end of the shot.
 * The focused sun harms the eye behind an optical finder within moments; filters for photography do not make it safe.
 */
export const sunInFrame: Rule = {
  code: 'safety/sun-in-frame',
  severity: 'warning',
  doc: 'The sun stands in the frame or within `sun-margin` of its edge. Never look at it through an optical finder: this is an error there. With long lenses it harms sensor and shutter too. A dark filter is never eye protection. Compose on the screen, or before the sun is there, and cover the lens in between.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const seen = sunSeen(analysis, shot);
      const { at } = shot.visit;
      if (seen === undefined || at === undefined) continue;
      const finder = shot.gear.body?.finder;
      const camera = shot.light?.camera as Camera;
      const equivalent =
        (camera.focal * Math.hypot(36, 24)) / Math.hypot(camera.sensor.width, camera.sensor.height);
      const long = equivalent >= burningFocal;
      const dark = shot.gear.filters.length > 0;
      const advice = [
        finder?.value === 'optical'
          ? 'Never look through the optical finder: compose on the screen, or before the sun is there.'
          : finder === undefined
            ? 'Never look at it through an optical finder.'
            : 'Never look at it with the naked eye, and not for long on the screen.',
        long
          ? `At ${figure(camera.focal)} mm it also harms sensor and shutter: cover the lens between frames.`
          : '',
        dark ? 'A dark filter is never eye protection.' : '',
      ];
      report(
        framePlace(shot),
        `At ${timeAt(seen.atMs, at)} the sun stands ${seen.inside ? 'in the frame' : `${figure(seen.outsideDegrees, 1)}° outside the frame`}, ${figure(seen.altitudeDegrees, 1)}° high. ${advice.filter((part) => part !== '').join(' ')}`,
        {
          severity: severityOf(finder?.value, long, seen.inside),
          related: also(finder, 'The finder of the body.'),
          facts: {
            atMs: seen.atMs,
            inside: seen.inside,
            altitudeDegrees: seen.altitudeDegrees,
            finder: finder?.value ?? null,
            equivalentFocalMillimetres: equivalent,
          },
        },
      );
    }
  },
};

function severityOf(finder: string | undefined, long: boolean, inside: boolean): Severity {
  if (finder === 'optical') return 'error';
  return inside || long ? 'warning' : 'hint';
}

interface Seen {
  readonly atMs: number;
  readonly inside: boolean;
  readonly outsideDegrees: number;
  readonly altitudeDegrees: number;
}

/** The sun as it comes nearest to the frame at the start or the end; undefined when it does not shine there. */
function sunSeen(analysis: Checkable, { shot, light, visit, startMs, endMs }: ShotOfDay): Seen | undefined {
  const { at } = visit;
  if (light?.camera === undefined || at === undefined || startMs === undefined) return undefined;
  if (light.cloudShare !== undefined && light.cloudShare >= 1) return undefined;
  const margin = analysis.thresholds['sun-margin'];
  let nearest: Seen | undefined;
  for (const atMs of endMs === undefined || endMs === startMs ? [startMs] : [startMs, endMs]) {
    const sun = atMs === startMs ? light.sun : sunPosition(atMs, at.place);
    const land = at.skyline?.altitudeDegrees(sun.azimuthDegrees) ?? 0;
    if (
      sun.altitudeDegrees < -0.8333 ||
      (at.skyline !== undefined && sun.apparentAltitudeDegrees + 0.27 < land)
    )
      continue;
    const direction = { azimuth: sun.azimuthDegrees, altitude: sun.apparentAltitudeDegrees };
    const outsideDegrees = outside(
      direction,
      turnedTowards(sun.azimuthDegrees, light.camera, shot.sweep?.value),
    );
    if (outsideDegrees > margin) continue;
    const seen = {
      atMs,
      inside: outsideDegrees <= 0,
      outsideDegrees,
      altitudeDegrees: sun.apparentAltitudeDegrees,
    };
    if (nearest === undefined || outsideDegrees < nearest.outsideDegrees) nearest = seen;
  }
  return nearest;
}

/** The frame of a panorama that comes nearest to the sun; the sweep is taken to lie evenly about the facing. */
function turnedTowards(azimuth: number, camera: Camera, sweep: number | undefined): Camera {
  if (sweep === undefined) return camera;
  const field = fieldOfView(camera.focal, camera.sensor).horizontalDegrees;
  const most = Math.max((Math.abs(sweep) - field) / 2, 0);
  const turn = Math.max(-most, Math.min(most, signedDegrees(azimuth - camera.facing)));
  return { ...camera, facing: camera.facing + turn };
}

/** How far a direction lies outside the nearest edge, in degrees along width and height; below 0 inside. */
function outside(direction: { readonly azimuth: number; readonly altitude: number }, camera: Camera): number {
  const { point } = projectToFrame(direction, camera);
  if (point === null) return Number.POSITIVE_INFINITY;
  const field = fieldOfView(camera.focal, camera.sensor);
  const angle = (share: number, side: number) => degrees(Math.atan((Math.abs(share) * side) / camera.focal));
  return Math.max(
    angle(point.x, camera.sensor.width) - field.horizontalDegrees / 2,
    angle(point.y, camera.sensor.height) - field.verticalDegrees / 2,
  );
}
