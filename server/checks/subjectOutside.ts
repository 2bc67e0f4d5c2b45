import type { Rule } from '../analysis.ts';
import { fieldOfView } from '../optics/view.ts';
import { subjectView } from '../schedule/subject.ts';
import { compass, figure, framePlace } from './figures.ts';
import { mendFixes } from './mends.ts';
import { also } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf } from './shots.ts';

/**
 * Where the middle of the subject falls in the frame: the line on the ellipsoid gives its bearing, elevations and height
 * its altitude, central projection its place. Without both elevations only the sides of the frame are looked at.
 */
export const subjectOutside: Rule = {
  code: 'focus/subject-outside-frame',
  severity: 'warning',
  doc: 'The subject, by its coordinates, does not stand in the frame at this facing, tilt and focal length. Turn to its bearing, tilt, or take a wider lens.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { visit, light, facing } = shot;
      const { subject } = shot.shot;
      if (subject?.at === undefined || visit.at === undefined || facing === undefined) continue;
      const camera = light?.camera;
      if (camera === undefined || shot.shot.sweep !== undefined) continue;
      const view = subjectView(shot, visit.spot, visit.at, analysis.memory.sky);
      if (view?.bearingDegrees === undefined || view.inFrame !== false) continue;
      const { point } = view;
      const aside = point === undefined || point === null || Math.abs(point.x) > 0.5;
      if (!aside && !view.elevationsKnown) continue;
      const off = ((((view.bearingDegrees - camera.facing + 180) % 360) + 360) % 360) - 180;
      const field = fieldOfView(camera.focal, camera.sensor);
      const bearing = compass(view.bearingDegrees);
      const high = (view.footDegrees + (view.topDegrees ?? view.footDegrees)) / 2;
      report(
        framePlace(shot),
        aside
          ? `The subject stands at ${bearing}, ${figure(Math.abs(off))}° to the ${off < 0 ? 'left' : 'right'} of the lens axis; the frame reaches ${figure(field.horizontalDegrees / 2, 1)}° to each side. Face ${bearing}, or take a wider lens.`
          : `The subject stands ${figure(high, 1)}° ${high < 0 ? 'below' : 'above'} the horizontal; the frame, tilted ${figure(camera.tilt, 1)}°, reaches from ${figure(camera.tilt - field.verticalDegrees / 2, 1)}° to ${figure(camera.tilt + field.verticalDegrees / 2, 1)}°. Tilt ${figure(high)}°, or take a wider lens.`,
        {
          related: also(subject.at, 'Where the subject stands.'),
          facts: {
            bearingDegrees: view.bearingDegrees,
            offAxisDegrees: off,
            distanceMetres: view.distanceMetres,
            ...(aside && facing.source === 'stated'
              ? {
                  mends: written([
                    mendShot(analysis, shot.shot, `Face ${bearing}`, { facing: `${bearing} true` }),
                  ]),
                }
              : {}),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};
