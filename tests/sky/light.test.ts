import { describe, expect, it } from 'vitest';
import {
  cloudFactor,
  ev100OfLux,
  expectedLight,
  lightAt,
  moonIlluminanceLux,
  moonReading,
  skyShare,
  sunIlluminanceLux,
  sunReading,
  type TableReading,
} from '../../server/sky/light.ts';
import { skyline } from '../../server/sky/skyline.ts';
import { amountOf, checkPublished } from './published.ts';

checkPublished('sun_illuminance', 14, {}, (one) => {
  const { expected } = one;
  const tolerance = amountOf(one.tolerance);
  const altitudes = [one.input.altitude_deg].flat().map(amountOf);
  altitudes.forEach((altitude, index) => {
    const lux = sunIlluminanceLux(altitude);
    const logLux = Math.log10(lux);
    if ('log10_lux' in expected) {
      expect(Math.abs(logLux - amountOf(expected.log10_lux))).toBeLessThanOrEqual(tolerance);
      expect(Math.abs(logLux - Math.log10(amountOf(expected.illuminance_lux)))).toBeLessThanOrEqual(
        tolerance,
      );
      // The tolerance is in log10; a stop is 0.301 of that.
      expect(Math.abs(ev100OfLux(lux) - amountOf(expected.EV100_incident))).toBeLessThanOrEqual(
        tolerance / 0.301,
      );
    } else {
      const [low, high] = [expected.illuminance_lux_min, expected.illuminance_lux_max].map((list) =>
        amountOf((list as unknown[])[index]),
      ) as [number, number];
      expect(logLux).toBeGreaterThanOrEqual(Math.log10(low) - tolerance);
      expect(logLux).toBeLessThanOrEqual(Math.log10(high) + tolerance);
    }
  });
});

checkPublished('moon_illuminance', 5, {}, (one) => {
  const { input, expected } = one;
  const lux = moonIlluminanceLux(
    amountOf(input.altitude_deg),
    amountOf(input.elongation_deg),
    amountOf(input.horizontal_parallax_deg),
  );
  expect(Math.abs(Math.log10(lux) - amountOf(expected.log10_lux))).toBeLessThanOrEqual(
    amountOf(one.tolerance),
  );
  // Our formula is the one that the values were computed with, so it does better than the tolerance.
  expect(lux / amountOf(expected.illuminance_lux)).toBeCloseTo(1, 1);
});

describe('how the tables are read', () => {
  const worked = ({ x, row, next }: TableReading): number => {
    const log = ([a, b, c, d]: TableReading['row']) => a + b * x + c * x ** 2 + d * x ** 3;
    return 10 ** (next === undefined ? log(row) : log(row) * (1 - next.share) + log(next.row) * next.share);
  };

  it('one row, or two at a seam, and the lux follow from them', () => {
    for (let altitude = -20; altitude <= 90; altitude += 0.07) {
      expect(worked(sunReading(altitude)) / sunIlluminanceLux(altitude), `${altitude}°`).toBeCloseTo(1, 10);
      if (altitude < -0.8) continue;
      const full = moonIlluminanceLux(altitude, 180);
      expect(worked(moonReading(altitude)) / full, `${altitude}°`).toBeCloseTo(1, 10);
    }
  });

  it('rows of the Explanatory Supplement (1992), section 9.3: that which begins at -5°, -12°, -18°; the moon’s at 20°', () => {
    expect(sunReading(-3)).toEqual({ x: -3 / 90, row: [2.88, 21.81, -258.11, -858.36] });
    expect(sunReading(-8)).toEqual({ x: -8 / 90, row: [2.7, 12.17, -431.69, -1899.83] });
    expect(sunReading(-40)).toEqual({ x: -0.2, row: [13.84, 262.72, 1447.42, 2797.93] });
    expect(moonReading(40)).toEqual({ x: 40 / 90, row: [-1.95, 4.06, -4.24, 1.56] });
  });

  it('half and half on a seam', () => {
    expect(sunReading(-5).next?.share).toBeCloseTo(0.5, 12);
    expect(sunReading(20.1).next?.share).toBeCloseTo(0.7, 12);
    expect(sunReading(20.3).next).toBeUndefined();
  });
});

