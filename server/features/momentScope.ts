import type { Analysis } from '../analysis.ts';
import type { DaySpot } from '../schedule/day.ts';
import { at, type MomentScope, type Resolution, unknown } from '../schedule/moments.ts';
import type { SpotPlace } from '../schedule/place.ts';

/** What a moment may refer to on a day that is worked out already, seen from a spot or from a line above all of them. */
export function settledScope({ day }: Analysis, spot: DaySpot | undefined, place: SpotPlace): MomentScope {
  const { date, clock, sky, skylineKnown } = place;
  return {
    date,
    clock,
    sky,
    skylineKnown,
    mark: (mark) => settled(mark === 'arrive' ? spot?.arriveMs : spot?.readyMs),
    endOf: (id) => settled(day?.shotOf(id)?.endMs),
  };
}

function settled(instantMs: number | undefined): Resolution {
  return instantMs === undefined ? unknown : at(instantMs);
}
