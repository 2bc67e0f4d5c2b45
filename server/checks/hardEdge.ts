import type { Rule } from '../analysis.ts';
import { graduatedOf } from '../schedule/scene.ts';
import { filterFits } from '../schedule/solutions.ts';
import { mendFixes } from './mends.ts';
import { mountedGraduated } from './mounted.ts';
import { also } from './related.ts';
import { mendShot, written } from './shotEdits.ts';
import { shotsOf } from './shots.ts';

/** The edge of a graduated filter against the shape of the horizon. Common practice, no source. */
export const hardEdge: Rule = {
  code: 'filter/hard-edge',
  severity: 'warning',
  doc: 'A graduated filter with a hard edge across a broken horizon darkens the peaks, trees or buildings that stand up into the sky. Take a soft edge, or a bracket.',
  check(analysis, report) {
    for (const shot of shotsOf(analysis)) {
      const horizon = shot.shot.scene?.horizon;
      if (horizon?.value !== 'broken') continue;
      for (const { use, filter } of mountedGraduated(shot)) {
        const edge = filter.edge?.value;
        if (edge !== 'hard' && edge !== 'reverse') continue;
        const soft = softer(analysis, shot, graduatedOf({ use, filter }));
        const ids = shot.gear.filters.map((other) => (other.use === use ? soft : other.use.value));
        report(
          use,
          `A ${edge} edge across a broken horizon darkens the peaks that stand up into the sky. Take a soft edge${soft === undefined ? '' : `, such as ${soft}`}, or a bracket.`,
          {
            related: [...also(horizon, 'The horizon.'), ...also(filter.edge, 'The edge.')],
            facts: {
              edge,
              mends:
                soft === undefined
                  ? []
                  : written([
                      mendShot(analysis, shot.shot, `Use ${soft}`, { filters: `[${ids.join(', ')}]` }),
                    ]),
            },
          },
        );
      }
    }
  },
  fixes: mendFixes,
};

/** The graduated filter of the kit with a soft or medium edge that comes nearest in strength and can be mounted. */
function softer(
  { bag }: Parameters<NonNullable<Rule['check']>>[0],
  { gear }: ReturnType<typeof shotsOf>[number],
  stops: number,
): string | undefined {
  let best: { readonly id: string; readonly off: number } | undefined;
  for (const [id, filter] of bag.filters) {
    const edge = filter.edge?.value;
    if ((edge !== 'soft' && edge !== 'medium') || filter.id === undefined) continue;
    if (!filterFits(filter, gear, bag)) continue;
    const off = Math.abs(graduatedOf({ use: filter.id, filter }) - stops);
    if (best === undefined || off < best.off) best = { id, off };
  }
  return best?.id;
}