describe('the illuminance of the sun', () => {
  it('never falls while the sun climbs, and has no step', () => {
    let last = sunIlluminanceLux(-30);
    for (let altitude = -30; altitude <= 90; altitude += 0.01) {
      const lux = sunIlluminanceLux(altitude);
      expect(lux, `${altitude}°`).toBeGreaterThanOrEqual(last);
      // A hundredth of a degree of twilight changes the light by 1 %.
      expect(lux / last, `${altitude}°`).toBeLessThan(1.02);
      last = lux;
    }
  });

  it('ends in the night sky, 0.0005 to 0.002 lux', () => {
    for (const altitude of [-18, -25, -90]) {
      expect(sunIlluminanceLux(altitude)).toBeGreaterThan(0.0005);
      expect(sunIlluminanceLux(altitude)).toBeLessThan(0.002);
    }
  });
});

describe('moonlight', () => {
  it('is none when the moon is down, and a ninth or less at the quarter', () => {
    expect(moonIlluminanceLux(-1, 180)).toBe(0);
    // A half moon gives about a tenth of a full one (common knowledge, no source).
    const share = moonIlluminanceLux(50, 90) / moonIlluminanceLux(50, 180);
    expect(share).toBeGreaterThan(0.07);
    expect(share).toBeLessThan(0.15);
    expect(moonIlluminanceLux(50, 90)).toBeCloseTo(moonIlluminanceLux(50, 270), 12);
  });
});

describe('clouds', () => {
  it('take what Kasten and Czeplak found: nothing at 0, a tenth at half, three quarters at 8/8', () => {
    expect(cloudFactor(0)).toBe(1);
    expect(cloudFactor(0.5)).toBeCloseTo(1 - 0.75 * 0.0947, 3);
    expect(cloudFactor(1)).toBeCloseTo(0.25, 12);
    expect(cloudFactor(1.4)).toBe(cloudFactor(1));
  });
});

const place = { latitude: 54.43, longitude: -2.61 };
const noon = Date.UTC(2027, 2, 20, 12, 15);
/** Sun at about 10° in the east. */
const morning = Date.UTC(2027, 2, 20, 7, 30);
const midnight = Date.UTC(2027, 2, 8, 0);

