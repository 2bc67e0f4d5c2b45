import type { Rule } from '../analysis.ts';

/**
 * The usual caution for a danger that the plan names itself. Common practice; local rules and the people who are
 * responsible there go before anything that is said here.
 */
const cautions: readonly (readonly [words: RegExp, caution: string])[] = [
  [
    /spillway|\bdam\b|\bweir|sluice|released?\b/,
    'Water can be released without warning, and rise fast: keep out of the channel, and mind sirens and signs',
  ],
  [/cold/, 'Cold water takes breath and strength within minutes: stay out of it, and never go near it alone'],
  [/deep|water|lake|river|flood/, 'Keep off wet edges, never wade alone, and have a way out of the water'],
  [
    /cliff|edge|drop|rock ?fall|gorge/,
    'Keep away from the edge, most of all in the dark, in wind and walking backwards',
  ],
  [
    /tide|surf|wave|swell/,
    'Know high water and the way back before you go out, and never turn your back on the sea',
  ],
  [/\bic[ey]\b|snow|avalanche/, 'Ice and snow carry only where somebody who knows them says so'],
];

/** The caution for a danger in the plan's words; undefined for one that is not known. */
export function cautionOf(hazard: string): string | undefined {
  const lower = hazard.toLowerCase();
  return cautions.find(([words]) => words.test(lower))?.[1];
}

export const deferring = 'Local rules and the people responsible there decide.';

export const hazards: Rule = {
  code: 'safety/hazard',
  severity: 'hint',
  doc: 'The usual caution for the hazards that a spot lists. Local rules, signs and the people responsible there go before it.',
  check({ plan }, report) {
    for (const spot of plan?.model.spots ?? []) {
      const named = (spot.hazards ?? []).map(({ value }) => value.toLowerCase());
      const first = spot.hazards?.[0];
      if (first === undefined) continue;
      const said = new Set(named.flatMap((hazard) => cautionOf(hazard) ?? []));
      if (said.size === 0) continue;
      report(first, `${[...said].join('. ')}. ${deferring}`, { facts: { hazards: named } });
    }
  },
};
