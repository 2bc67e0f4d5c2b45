import fc from 'fast-check';
import geomagnetism from 'geomagnetism';
import { describe, expect, it, vi } from 'vitest';
import { civilDate } from '../../server/sky/civil.ts';
import { magneticBearing, magneticDeclination, trueBearing } from '../../server/sky/declination.ts';
import { destination, geodesic } from '../../server/sky/geodesy.ts';
import {
  apparentAltitudeDegrees,
  bennettArcminutes,
  dipDegrees,
  geometricDipDegrees,
  geometricHorizonDistanceMetres,
  horizonDistanceMetres,
  saemundssonArcminutes,
} from '../../server/sky/refraction.ts';
import { type Tide, tideHeight, tideShare } from '../../server/sky/tides.ts';
import { checkTruth } from '../support/truth.ts';
import { amountOf, checkPublished, dateOf, expectNear } from './published.ts';

/** The day on which a decimal year falls. */
function dateOfYear(decimalYear: number): ReturnType<typeof civilDate> {
  const year = Math.floor(decimalYear);
  const start = Date.UTC(year, 0, 1);
  return civilDate(start + (decimalYear - year) * (Date.UTC(year + 1, 0, 1) - start));
}

checkPublished('wmm2025', 14, {}, (one) => {
  const { input, expected } = one;
  if ('true_bearing_deg' in input) {
    const declination = amountOf(input.declination_deg);
    const magnetic = magneticBearing(amountOf(input.true_bearing_deg), declination);
    expectNear(one, 'magnetic_bearing_deg', magnetic);
    expect(trueBearing(magnetic, declination)).toBeCloseTo(amountOf(input.true_bearing_deg), 9);
    return;
  }
  const place = {
    latitude: amountOf(input.latitude),
    longitude: amountOf(input.longitude),
    elevationMetres: amountOf(input.height_km) * 1000,
  };
  const date = 'date' in input ? dateOf(input.date) : dateOfYear(amountOf(input.decimal_year));
  const found = magneticDeclination(place, date);
  expectNear(one, 'declination_deg', found.degrees);
  expect(found).toMatchObject({ valid: true, model: 'WMM2025' });
  if ('horizontal_nT' in expected) {
    // Half a day of secular variation lies between noon of the decimal year and the date's midnight.
    expectNear(one, 'horizontal_nT', found.horizontalNanotesla);
    expect(found.nearPole).toBe((expected.horizontal_nT as number) < 6000);
  }
});

describe('magnetic declination', () => {
  const amsterdam = { latitude: 52.3, longitude: 4.9, elevationMetres: 3000 };

  it('goes on after the model has run out, and says that it has', () => {
    const late = new Date(Date.UTC(2030, 1, 1));
    expect(() => geomagnetism.model(late)).toThrow(/only valid/);
    const toConsole = vi.spyOn(console, 'error').mockImplementation(() => {});
    const theirs = geomagnetism.model(late, { allowOutOfBoundsModel: true }).point([52.3, 4.9, 3]);
    expect(toConsole).toHaveBeenCalledTimes(1);
    const found = magneticDeclination(amsterdam, { year: 2030, month: 2, day: 1 });
    expect(found.valid).toBe(false);
    expect(found.degrees).toBeCloseTo(theirs.decl, 4);
    // Ours neither throws nor writes.
    expect(toConsole).toHaveBeenCalledTimes(1);
    toConsole.mockRestore();
    expect(magneticDeclination(amsterdam, { year: 2060, month: 1, day: 1 }).valid).toBe(false);
    expect(magneticDeclination(amsterdam, { year: 2029, month: 12, day: 31 }).valid).toBe(true);
  });

  it('takes the elevation in metres: as kilometres, 3000 would give -1.74° instead of 2.77°', () => {
    const found = magneticDeclination(amsterdam, { year: 2026, month: 11, day: 24 });
    expect(found.degrees).toBeCloseTo(2.77, 2);
    const astray = magneticDeclination(
      { ...amsterdam, elevationMetres: 3_000_000 },
      { year: 2026, month: 11, day: 24 },
    );
    expect(astray.degrees).toBeLessThan(0);
  });

  it('takes the model of the time for earlier dates, down to 2015', () => {
    const models = [
      [1995, 'WMM2015', false],
      [2014, 'WMM2015', false],
      [2016, 'WMM2015', true],
      [2019, 'WMM2015v2', true],
      [2021, 'WMM2020', true],
      [2024, 'WMM2020', true],
      [2025, 'WMM2025', true],
    ] as const;
    for (const [year, model, valid] of models) {
      const found = magneticDeclination(amsterdam, { year, month: 6, day: 1 });
      expect(found, `${year}`).toMatchObject({ model, valid });
    }
  });

  it('steps by little where one model follows the other', () => {
    const before = magneticDeclination(amsterdam, { year: 2024, month: 12, day: 31 });
    const after = magneticDeclination(amsterdam, { year: 2025, month: 1, day: 1 });
    expect(Math.abs(after.degrees - before.degrees)).toBeLessThan(0.3);
  });

  it('is not to be trusted near the magnetic poles', () => {
    const date = { year: 2027, month: 3, day: 20 };
    expect(magneticDeclination(amsterdam, date).nearPole).toBe(false);
    expect(magneticDeclination({ latitude: 86, longitude: 150 }, date).nearPole).toBe(true);
    expect(magneticDeclination({ latitude: -64, longitude: 137 }, date).nearPole).toBe(true);
    expect(Number.isFinite(magneticDeclination({ latitude: 90, longitude: 0 }, date).degrees)).toBe(true);
  });
});

