import type { Rule } from '../analysis.ts';
import { also } from './related.ts';
import { shotsOf } from './shots.ts';
import { idOf } from './wording.ts';

/** A body takes film when its `film` says so; one with pixels and without that word is digital. */
export const filmInDigitalBody: Rule = {
  code: 'kit/film-in-digital-body',
  severity: 'error',
  doc: 'A shot names a film, and its body takes none: it has pixels, or `film: no`. Name another body, or take the film away.',
  check(analysis, report) {
    for (const { shot, gear } of shotsOf(analysis)) {
      const { body, film } = gear;
      if (shot.film === undefined || film === undefined || body === undefined) continue;
      if (body.self.broken.has('film')) continue;
      const digital = body.film === undefined ? body.pixels !== undefined : !body.film.value;
      if (!digital) continue;
      report(
        shot.film,
        `The body ${idOf(body, 'of this shot')} takes no film. Name a body that does, or take the film away.`,
        { related: also(body.film ?? body.pixels, 'The body.') },
      );
    }
  },
};
