import type { Rule } from '../analysis.ts';
import { exactIso } from '../exposure/dial.ts';
import { formatStops } from '../quantities/stops.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';
import { idOf } from './wording.ts';

/** Speeds closer than this are the same marking. */
const sameStops = 0.05;

/** A film has one speed; another in the shot counts for the arithmetic, and the development must follow. Stops are log2 of the ratio. */
export const filmSpeed: Rule = {
  code: 'exposure/film-speed',
  severity: 'hint',
  doc: 'A shot on film has another ISO than the film in the kit. The shot’s counts for its times; right if the whole film is exposed and developed for it, and a slip otherwise.',
  check(analysis, report) {
    for (const { shot, gear } of shotsOf(analysis)) {
      const { iso } = shot;
      const { film } = gear;
      if (iso === undefined || film?.iso === undefined) continue;
      const stops = Math.log2(exactIso(iso.value) / exactIso(film.iso.value));
      if (Math.abs(stops) < sameStops) continue;
      const change = `${formatStops(Math.abs(stops))} ${stops > 0 ? 'less' : 'more'} light`;
      report(
        iso,
        `ISO ${iso.value} counts here, not the ISO ${film.iso.value} of ${idOf(film, 'the film')}: the film gets ${change}. Develop all of it for that, or take \`iso\` away.`,
        { related: also(film.iso, 'The speed of the film.'), facts: { filmIso: film.iso.value, stops } },
      );
    }
  },
};