describe('expected light', () => {
  it('is the table under a clear sky', () => {
    const light = expectedLight({ instantMs: noon, place, cloudShare: 0 });
    // Equinox at 54.43° N: the sun stands at 35.5° at noon.
    expect(light.lux).toBeCloseTo(sunIlluminanceLux(35.45), -3);
    expect(light.ev100).toBeCloseTo(Math.log2(light.lux / 2.5), 12);
    expect(light.spreadStops).toBeCloseTo(0.33, 2);
    expect(light.parts.directSunLux + light.parts.skyLux).toBeCloseTo(light.lux, 6);
    expect(light.parts.moonLux).toBe(0);
  });

  it('meets the exposure guides within its spread (ANSI PH2.7: typical scene EV 15, cloudy bright 13, open shade 12)', () => {
    const high = { instantMs: Date.UTC(2026, 5, 21, 12), place: { latitude: 40, longitude: 0 } };
    const clear = expectedLight({ ...high, cloudShare: 0 });
    expect(Math.abs(clear.ev100 - 15)).toBeLessThan(0.7);
    const overcast = expectedLight({ ...high, cloudShare: 1 });
    expect(Math.abs(overcast.ev100 - 13)).toBeLessThan(overcast.spreadStops);
    const wall = skyline([{ azimuthDegrees: 0, altitudeDegrees: 85 }]);
    const shade = expectedLight({ ...high, cloudShare: 0, skyline: wall });
    expect(Math.abs(shade.ev100 - 12)).toBeLessThan(shade.spreadStops);
  });

  it('lies between clear and overcast when the clouds are not known, and its spread reaches both', () => {
    const at = { instantMs: noon, place };
    const unknown = expectedLight(at);
    const clear = expectedLight({ ...at, cloudShare: 0 });
    const overcast = expectedLight({ ...at, cloudShare: 1 });
    expect(unknown.ev100).toBeCloseTo((clear.ev100 + overcast.ev100) / 2, 6);
    expect(clear.ev100 - unknown.ev100).toBeLessThan(unknown.spreadStops);
    expect(unknown.ev100 - overcast.ev100).toBeLessThan(unknown.spreadStops);
    expect(overcast.spreadStops).toBeGreaterThan(clear.spreadStops);
  });

  it('loses the sun’s beam behind the skyline, the more the higher the sun; none of the sky', () => {
    const east = skyline([
      { azimuthDegrees: 60, altitudeDegrees: 0 },
      { azimuthDegrees: 100, altitudeDegrees: 25 },
      { azimuthDegrees: 150, altitudeDegrees: 0 },
    ]);
    const open = expectedLight({ instantMs: morning, place, cloudShare: 0 });
    const shaded = expectedLight({ instantMs: morning, place, cloudShare: 0, skyline: east });
    expect(open.parts.sunBehindSkyline).toBe(false);
    expect(shaded.parts).toMatchObject({ sunBehindSkyline: true, directSunLux: 0 });
    expect(shaded.lux).toBeCloseTo(open.parts.skyLux, 3);
    expect(shaded.spreadStops).toBeGreaterThan(open.spreadStops);
    // Fully overcast there is no beam to lose.
    const grey = expectedLight({ instantMs: morning, place, cloudShare: 1, skyline: east });
    expect(grey.lux).toBeCloseTo(expectedLight({ instantMs: morning, place, cloudShare: 1 }).lux, 6);
  });

  it('is starlight on a moonless night, with the spread that the sources have, and moonlight otherwise', () => {
    const dark = expectedLight({ instantMs: midnight, place, cloudShare: 0 });
    expect(dark.parts.moonLux).toBe(0);
    expect(dark.lux).toBeLessThan(0.002);
    expect(dark.spreadStops).toBeCloseTo(0.5 / Math.log10(2), 1);
    // Full moon 2027-03-22 10:44 UTC (astronomy-engine); a night before, the moon is high at midnight.
    const moonlit = expectedLight({ instantMs: Date.UTC(2027, 2, 22, 0), place, cloudShare: 0 });
    expect(moonlit.parts.moonLux).toBeGreaterThan(0.05);
    expect(moonlit.ev100).toBeGreaterThan(-6);
    const valley = skyline([{ azimuthDegrees: 0, altitudeDegrees: 60 }]);
    const hidden = expectedLight({
      instantMs: Date.UTC(2027, 2, 22, 0),
      place,
      cloudShare: 0,
      skyline: valley,
    });
    expect(hidden.parts).toMatchObject({ moonLux: 0, moonBehindSkyline: true });
  });

  it('says what its ± is made of: causes that do not depend on each other, so squares add', () => {
    const wall = skyline([{ azimuthDegrees: 0, altitudeDegrees: 60 }]);
    const shaded = expectedLight({ instantMs: noon, place, cloudShare: 0.5, skyline: wall });
    // 0.1 in log10 is 0.33 stop; half covered, half of 1.3 stops; shade one stop.
    expect(shaded.spread.skyStops).toBeCloseTo(0.332, 3);
    expect(shaded.spread.cloudStops).toBeCloseTo(0.65, 12);
    expect(shaded.spread.shadeStops).toBe(1);
    expect(shaded.spreadStops).toBeCloseTo(Math.sqrt(0.332 ** 2 + 0.65 ** 2 + 1), 3);
    expect(shaded.cloudShare).toBe(0.5);
    const dark = expectedLight({ instantMs: midnight, place });
    expect(dark.spread).toMatchObject({ moonShare: 0, nightShare: 1, shadeStops: 0 });
    expect(dark.spread.cloudStops).toBeCloseTo(1.65, 12);
    expect(dark.cloudShare).toBeUndefined();
  });

  it('is the same as a function of time', () => {
    const options = { cloudShare: 0.4 };
    const ev = lightAt(place, options);
    for (const instantMs of [noon, morning, midnight, Date.UTC(2027, 2, 20, 18, 40)]) {
      expect(ev(instantMs)).toBe(expectedLight({ instantMs, place, ...options }).ev100);
    }
    // After sunset at the equinox the light halves in about four minutes at this latitude.
    const fall = ev(Date.UTC(2027, 2, 20, 18, 40)) - ev(Date.UTC(2027, 2, 20, 18, 50));
    expect(fall).toBeGreaterThan(1);
    expect(fall).toBeLessThan(4);
  });
});

describe('the share of the sky', () => {
  it('is all when the sun is down and about a seventh when it stands high', () => {
    expect(skyShare(-5)).toBe(1);
    expect(skyShare(0)).toBe(1);
    expect(skyShare(5)).toBeCloseTo(0.84, 1);
    expect(skyShare(60)).toBeCloseTo(0.15, 2);
    for (let altitude = 0; altitude < 90; altitude++) {
      expect(skyShare(altitude + 1)).toBeLessThanOrEqual(skyShare(altitude));
    }
  });

  it('comes from a model whose total agrees with the table from 30° up within its spread', () => {
    for (const altitude of [30, 45, 60, 90]) {
      const sine = Math.sin((altitude * Math.PI) / 180);
      const modelSky = 800 + 15_500 * Math.sqrt(sine);
      expect(Math.abs(Math.log10(modelSky / skyShare(altitude) / sunIlluminanceLux(altitude)))).toBeLessThan(
        0.1,
      );
    }
  });
});