checkTruth('geodesic', 8, (input) => {
  const [lat1, lon1, lat2, lon2] = [input.lat1, input.lon1, input.lat2, input.lon2].map(amountOf) as [
    number,
    number,
    number,
    number,
  ];
  const line = geodesic({ latitude: lat1, longitude: lon1 }, { latitude: lat2, longitude: lon2 });
  return {
    distance_m: line.distanceMetres,
    azimuth1_deg: line.bearingDegrees,
    // The table counts the azimuth at the other end forward.
    azimuth2_deg: (line.backBearingDegrees + 180) % 360,
  };
});

describe('a geodesic', () => {
  const place = fc.record({
    latitude: fc.double({ min: -89.9, max: 89.9, noNaN: true }),
    longitude: fc.double({ min: -180, max: 180, noNaN: true }),
  });

  it('leads from one end to the other', () => {
    fc.assert(
      fc.property(place, place, (from, to) => {
        const line = geodesic(from, to);
        const reached = destination(from, line.bearingDegrees, line.distanceMetres);
        expect(geodesic(reached, to).distanceMetres).toBeLessThan(0.001);
        expect(line.bearingDegrees).toBeGreaterThanOrEqual(0);
        expect(line.bearingDegrees).toBeLessThan(360);
        expect(Math.abs(reached.longitude)).toBeLessThanOrEqual(180);
      }),
    );
  });

  it('has no length from a place to itself', () => {
    expect(geodesic({ latitude: 54, longitude: -2 }, { latitude: 54, longitude: -2 }).distanceMetres).toBe(0);
  });
});

checkPublished(
  'horizon',
  13,
  { 'horizon-13': 'rise and set over a sea horizon, tested with the events' },
  (one) => {
    const { input, expected } = one;
    if ('eye_height_m' in input) {
      const eye = amountOf(input.eye_height_m);
      expectNear(one, 'dip_arcmin', dipDegrees(eye) * 60);
      expectNear(one, 'dip_geometric_arcmin', geometricDipDegrees(eye) * 60);
      expectNear(one, 'distance_km', horizonDistanceMetres(eye) / 1000);
      expectNear(one, 'distance_geometric_km', geometricHorizonDistanceMetres(eye) / 1000);
    } else if (input.formula === 'bennett') {
      expectNear(one, 'R_arcmin', bennettArcminutes(amountOf(input.apparent_altitude_deg)));
    } else {
      const altitude =
        'true_altitude_deg' in input
          ? amountOf(input.true_altitude_deg)
          : amountOf(input.true_altitude_arcmin) / 60;
      expect(expected).toHaveProperty('R_arcmin');
      expectNear(one, 'R_arcmin', saemundssonArcminutes(altitude));
    }
  },
);

describe('refraction', () => {
  it('raises every body a little, and never turns the order of two', () => {
    let last = -91;
    for (let h = -90; h <= 90; h += 0.05) {
      const apparent = apparentAltitudeDegrees(h);
      expect(apparent).toBeGreaterThan(last);
      expect(apparent - h).toBeGreaterThan(-0.0001);
      expect(apparent - h).toBeLessThan(0.7);
      last = apparent;
    }
    expect(apparentAltitudeDegrees(-90)).toBe(-90);
  });
});

const parts = [1, 2, 3, 4, 5, 6].map((sixths) => sixths / 6);

checkTruth('tide', 5, (input) => {
  if ('part' in input) {
    return {
      twelfths_cumulative: parts.map((part) => tideShare(part, 'twelfths')),
      cosine_cumulative: parts.map((part) => tideShare(part, 'cosine')),
    };
  }
  const hour = 3_600_000;
  const [from, to] = [amountOf(input.from_height_m), amountOf(input.to_height_m)];
  const tides: Tide[] = [
    { kind: from < to ? 'low' : 'high', instantMs: 0, heightMetres: from },
    { kind: from < to ? 'high' : 'low', instantMs: amountOf(input.interval_h) * hour, heightMetres: to },
  ];
  const atMs = amountOf(input.elapsed_h) * hour;
  return {
    rule_of_twelfths_m: tideHeight(tides, atMs, 'twelfths')?.heightMetres,
    cosine_m: tideHeight(tides, atMs)?.heightMetres,
  };
});

describe('the tide between given waters', () => {
  const low: Tide = { kind: 'low', instantMs: 0, heightMetres: 0.9 };
  const high: Tide = { kind: 'high', instantMs: 22_000_000, heightMetres: 5.4 };

  it('is known at the ends and unknown beyond them', () => {
    expect(tideHeight([high, low], 0)?.heightMetres).toBe(0.9);
    expect(tideHeight([high, low], 22_000_000)?.heightMetres).toBeCloseTo(5.4, 12);
    expect(tideHeight([high, low], -1)).toBeUndefined();
    expect(tideHeight([high, low], 22_000_001)).toBeUndefined();
    expect(tideHeight([], 5)).toBeUndefined();
    expect(tideHeight([low], 0)).toBeUndefined();
  });

  it('says whether it rises, and between which waters', () => {
    expect(tideHeight([high, low], 5_000_000)).toMatchObject({ rising: true, before: low, after: high });
  });

  it('is not guessed over a missing height or a missing water', () => {
    expect(tideHeight([low, { kind: 'high', instantMs: 22_000_000 }], 5_000_000)).toBeUndefined();
    expect(tideHeight([low, { ...low, instantMs: 44_000_000 }], 5_000_000)).toBeUndefined();
  });

  it('never leaves the range, by either rule', () => {
    for (const rule of ['cosine', 'twelfths'] as const) {
      let last = 0;
      for (let part = 0; part <= 1; part += 0.001) {
        const share = tideShare(part, rule);
        expect(share).toBeGreaterThanOrEqual(last);
        last = share;
      }
      expect(last).toBeLessThanOrEqual(1);
    }
  });
});
