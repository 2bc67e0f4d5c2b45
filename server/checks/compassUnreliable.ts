import type { Rule } from '../analysis.ts';

/** Near a magnetic pole the field points down and hardly turns a needle: below 6000 nT across. Source: WMM2025, caution zone. */
export const compassUnreliable: Rule = {
  code: 'light/compass-unreliable',
  severity: 'warning',
  doc: 'So near a magnetic pole a compass hardly feels which way north is. Take bearings from a map, and count them from true north.',
  check({ day }, report) {
    for (const { shots } of day?.spots ?? []) {
      for (const { shot, facing } of shots) {
        if (shot.facing === undefined || facing?.declination?.nearPole !== true) continue;
        const { horizontalNanotesla } = facing.declination;
        report(
          shot.facing,
          `A compass is not to be trusted here: the field across is ${Math.round(horizontalNanotesla)} nT, and below 6000 nT needles wander. Take the bearing from a map.`,
          { facts: { horizontalNanotesla } },
        );
        break;
      }
    }
  },
};
