/** What sort of danger a hazard is, as far as a plan can make it worse. */
export type DangerKind = 'release' | 'cold' | 'sea' | 'ice' | 'edge' | 'water' | 'footing';

/**
 * The usual caution for a danger that the plan names itself. Common practice; local rules and the people who are
 * responsible there go before anything that is said here. The first that fits counts.
 */
const cautions: readonly {
  readonly kind: DangerKind;
  readonly words: RegExp;
  readonly caution: string;
}[] = [
  {
    kind: 'release',
    words: /spillway|\bdam\b|\bweir|sluice|released?\b/,
    caution:
      'Water can be released without warning, and rise fast: keep out of the channel, and mind sirens and signs',
  },
  {
    kind: 'cold',
    words: /cold/,
    caution:
      'Cold water takes breath and strength within minutes: stay out of it, and never go near it alone',
  },
  {
    kind: 'sea',
    words: /\btides?\b|\btidal\b|surf|wave|swell/,
    caution: 'Know high water and the way back before you go out, and never turn your back on the sea',
  },
  {
    kind: 'water',
    words: /deep|water|lake|river|flood/,
    caution: 'Keep off wet edges, never wade alone, and have a way out of the water',
  },
  {
    kind: 'edge',
    words: /cliff|edge|drop|rock ?fall|gorge/,
    caution: 'Keep away from the edge, most of all in the dark, in wind and walking backwards',
  },
  {
    kind: 'ice',
    words: /\bic[ey]\b|snow|avalanche/,
    caution: 'Ice and snow carry only where somebody who knows them says so',
  },
  {
    kind: 'footing',
    words: /slip|mud|quicksand|weed|loose|wet rock/,
    caution: 'Test every step on wet or loose ground, keep a hand free, and stay clear of what lies below',
  },
];

export interface Danger {
  readonly kind: DangerKind;
  /** One sentence without its full stop. */
  readonly caution: string;
}

/** The danger behind a hazard in the plan's words; undefined for one that is not known. */
export function dangerOf(hazard: string): Danger | undefined {
  const lower = hazard.toLowerCase();
  return cautions.find(({ words }) => words.test(lower));
}

/** The cautions for several hazards, each once, in their order. */
export function cautionsOf(hazards: readonly string[]): readonly string[] {
  return [...new Set(hazards.flatMap((hazard) => dangerOf(hazard)?.caution ?? []))];
}

export const deferring = 'Local rules and the people responsible there decide.';
