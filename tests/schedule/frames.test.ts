import { describe, expect, test } from 'vitest';
import { dayOf, planText } from './plans.ts';

function shot(inside: string) {
  const found = dayOf(planText({ spot: ['arrive: 06:00'], shots: [`id: s, ${inside}`] })).shotOf('s');
  if (found === undefined) throw new Error('No shot.');
  return found;
}

const seconds = (inside: string) => shot(inside).exposure?.filtered?.correctedSeconds;

describe('The time through filters', () => {
  // t · 2^stops: half a second through six stops is 32 s. Tables for photographers print 30 s, as dials do.
  test('½ s at f/14 through six stops is 32 s, which the dial calls 30 s', () => {
    const { exposure } = shot('aperture: f/14, iso: 64, metered: 1/2 s, filters: [nd6]');
    expect(exposure?.basis).toBe('metered');
    expect(exposure?.filtered?.correctedSeconds).toBe(32);
    expect(exposure?.setting).toMatchObject({
      kind: 'dial',
      seconds: 32,
      nominalSeconds: 30,
      reach: 'within',
    });
  });

  test('the measured strength goes before the label', () => {
    expect(seconds('aperture: f/14, iso: 64, metered: 1/2 s, filters: [nd6m]')).toBeCloseTo(
      0.5 * 2 ** 6.4,
      9,
    );
  });

  test.each([
    ['filters: [nd6, pol]', 7.5],
    ['filters: nd6', 6],
    ['filters: []', 0],
    // A graduated filter holds back the sky; the foreground, which is metered, gets its time unchanged.
    ['filters: [nd6, grad2]', 6],
  ])('stops of a stack add up: %s', (filters, stops) => {
    expect(seconds(`aperture: f/8, iso: 100, metered: 1 s, ${filters}`)).toBeCloseTo(2 ** stops, 9);
  });

  test.each([
    // N² and S of ISO 2720, with the exact numbers behind the markings: f/11 is two stops from f/5.6.
    ['aperture: f/11, iso: 100, metered: 1/2 s @ f/5.6', 2],
    ['aperture: f/11, iso: 200, metered: "1/2 s @ f/5.6, ISO 100"', 1],
    ['aperture: f/5.6, iso: 400, metered: "1/2 s, ISO 100"', 1 / 8],
    ['metered: 1/2 s @ f/5.6', 1 / 2],
    // EV = log2(N²/t) at ISO 100.
    ['aperture: f/8, iso: 100, metered: EV 12', 1 / 64],
    ['aperture: f/8, iso: 200, metered: EV 12', 1 / 128],
  ])('the meter’s own aperture and speed are converted: %s', (inside, expected) => {
    expect(seconds(inside)).toBeCloseTo(expected, 9);
  });

  test('film is corrected last, and once', () => {
    // 4 s to the power of 1.31 is 6.15 s; a sixteenth of a second through six stops meters those 4 s.
    const film = 'body: folding, film: slide, aperture: f/8';
    expect(seconds(`${film}, metered: 4 s`)).toBeCloseTo(4 ** 1.31, 9);
    expect(seconds(`${film}, metered: 1/16 s, filters: [nd6]`)).toBeCloseTo(4 ** 1.31, 9);
    expect(seconds(`${film}, metered: 1/2 s`)).toBe(0.5);
    expect(shot(`${film}, metered: 1 s`).gear.iso).toBe(50);
  });

  test('a film’s own table gives its rows exactly', () => {
    const film = 'body: folding, film: sheet, aperture: f/8';
    expect(seconds(`${film}, metered: 1 s`)).toBeCloseTo(2, 9);
    expect(seconds(`${film}, metered: 10 s`)).toBeCloseTo(50, 9);
  });

  test('beyond the dial it is bulb, in whole seconds', () => {
    const { exposure } = shot('aperture: f/14, iso: 64, metered: 1.3 s, filters: [nd6]');
    expect(exposure?.setting).toMatchObject({ kind: 'bulb' });
    // The marking 1.3 s is ⅓ stop beyond a second: 1.26 s, and 64 times that.
    expect(exposure?.setting.seconds).toBeCloseTo(64 * 2 ** (1 / 3), -1);
  });

  test.each([
    'aperture: f/14, metered: 1/2 s, filters: [nd9]',
    'aperture: wide, metered: 1/2 s',
    'aperture: f/14, metered: bright',
    'aperture: f/14, iso: fast, metered: 1/2 s',
    'aperture: f/14, metered: 1/2 s, shutter: long',
    'metered: 1/2 s',
  ])('is not given while something that it needs is missing: %s', (inside) => {
    expect(shot(inside).exposure).toBeUndefined();
  });

  test('comes from the light that is expected where nobody metered, with its ±', () => {
    const { exposure } = shot('aperture: f/8, iso: 100, start: 12:00');
    expect(exposure?.basis).toBe('expected');
    expect(exposure?.lightSpreadStops).toBeGreaterThan(0);
    // Noon in March, sky unknown: "sunny 16" says 1/100 s at f/16, a quarter of that at f/8; common practice, no source.
    // Within three stops, as clouds are not known.
    expect(Math.abs(Math.log2((exposure?.filtered?.correctedSeconds ?? 0) * 400))).toBeLessThan(3);
  });
});

describe('The frames of a shot', () => {
  test('take their time and the gaps between them', () => {
    const { frames } = shot('shutter: 4 s, frames: 3, gap: 5 s');
    expect(frames).toMatchObject({ frames: 3, openSeconds: 12, totalSeconds: 22 });
  });

  test('take twice as long where the body makes a dark frame of each', () => {
    const { frames } = shot('body: slow, shutter: 30 s, frames: 2, gap: 10 s');
    expect(frames).toMatchObject({ frames: 2, openSeconds: 64, totalSeconds: 138 });
  });

  test('of a bracket are a stop apart, around the metered one', () => {
    const { frames } = shot(
      'aperture: f/8, iso: 100, metered: 4 s, bracket: { frames: 3, step: 1 stop }, frames: 2',
    );
    expect(frames?.exposures.map((each) => Number(each.toFixed(6)))).toEqual([2, 4, 8]);
    expect(frames).toMatchObject({ frames: 2, openSeconds: 28, totalSeconds: 28 });
  });

  test('of a panorama are as many as the sweep needs', () => {
    // 36 mm of sensor at 35 mm see 54.4°; with 30 % overlap each further frame adds 38.1° (rectilinear, 2·atan(d/2f)).
    const { frames } = shot('lens: wide @ 35 mm, shutter: 1 s, sweep: 130°, overlap: 30 %');
    expect(frames?.frames).toBe(3);
  });
});
