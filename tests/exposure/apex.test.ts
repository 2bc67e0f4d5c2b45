import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as apex from '../../server/exposure/apex.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('apex', 13, (input) => {
  const given = (name: string) => (name in input ? numberOf(input[name]) : undefined);
  const [fNumber, seconds, iso, ev] = [given('f_number'), given('time_s'), given('iso'), given('EV100')];
  const [k, c, candelas] = [given('K'), given('C'), given('luminance_cd_m2')];
  if (ev !== undefined) {
    return {
      luminance_cd_m2: apex.luminance(ev, k),
      illuminance_lux: apex.illuminance(ev),
      ...(iso !== undefined && { EV_at_iso: apex.evAtIso(ev, iso) }),
      ...(iso !== undefined &&
        fNumber !== undefined && { time_s: apex.secondsFor({ ev100: ev, fNumber, iso }) }),
    };
  }
  if (fNumber !== undefined && seconds !== undefined && iso !== undefined) {
    const value = apex.ev100({ fNumber, seconds, iso });
    return { EV100: value, luminance_cd_m2: apex.luminance(value) };
  }
  return {
    ...(fNumber !== undefined && { Av: apex.apertureValue(fNumber) }),
    ...(seconds !== undefined && { Tv: apex.timeValue(seconds) }),
    ...(iso !== undefined && { Sv: apex.speedValue(iso) }),
    ...(candelas !== undefined && { Bv: apex.brightnessValue(candelas) }),
    ...(k !== undefined && c !== undefined && { reflectance: apex.agreeingReflectance(k, c) }),
    ...('K_low' in input && { spread_EV: apex.stopsBetween(numberOf(input.K_low), numberOf(input.K_high)) }),
  };
});

describe('exposure values', () => {
  const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });

  it('give back the time that they were made of', () => {
    fc.assert(
      fc.property(positive(1e-5, 1e5), positive(0.7, 128), positive(3, 400_000), (seconds, fNumber, iso) => {
        const ev = apex.ev100({ fNumber, seconds, iso });
        expect(apex.secondsFor({ ev100: ev, fNumber, iso }) / seconds).toBeCloseTo(1, 9);
      }),
    );
  });

  it('obey EV = Av + Tv − (Sv − 5), the APEX identity', () => {
    fc.assert(
      fc.property(positive(1e-5, 1e5), positive(0.7, 128), positive(3, 400_000), (seconds, fNumber, iso) => {
        const sum = apex.apertureValue(fNumber) + apex.timeValue(seconds) - (apex.speedValue(iso) - 5);
        expect(apex.ev100({ fNumber, seconds, iso })).toBeCloseTo(sum, 9);
      }),
    );
  });

  it('come back from luminance and illuminance', () => {
    for (const ev of [-6, 0, 7.5, 15]) {
      expect(apex.ev100FromLuminance(apex.luminance(ev))).toBeCloseTo(ev, 12);
      expect(apex.ev100FromIlluminance(apex.illuminance(ev))).toBeCloseTo(ev, 12);
    }
  });
});
