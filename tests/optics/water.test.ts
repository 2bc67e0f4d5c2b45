import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { brewsterDegrees, fresnel, polarizedReflection, waterInFrame } from '../../server/optics/water.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('fresnel_water', 10, (input) => {
  const index = numberOf(input.n);
  const brewster = brewsterDegrees(index);
  const { s, p, mean } = fresnel('incidence_deg' in input ? numberOf(input.incidence_deg) : brewster, index);
  return { Rs: s, Rp: p, R_unpolarized: mean, brewster_deg: brewster, Rs_at_brewster: s };
});

describe('reflection from water', () => {
  it('is the same for both polarizations straight down, ((n − 1)/(n + 1))², and complete at grazing', () => {
    const { s, p } = fresnel(0);
    expect(s).toBeCloseTo((0.333 / 2.333) ** 2, 12);
    expect(p).toBeCloseTo(s, 12);
    expect(fresnel(90).mean).toBeCloseTo(1, 9);
  });

  it('is never negative nor more than the light, and never stronger across than along the surface', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 90, noNaN: true }), (incidence) => {
        const { s, p, mean } = fresnel(incidence);
        for (const share of [s, p, mean]) {
          expect(share).toBeGreaterThanOrEqual(0);
          expect(share).toBeLessThanOrEqual(1 + 1e-12);
        }
        expect(p).toBeLessThanOrEqual(s + 1e-12);
      }),
    );
  });

  it('can be taken away wholly at 36.9° from the surface, not at all straight down or at grazing', () => {
    const best = 90 - brewsterDegrees();
    expect(best).toBeCloseTo(36.88, 2);
    expect(polarizedReflection(best).removableShare).toBeCloseTo(1, 9);
    expect(polarizedReflection(best).removableStops).toBeGreaterThan(20);
    expect(polarizedReflection(best).strengthenedStops).toBeCloseTo(1, 6);
    expect(polarizedReflection(90).removableStops).toBeCloseTo(0, 9);
    expect(polarizedReflection(0).removableShare).toBeCloseTo(0, 6);
  });

  it('loses log2(R/Rp) stops: 1.5 at 20° from the surface', () => {
    // From the published shares at 70° incidence: log2(0.13348 / 0.04728).
    expect(polarizedReflection(20).removableStops).toBeCloseTo(Math.log2(0.13348 / 0.04728), 3);
  });
});

describe('water in the frame', () => {
  const sensor = { width: 36, height: 24 };

  it('runs from the bottom edge to the horizon', () => {
    const view = waterInFrame({ facing: 0, tilt: -10, focal: 24, sensor });
    // 24 mm sees 26.57° to each side of the axis in height.
    expect(view?.nearest.grazingDegrees).toBeCloseTo(36.57, 2);
    expect(view?.axis?.grazingDegrees).toBe(10);
    expect(view?.farthest.grazingDegrees).toBe(0);
  });

  it('has its weakest reflection under a polarizer at Brewster’s angle, or at the edge nearest to it', () => {
    // 90° − 53.12° = 36.88°; at 24 mm and −5° the bottom edge is at 31.57°, at −70° the top edge at 43.43°.
    const strongest = (tilt: number) =>
      waterInFrame({ facing: 0, tilt, focal: 24, sensor })?.strongest.grazingDegrees;
    expect(strongest(-20)).toBeCloseTo(36.88, 2);
    expect(strongest(-5)).toBeCloseTo(31.57, 2);
    expect(strongest(-70)).toBeCloseTo(43.43, 2);
  });

  it('ends at the top edge when the horizon is out of the frame', () => {
    const view = waterInFrame({ facing: 0, tilt: -40, focal: 24, sensor });
    expect(view?.farthest.grazingDegrees).toBeCloseTo(40 - 26.57, 2);
    expect(waterInFrame({ facing: 0, tilt: -80, focal: 24, sensor })?.nearest.grazingDegrees).toBe(90);
  });

  it('is not there when the camera looks up', () => {
    expect(waterInFrame({ facing: 0, tilt: 30, focal: 24, sensor })).toBeNull();
    expect(waterInFrame({ facing: 0, tilt: 5, focal: 24, sensor })?.axis).toBeNull();
  });
});
