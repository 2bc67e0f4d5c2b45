import type { Rule } from '../analysis.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { also, headOf } from './related.ts';
import { shotsOf } from './shots.ts';
import { idOf } from './wording.ts';

/** From this time on films lose speed; data sheets start their tables there. Common practice, no source. */
const fromSeconds = 1;

/** Without data of its own, a film is computed as if it had no reciprocity failure. */
export const filmWithoutReciprocity: Rule = {
  code: 'exposure/film-without-reciprocity',
  severity: 'warning',
  doc: 'An exposure on film is longer than a second, and the kit says nothing of the film’s reciprocity failure: it may come out too dark. Copy the exponent or the table from the film’s data sheet.',
  check(analysis, report) {
    for (const { shot, gear, exposure } of shotsOf(analysis)) {
      const { film, reciprocity } = gear;
      const seconds = exposure?.filtered?.filteredSeconds;
      if (shot.film === undefined || film === undefined || reciprocity !== undefined) continue;
      if (film.self.broken.has('reciprocity') || seconds === undefined || seconds <= fromSeconds) continue;
      report(
        shot.film,
        `${formatShutter(seconds)} on ${idOf(film, 'this film')} without its reciprocity may come out too dark. Write it in the kit: \`reciprocity: { exponent: 1.3 }\`, with the number of its data sheet.`,
        { related: also(headOf(film), 'The film in the kit.'), facts: { filteredSeconds: seconds } },
      );
    }
  },
};
