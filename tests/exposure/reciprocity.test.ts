import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stopsBetween } from '../../server/exposure/apex.ts';
import {
  correctedSeconds,
  isExtrapolated,
  meteredSeconds,
  type Reciprocity,
} from '../../server/exposure/reciprocity.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('reciprocity', 4, (input) => {
  const metered = numberOf(input.metered_s);
  const corrected = correctedSeconds({ exponent: numberOf(input.exponent), beyondSeconds: 1 }, metered);
  return { corrected_s: corrected, added_stops: stopsBetween(metered, corrected) };
});

/** Invented rows in the manner of a data sheet. */
const sheet: Reciprocity = {
  rows: [
    { meteredSeconds: 100, correctedSeconds: 600 },
    { meteredSeconds: 1, correctedSeconds: 1 },
    { meteredSeconds: 10, correctedSeconds: 20 },
  ],
};

describe('a power law', () => {
  it('has no jump where it begins, wherever that is', () => {
    for (const beyondSeconds of [0.5, 1, 4, 120]) {
      const film = { exponent: 1.3, beyondSeconds };
      expect(correctedSeconds(film, beyondSeconds)).toBe(beyondSeconds);
      expect(correctedSeconds(film, beyondSeconds * (1 + 1e-9))).toBeCloseTo(beyondSeconds, 6);
    }
  });
});

describe('a data sheet', () => {
  it('gives its own rows back', () => {
    expect(correctedSeconds(sheet, 1)).toBe(1);
    expect(correctedSeconds(sheet, 10)).toBeCloseTo(20, 12);
    expect(correctedSeconds(sheet, 100)).toBeCloseTo(600, 9);
  });

  it('is straight between its rows on logarithmic scales', () => {
    // Half way from 1 to 10 in the logarithm is √10; half way from 1 to 20 is √20.
    expect(correctedSeconds(sheet, Math.sqrt(10))).toBeCloseTo(Math.sqrt(20), 12);
  });

  it('corrects nothing below its first row and carries on beyond its last', () => {
    expect(correctedSeconds(sheet, 1 / 60)).toBe(1 / 60);
    expect(correctedSeconds(sheet, 1000)).toBeCloseTo(600 * 30, 6);
    expect([isExtrapolated(sheet, 100), isExtrapolated(sheet, 101)]).toEqual([false, true]);
  });

  it('keeps its ratio when it has a single row, and changes nothing when it has none', () => {
    const single = { rows: [{ meteredSeconds: 10, correctedSeconds: 20 }] };
    expect(correctedSeconds(single, 40)).toBeCloseTo(80, 12);
    expect(correctedSeconds({ rows: [] }, 40)).toBe(40);
  });
});

it('the metered time is the inverse of the corrected one', () => {
  const films: readonly Reciprocity[] = [
    { exponent: 1.31, beyondSeconds: 1 },
    { exponent: 1.2, beyondSeconds: 10 },
    sheet,
  ];
  fc.assert(
    fc.property(
      fc.constantFrom(...films),
      fc.double({ min: 1e-3, max: 1e4, noNaN: true }),
      (film, seconds) => {
        expect(meteredSeconds(film, correctedSeconds(film, seconds)) / seconds).toBeCloseTo(1, 9);
      },
    ),
  );
});

it('the metered time stays at the first row while the corrected time is in its jump', () => {
  const jump = { rows: [{ meteredSeconds: 10, correctedSeconds: 20 }] };
  expect([5, 15, 20].map((seconds) => meteredSeconds(jump, seconds))).toEqual([5, 10, 10]);
});
