import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dial } from '../../server/exposure/dial.ts';
import { type FilteredExposureInput, filteredExposure } from '../../server/exposure/exposure.ts';
import { shutterSetting } from '../../server/exposure/setting.ts';
import { timeText } from '../../server/exposure/time-text.ts';

/** By hand: half a second at f/14 through six stops. */
const sixStops: FilteredExposureInput = {
  metered: { seconds: 1 / 2, fNumber: 14, iso: 64 },
  fNumber: 14,
  iso: 64,
  stops: 6,
  spreadStops: 1 / 3,
};

describe('a filtered exposure', () => {
  it('turns 1/2 s into 32 s through six stops, which the dial calls 30 s', () => {
    const { filteredSeconds, setting, takesSeconds } = filteredExposure(sixStops);
    expect(filteredSeconds).toBe(32);
    expect(setting).toEqual({
      kind: 'dial',
      label: '30 s',
      seconds: 32,
      nominalSeconds: 30,
      residualStops: 0,
      reach: 'within',
    });
    expect(takesSeconds).toBe(32);
  });

  it('turns 2 s into 2048 s, 34 min 8 s, through ten stops (group nd, case 11)', () => {
    const metered = { seconds: 2, fNumber: 8, iso: 100 };
    const { filteredSeconds, setting } = filteredExposure({
      metered,
      fNumber: 8,
      iso: 100,
      stops: 10,
      spreadStops: 0.5,
    });
    expect(filteredSeconds).toBe(2048);
    expect(setting).toMatchObject({
      kind: 'bulb',
      seconds: 2048,
      text: '34 min 8 s',
      residualStops: 0,
      beyondStops: 6,
    });
  });

  it('corrects for the film once and last: 32^1.31 is 94 s', () => {
    const film = { exponent: 1.31, beyondSeconds: 1 };
    const result = filteredExposure({ ...sixStops, film });
    expect(result.filteredSeconds).toBe(32);
    expect(result.correctedSeconds).toBeCloseTo(93.7, 1);
    expect(result.setting).toMatchObject({ kind: 'bulb', seconds: 94, text: '1 min 34 s' });
    // The spread goes through the film too: (32 · 2^±1/3)^1.31.
    expect(result.shortestSeconds).toBeCloseTo((32 * 2 ** (-1 / 3)) ** 1.31, 9);
    expect(result.longestSeconds).toBeCloseTo((32 * 2 ** (1 / 3)) ** 1.31, 9);
  });

  it('counts one stop from f/8 to f/11 and from ISO 200 to ISO 100', () => {
    const metered = { seconds: 1 / 4, fNumber: 8, iso: 200 };
    const { baseSeconds } = filteredExposure({ metered, fNumber: 11, iso: 100, stops: 0, spreadStops: 0 });
    expect(baseSeconds).toBeCloseTo(1, 12);
  });

  it('takes a dark frame as long from a second on, and none with film', () => {
    const bright = { ...sixStops, metered: { ...sixStops.metered, seconds: 1 / 128 }, noiseReduction: true };
    expect(filteredExposure({ ...sixStops, noiseReduction: true }).takesSeconds).toBe(64);
    expect(filteredExposure(bright).takesSeconds).toBe(0.5);
    const film = { exponent: 1, beyondSeconds: 1 };
    expect(filteredExposure({ ...sixStops, film, noiseReduction: true }).takesSeconds).toBe(32);
  });

  it('shows every step of its working', () => {
    const metered = { seconds: 1 / 4, fNumber: 8, iso: 64 };
    const film = { exponent: 1.31, beyondSeconds: 1 };
    const { steps } = filteredExposure({ ...sixStops, metered, fNumber: 11, film });
    expect(steps.map(({ name, formula }) => `${name}: ${formula}`)).toEqual([
      'metered: 1/4 s at f/8, ISO 64',
      'aperture: f/8 to f/11',
      'base time: 1/4 s × 2^(+1)',
      'filtered time: 1/2 s × 2^6',
      'film correction: 32^1.31',
      'bulb: 1 min 34 s',
    ]);
    const dialled = filteredExposure({ ...sixStops, noiseReduction: true }).steps;
    expect(dialled.map(({ name, value }) => [name, value])).toEqual([
      ['metered', 0.5],
      ['filtered time', 32],
      ['dial', 32],
      ['noise reduction', 64],
    ]);
    expect(dialled[2]?.note).toBe("the dial's 30 s is 32 s");
    // One stop of aperture down and one of ISO up: a factor of 1 is not written.
    const even = { seconds: 1 / 4, fNumber: 8, iso: 100 };
    const { steps: same } = filteredExposure({ ...sixStops, metered: even, fNumber: 11, iso: 200, stops: 0 });
    expect(same.filter(({ unit }) => unit === 's').map(({ name, formula }) => `${name}: ${formula}`)).toEqual(
      ['metered: 1/4 s at f/8, ISO 100', 'base time: 1/4 s', 'filtered time: 1/4 s', 'dial: 1/4 s'],
    );
  });

  it('keeps the amount of light: any change of aperture, ISO and filters gives the same exposure', () => {
    const time = fc.double({ min: 1e-4, max: 10, noNaN: true });
    const fNumber = fc.double({ min: 1, max: 40, noNaN: true });
    fc.assert(
      fc.property(
        time,
        fNumber,
        fNumber,
        fc.constantFrom(50, 100, 3200),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (seconds, from, to, iso, stops) => {
          const metered = { seconds, fNumber: from, iso: 100 };
          const there = filteredExposure({ metered, fNumber: to, iso, stops, spreadStops: 0 });
          const filtered = { seconds: there.filteredSeconds, fNumber: to, iso };
          const back = filteredExposure({
            metered: filtered,
            fNumber: from,
            iso: 100,
            stops: -stops,
            spreadStops: 0,
          });
          expect(back.filteredSeconds / seconds).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});

describe('a setting', () => {
  const stops = dial(1, { shortestSeconds: 1 / 8000, longestSeconds: 30 });

  it('shows what the dial leaves over', () => {
    // Group dials, case 4: 17.07 s on a full-stop dial is 15 (16 s), 0.093 stops too little.
    const setting = shutterSetting(17.0667, stops);
    expect(setting).toMatchObject({ kind: 'dial', label: '15 s', seconds: 16 });
    expect(setting.residualStops).toBeCloseTo(-0.0931, 4);
  });

  it('stays on the dial for half a step beyond its end, then goes to bulb', () => {
    expect(shutterSetting(45, stops).kind).toBe('dial');
    expect(shutterSetting(46, stops)).toMatchObject({ kind: 'bulb', seconds: 46 });
  });

  it('ends at the shortest time of the dial and says so', () => {
    const setting = shutterSetting(1 / 20000, stops);
    expect(setting).toMatchObject({ kind: 'dial', label: '1/8000 s', reach: 'shorter' });
    expect(setting.residualStops).toBeCloseTo(Math.log2(20000 / 8192), 12);
  });

  it('says by how much the bulb limit is passed', () => {
    const setting = shutterSetting(3600, stops, { longestSeconds: 1800 });
    expect(setting).toMatchObject({ kind: 'bulb', overLimitStops: 1 });
    expect(shutterSetting(1800, stops, { longestSeconds: 1800 })).not.toHaveProperty('overLimitStops');
  });

  it('stays at the end of the dial when the body has no bulb', () => {
    expect(shutterSetting(3600, stops, 'none')).toMatchObject({
      kind: 'dial',
      label: '30 s',
      reach: 'longer',
    });
  });
});

it('times read as photographers write them', () => {
  const read = [
    1 / 8000,
    1 / 64,
    0.25,
    0.5,
    2.457,
    17.0667,
    59.97,
    60,
    93.7,
    2048,
    4800,
    7200,
    36_000 + 1800,
  ];
  expect(read.map(timeText)).toEqual([
    '1/8000 s',
    '1/64 s',
    '1/4 s',
    '1/2 s',
    '2.46 s',
    '17.1 s',
    '1 min',
    '1 min',
    '1 min 34 s',
    '34 min 8 s',
    '1 h 20 min',
    '2 h',
    '10 h 30 min',
  ]);
});
