import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dewPoint, relativeHumidity, saturationPressure, windChill } from '../../server/optics/air.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('dew_point', 6, (input) => {
  const air = numberOf(input.air_C);
  return {
    saturation_hPa: saturationPressure(air),
    ...('RH_percent' in input && { dew_point_C: dewPoint(air, numberOf(input.RH_percent) / 100) }),
  };
});

const metresPerMile = 1609.344;

checkTruth('wind_chill', 8, (input) => {
  if ('air_F' in input) {
    const celsius = ((numberOf(input.air_F) - 32) * 5) / 9;
    const chill = windChill(celsius, (numberOf(input.wind_mph) * metresPerMile) / 3600) ?? Number.NaN;
    return { wind_chill_F: (chill * 9) / 5 + 32 };
  }
  const chill = windChill(numberOf(input.air_C), numberOf(input.wind_km_h) / 3.6) ?? Number.NaN;
  return { wind_chill_C: chill, table_C: Math.round(chill) };
});

it('there is no wind chill in warm air or in calm', () => {
  expect(windChill(10.1, 10)).toBeNull();
  expect(windChill(0, 1.3)).toBeNull();
  expect(windChill(0, 4.8 / 3.6)).not.toBeNull();
});

it('humidity and dew point are inverse, and the dew point is never above the air', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -20, max: 40, noNaN: true }),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      (air, share) => {
        expect(relativeHumidity(air, dewPoint(air, share))).toBeCloseTo(share, 9);
        expect(dewPoint(air, share)).toBeLessThanOrEqual(air + 1e-9);
      },
    ),
  );
});
