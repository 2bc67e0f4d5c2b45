import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circleOfConfusion,
  depthOfField,
  focusForDepth,
  focusStack,
  hyperfocal,
} from '../../server/optics/depth.ts';
import {
  airyDiameter,
  airyPixels,
  cutoffLinePairs,
  rayleighSeparation,
  sharpestFNumber,
  smallestPrintFNumber,
} from '../../server/optics/diffraction.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

const millimetresPerInch = 25.4;
const metresPerFoot = 0.3048;

checkTruth('dof', 6, (input) => {
  const inches = 'focal_in' in input;
  const focal = inches ? numberOf(input.focal_in) * millimetresPerInch : numberOf(input.focal_mm);
  const circle = inches ? numberOf(input.coc_in) * millimetresPerInch : numberOf(input.coc_mm);
  const lens = { focal, fNumber: numberOf(input.f_number), circle };
  const far = hyperfocal(lens);
  const atHyperfocal = depthOfField(lens, far);
  const subject = 'subject_m' in input ? depthOfField(lens, numberOf(input.subject_m)) : atHyperfocal;
  return {
    hyperfocal_m: far,
    near_limit_at_hyperfocal_m: atHyperfocal.nearMetres,
    hyperfocal_ft: far / metresPerFoot,
    near_limit_at_hyperfocal_ft: atHyperfocal.nearMetres / metresPerFoot,
    near_m: subject.nearMetres,
    far_m: subject.farMetres === Number.POSITIVE_INFINITY ? null : subject.farMetres,
  };
});

checkTruth('diffraction', 5, (input) => {
  const [fNumber, wavelength] = [numberOf(input.f_number), numberOf(input.wavelength_um)];
  return {
    airy_diameter_um: airyDiameter(fNumber, wavelength),
    rayleigh_um: rayleighSeparation(fNumber, wavelength),
    cutoff_lp_mm: cutoffLinePairs(fNumber, wavelength),
  };
});

describe('the circle of confusion', () => {
  it('is the customary one of each format', () => {
    expect(circleOfConfusion({ width: 36, height: 24 })).toBeCloseTo(0.03, 12);
    expect(circleOfConfusion({ width: 23.6, height: 15.7 })).toBeCloseTo(0.02, 3);
    expect(circleOfConfusion({ width: 17.3, height: 13 })).toBeCloseTo(0.015, 3);
    // Diagonal / 1442 is the same rule.
    expect(Math.hypot(36, 24) / circleOfConfusion({ width: 36, height: 24 })).toBeCloseTo(1442, 0);
  });
});

describe('depth of field', () => {
  const lens = { focal: 24, fNumber: 11, circle: 0.03 };

  it('runs from half the hyperfocal distance to infinity when focused there', () => {
    const { nearMetres, farMetres } = depthOfField(lens, hyperfocal(lens));
    expect(nearMetres).toBeCloseTo(hyperfocal(lens) / 2, 12);
    expect(farMetres).toBe(Number.POSITIVE_INFINITY);
  });

  it('begins near the hyperfocal distance when focused at infinity', () => {
    const { nearMetres, farMetres } = depthOfField(lens, Number.POSITIVE_INFINITY);
    expect(nearMetres).toBeCloseTo(hyperfocal(lens) - 0.024, 12);
    expect(farMetres).toBe(Number.POSITIVE_INFINITY);
    expect(depthOfField(lens, 1e7).nearMetres).toBeCloseTo(nearMetres, 5);
  });

  it('encloses the distance that is focused', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 500, noNaN: true }),
        fc.double({ min: 1.4, max: 32, noNaN: true }),
        (focus, fNumber) => {
          const { nearMetres, farMetres } = depthOfField({ ...lens, fNumber }, focus);
          expect(nearMetres).toBeLessThan(focus);
          expect(farMetres).toBeGreaterThan(focus);
        },
      ),
    );
  });

  it('is solved for the aperture and the focus that just cover it', () => {
    for (const [near, far] of [
      [0.8, 9],
      [2, 40],
      [1.5, Number.POSITIVE_INFINITY],
    ] as const) {
      const { fNumber, focusMetres } = focusForDepth({ focal: 35, circle: 0.03 }, near, far);
      const depth = depthOfField({ focal: 35, fNumber, circle: 0.03 }, focusMetres);
      expect(depth.nearMetres).toBeCloseTo(near, 9);
      // Infinity is met from below or from above within rounding.
      if (far === Number.POSITIVE_INFINITY) expect(depth.farMetres).toBeGreaterThan(1e6);
      else expect(depth.farMetres).toBeCloseTo(far, 6);
    }
  });
});

describe('a focus stack', () => {
  const lens = { focal: 24, fNumber: 8, circle: 0.01 };

  it('joins its depths without a gap from near to far', () => {
    for (const far of [3, 50, Number.POSITIVE_INFINITY]) {
      const frames = focusStack(lens, 0.4, far) ?? [];
      const depths = frames.map((focus) => depthOfField(lens, focus));
      expect(depths[0]?.nearMetres).toBeCloseTo(0.4, 9);
      expect(depths.at(-1)?.farMetres).toBeGreaterThanOrEqual(far * (1 - 1e-9));
      for (const [at, depth] of depths.entries()) {
        const last = depths[at - 1];
        if (last) expect(depth.nearMetres).toBeLessThan(last.farMetres);
      }
      // One frame less would leave a part out.
      const before = depths.at(-2);
      if (before) expect(before.farMetres).toBeLessThan(far);
    }
  });

  it('is a single frame where one depth is enough, and null where there is none', () => {
    expect(focusStack({ ...lens, circle: 0.03 }, 3, Number.POSITIVE_INFINITY)?.length).toBe(1);
    expect(focusStack(lens, 0.04, 1)).toBeNull();
    expect(focusStack({ focal: 400, fNumber: 4, circle: 0.005 }, 2, Number.POSITIVE_INFINITY)).toBeNull();
  });
});

describe('diffraction', () => {
  it('covers two and a half pixels at the sharpest aperture', () => {
    const fNumber = sharpestFNumber(4.36);
    expect(airyPixels(fNumber, 4.36)).toBeCloseTo(2.5, 12);
    expect(fNumber).toBeCloseTo(8.1, 1);
    expect(sharpestFNumber(4.36, 3)).toBeCloseTo(9.7, 1);
  });

  it('reaches the customary circle of confusion at f/22', () => {
    expect(smallestPrintFNumber(0.03)).toBeCloseTo(22.4, 1);
  });
});
