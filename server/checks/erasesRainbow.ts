import type { Rule } from '../analysis.ts';
import { antisolarPoint, rainbow, rainbowDegrees } from '../optics/rainbow.ts';
import { type Direction, degrees, radians, vectorOf } from '../optics/sphere.ts';
import { axesOf, type Camera, isInFrame, pointInFrame } from '../optics/view.ts';
import type { PlanModel } from '../plan/fields.ts';
import { waterOf } from '../schedule/effects.ts';
import { forecastAt } from '../schedule/light.ts';
import { mountedPolarizer } from './mounted.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';

/**
 * Light of a rainbow is polarized along the bow (about 96 %, since it is reflected inside the drop near the Brewster
 * angle), so that a polarizer turned the wrong way takes the bow away. The bow stands 42° around the antisolar point.
 * Source: R. A. R. Tricker, Introduction to Meteorological Optics, from memory.
 */
export const erasesRainbow: Rule = {
  code: 'filter/erases-rainbow',
  severity: 'hint',
  doc: 'Where spray or rain can make a rainbow and its place is in the frame, a polarizer turned the wrong way takes it away, and turned the right way makes it stronger. Turn it while looking at the bow.',
  check(analysis, report) {
    const plan = analysis.plan?.model;
    if (plan === undefined) return;
    for (const shot of shotsOf(analysis)) {
      const { light } = shot;
      const filter = mountedPolarizer(shot);
      if (filter === undefined || light?.camera === undefined) continue;
      if (!light.sunUp || light.sunBehindSkyline || light.overcast || !hasDrops(shot, plan)) continue;
      const sun = { azimuth: light.sun.azimuthDegrees, altitude: light.sun.apparentAltitudeDegrees };
      const bow = rainbow(sun);
      if (bow === null || !bowInFrame(sun, light.camera)) continue;
      report(
        filter.use,
        `With the sun ${Math.round(sun.altitude)}° high a rainbow in spray or rain falls into this frame, up to ${Math.round(bow.topAltitude)}° above the horizontal. The polarizer can erase it: turn it until the bow is strongest, or take it off.`,
        { facts: { sunAltitudeDegrees: sun.altitude, topDegrees: bow.topAltitude } },
      );
    }
  },
};

const sprays: ReadonlySet<string> = new Set(['waterfall', 'spillway', 'cascade']);

/** Whether water flies, or may fall: rain from one chance in five. */
function hasDrops({ shot, visit, startMs }: ShotOfDay, plan: PlanModel): boolean {
  const water = waterOf(shot, visit.spot);
  if (sprays.has(water?.kind?.value ?? '') && water?.state?.value !== 'dry') return true;
  if (visit.at === undefined || startMs === undefined) return false;
  return (forecastAt(startMs, visit.at, plan)?.rain?.value ?? 0) >= 0.2;
}

/** Whether any part of the bow above the horizontal stands in the frame: a place every three degrees. */
function bowInFrame(sun: Direction, camera: Camera): boolean {
  const centre = antisolarPoint(sun);
  const [h, r] = [radians(centre.altitude), radians(rainbowDegrees)];
  const axes = axesOf(camera);
  for (let turn = 0; turn < 360; turn += 3) {
    const sine = Math.sin(h) * Math.cos(r) + Math.cos(h) * Math.sin(r) * Math.cos(radians(turn));
    const altitude = degrees(Math.asin(Math.max(-1, Math.min(1, sine))));
    if (altitude < 0) continue;
    const east = Math.sin(r) * Math.sin(radians(turn)) * Math.cos(h);
    const north = Math.cos(r) - Math.sin(h) * sine;
    const azimuth = centre.azimuth + degrees(Math.atan2(east, north));
    const point = pointInFrame(vectorOf({ azimuth, altitude }), axes, camera);
    if (point !== null && isInFrame(point)) return true;
  }
  return false;
}
