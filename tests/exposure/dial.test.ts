import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dial, exactFNumber, exactIso, fNumberPositions, usualDial } from '../../server/exposure/dial.ts';
import { apertureMarks, markedNumber, shutterMarks, speedMarks } from '../../server/exposure/marks.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

const stepStops = new Map([
  ['full', 1],
  ['half', 1 / 2],
  ['third', 1 / 3],
]);

const toThirtySeconds = { shortestSeconds: 1 / 8000, longestSeconds: 30 };

/** The step by its name in the published group. */
function stepNamed(name: unknown): number {
  const found = stepStops.get(String(name));
  if (found === undefined) throw new Error(`no step ${String(name)}`);
  return found;
}

checkTruth('dials', 9, (input) => {
  if ('f_number_label' in input) return { f_number_exact: exactFNumber(numberOf(input.f_number_label)) };
  if ('wanted_time_s' in input) {
    const found = dial(stepNamed(input.dial), toThirtySeconds).nearest(numberOf(input.wanted_time_s));
    return { label: found.label, exact_s: found.seconds, error_EV: found.errorStops };
  }
  const seconds = (text: unknown) => numberOf(String(text).replace(' s', ''));
  const range = { shortestSeconds: seconds(input.to), longestSeconds: seconds(input.from) };
  const { positions } = dial(stepNamed(input.step), range);
  return {
    labels: positions.map(({ label }) => label),
    exact_s: positions.map((position) => position.seconds),
  };
});

describe('every marking', () => {
  it('names its exact time to a fifth of a stop', () => {
    // The custom rounds to short names; the worst are 0.3 for 0.354 and 20 for 22.6, both half stops.
    for (const steps of [1, 2, 3] as const) {
      const { positions } = dial(1 / steps, { shortestSeconds: 1 / 32000, longestSeconds: 960 });
      expect(positions.map(({ label }) => label)).toEqual(shutterMarks[steps]);
      for (const { label, seconds, nominalSeconds } of positions) {
        const limit = label === '0.3' ? 0.24 : 1 / 5;
        expect(Math.abs(Math.log2(nominalSeconds / seconds)), label).toBeLessThan(limit);
      }
    }
  });

  it('names its exact aperture and speed to a sixth of a stop', () => {
    for (const steps of [1, 2, 3] as const) {
      expect(fNumberPositions(1 / steps).length).toBe(apertureMarks[steps].length);
      for (const { fNumber, markedFNumber } of fNumberPositions(1 / steps)) {
        expect(Math.abs(2 * Math.log2(markedFNumber / fNumber)), String(markedFNumber)).toBeLessThan(1 / 6);
      }
    }
    for (const mark of speedMarks) {
      expect(Math.abs(Math.log2(exactIso(mark) / mark)), String(mark)).toBeLessThan(0.07);
    }
  });
});

describe('apertures', () => {
  it('stand one stop apart from f/8 to f/11, and two thirds from f/11 to f/14', () => {
    expect(2 * Math.log2(exactFNumber('f/11') / exactFNumber('f/8'))).toBeCloseTo(1, 12);
    expect(2 * Math.log2(exactFNumber(14) / exactFNumber(11))).toBeCloseTo(2 / 3, 12);
  });

  it('read a name that two scales share by the step', () => {
    expect(exactFNumber(13)).toBeCloseTo(2 ** (22 / 6), 12);
    expect(exactFNumber(13, 1 / 2)).toBeCloseTo(2 ** (15 / 4), 12);
  });

  it('leave a number alone that is no marking', () => {
    expect(exactFNumber(0.95)).toBe(0.95);
    expect(exactFNumber(6.8)).toBe(6.8);
    expect(exactIso(7)).toBe(7);
  });
});

describe('a dial', () => {
  it('finds the same position as a search through all of them', () => {
    const time = fc.double({ min: 1e-6, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(time, fc.constantFrom(1, 1 / 2, 1 / 3), (seconds, step) => {
        const { positions, nearest } = dial(step, toThirtySeconds);
        const off = positions.map((position) => Math.abs(Math.log2(position.seconds / seconds)));
        const found = nearest(seconds);
        expect(off[found.index]).toBeCloseTo(Math.min(...off), 9);
        expect(found.label).toBe(positions[found.index]?.label);
      }),
    );
  });

  it('says where it ends', () => {
    const thirds = usualDial();
    expect(thirds.longest.label).toBe('30');
    expect(thirds.shortest.label).toBe('1/8000');
    expect(thirds.nearest(35)).toMatchObject({ label: '30', reach: 'within' });
    expect(thirds.nearest(37)).toMatchObject({ label: '30', reach: 'longer', index: 0 });
    expect(thirds.nearest(1 / 20000)).toMatchObject({ label: '1/8000', reach: 'shorter' });
    expect(thirds.neighbours(0)).toEqual({ shorter: thirds.positions[1] });
    expect(thirds.neighbours(1)).toEqual({ longer: thirds.positions[0], shorter: thirds.positions[2] });
  });

  it('runs on to a quarter of an hour where the body does', () => {
    const long = dial(1 / 3, { shortestSeconds: 1 / 8000, longestSeconds: 900 });
    expect(long.longest).toMatchObject({ label: '800', nominalSeconds: 800 });
    expect(long.nearest(64).label).toBe('60');
  });

  it('keeps one position when the range holds none', () => {
    const narrow = dial(1, { shortestSeconds: 0.3, longestSeconds: 0.35 });
    expect(narrow.positions.map(({ label }) => label)).toEqual(['1/4']);
    expect(narrow.nearest(100).label).toBe('1/4');
  });

  it('reads its markings back', () => {
    expect(markedNumber('1/250')).toBe(0.004);
    expect(markedNumber('f/5.6')).toBe(5.6);
    expect(markedNumber('bulb')).toBeNaN();
  });
});
