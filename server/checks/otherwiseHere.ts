import type { Rule } from '../analysis.ts';

/** The spot to go to instead must be another one. */
export const otherwiseHere: Rule = {
  code: 'plan/otherwise-here',
  severity: 'warning',
  doc: 'A spot names itself as the one to go to instead, so that there is nowhere else to go. Name another spot of the plan.',
  check({ plan }, report) {
    const spots = plan?.model.spots ?? [];
    for (const { id, otherwise } of spots) {
      if (id === undefined || otherwise?.value !== id.value) continue;
      const others = spots.flatMap((spot) =>
        spot.id === undefined || spot.id.value === id.value ? [] : [spot.id.value],
      );
      const advice =
        others.length === 0
          ? 'The plan has no other spot yet: add one, or take the line away.'
          : `Name another spot, such as ${others[0]}.`;
      report(otherwise, `“${id.value}” is this spot itself. ${advice}`, {
        related: [{ uri: id.uri, span: id.span, message: 'The spot.' }],
      });
    }
  },
};
