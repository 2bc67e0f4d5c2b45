import type { Rule } from '../analysis.ts';
import { formatDuration } from '../quantities/duration.ts';
import type { EventName } from '../quantities/events.ts';
import type { Moment } from '../quantities/moment.ts';
import { figure, startPlace } from './figures.ts';
import { mend, mendFixes } from './mends.ts';
import { type ShotOfDay, shotsOf } from './shots.ts';
import { timeAt } from './wording.ts';

/** How far from the lens axis the sun may stand for the picture to be about it. */
const facingDegrees = 45;
const besideDegrees = 90;

/** Of the sun, with a hair on top. */
const semidiameterDegrees = 0.28;

/**
 * A picture that counts on the sun while the land still hides it. The camera must look towards the sun; what the sun
 * lights behind the photographer's back is not known. A skyline of height h at distance d hides the sun up to atan(h/d).
 */
export const behindSkyline: Rule = {
  code: 'light/behind-skyline',
  severity: 'warning',
  doc: 'The sun is up, but still or already behind the skyline of the spot, and the shot faces it. It is a hint where the sun stands at the side of a shot whose start is stated by sunrise, sunset or golden hour. Start when the sun has cleared the skyline, or leave it if you want the shade.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const { light, startMs, visit } = shot;
      const { at } = visit;
      if (light === undefined || startMs === undefined || at === undefined) continue;
      if (!light.sunBehindSkyline || light.overcast || light.direction === undefined) continue;
      const angle = light.direction.angleFromAxisDegrees;
      const facesSun = angle < facingDegrees || light.direction.sunInFrame === true;
      if (!facesSun && !(angle < besideDegrees && countsOnSun(shot.shot.start?.value))) continue;
      const land = at.skyline?.altitudeDegrees(light.sun.azimuthDegrees) ?? 0;
      // The events of the skyline are those of the upper limb.
      if (light.sun.apparentAltitudeDegrees + semidiameterDegrees >= land) continue;
      const nextDay = startMs >= at.clock.day(at.date).endMs ? 1 : 0;
      const clears = passing(shot, 'sun clears skyline', nextDay).find((ms) => ms > startMs);
      const left = passing(shot, 'sun leaves skyline', nextDay).findLast((ms) => ms <= startMs);
      const { start } = shot.shot;
      const morning = clears !== undefined && clears > startMs;
      report(
        startPlace(shot),
        `At ${timeAt(startMs, at)} the sun stands ${figure(light.sun.apparentAltitudeDegrees, 1)}° high, behind a skyline of ${figure(land, 1)}°. ${
          morning
            ? `It clears the skyline at ${timeAt(clears, at)}, ${formatDuration(Math.round((clears - startMs) / 60_000) * 60)} later. Start then, or plan for shade.`
            : `It does not clear the skyline again on this day${left === undefined ? '' : `; it went behind it at ${timeAt(left, at)}`}. Start earlier, or plan for shade.`
        }`,
        {
          severity: facesSun ? 'warning' : 'hint',
          facts: {
            sunAltitudeDegrees: light.sun.apparentAltitudeDegrees,
            skylineDegrees: land,
            clearsMs: clears ?? null,
            ...(morning && start !== undefined
              ? {
                  mends: [
                    mend(
                      'Start when the sun has cleared the skyline',
                      start,
                      `sun clears skyline${nextDay === 1 ? ' next day' : ''}`,
                    ),
                  ],
                }
              : {}),
          },
        },
      );
    }
  },
  fixes: mendFixes,
};

/** When the sun passes the skyline on that day, in order. */
function passing({ visit }: ShotOfDay, event: EventName, dayOffset: number): readonly number[] {
  const sighting = visit.at?.sky(dayOffset).event(event);
  return sighting?.kind === 'at' ? [sighting.instantMs, ...sighting.others] : [];
}

/** Whether a start is stated by an event of the low sun. */
function countsOnSun(moment: Moment | undefined): boolean {
  if (moment === undefined) return false;
  switch (moment.kind) {
    case 'event':
      return /^sun(?:rise|set)$|golden hour/.test(moment.event);
    case 'offset':
      return countsOnSun(moment.base);
    case 'earlier':
    case 'later':
      return moment.of.some(countsOnSun);
    default:
      return false;
  }
}
