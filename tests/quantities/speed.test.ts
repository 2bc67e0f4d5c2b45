import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beaufort, speed, speedOfForce } from '../../server/quantities/speed.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';
import { truthGroup } from '../support/truth.ts';

describe('Beaufort forces of WMO-No. 306, Manual on Codes, Vol. I.1', () => {
  const { cases } = truthGroup('beaufort');
  const [limits, ...single] = cases;
  const lowest = limits?.expected.lower_m_s as number[];
  const lowestKnots = limits?.expected.lower_knots as number[];

  test('all cases are there', () => {
    expect(single.map(({ id }) => id)).toEqual([2, 3, 4, 5, 6, 7].map((number) => `beaufort-0${number}`));
    expect([lowest.length, lowestKnots.length]).toEqual([13, 13]);
  });

  test('each force begins at its printed limit in m/s and not 0.1 m/s below', () => {
    lowest.forEach((start, force) => {
      expect(beaufort(start)).toBe(force);
      if (force > 0) expect(beaufort(start - 0.1)).toBe(force - 1);
    });
  });

  test('the printed limit in knots is of its force', () => {
    lowestKnots.forEach((knots, force) => {
      expect(beaufort(speed.parse(`${knots} kn`).value ?? Number.NaN)).toBe(force);
    });
  });

  test.each(single)('$id', ({ input, expected, tolerance }) => {
    if (expected.beaufort !== undefined) expect(beaufort(input.wind_m_s as number)).toBe(expected.beaufort);
    else {
      const off = speedOfForce(input.beaufort as number) - (expected.centre_m_s as number);
      expect(Math.abs(off)).toBeLessThanOrEqual(tolerance as number);
    }
  });
});

test('the speed that stands for a force is of that force', () => {
  for (let force = 0; force <= 12; force += 1) {
    const value = speed.parse(`Bft ${force}`).value;
    expect(beaufort(value ?? Number.NaN)).toBe(force);
  }
});

// Knot: ISO 80000-3. Mile: 1609.344 m, agreement of 1959.
accepts(speed, [
  ['1.5 m/s', 1.5],
  ['36 km/h', 10],
  ['36km/h', 10],
  ['36 kph', 10],
  ['36 KM/H', 10],
  ['5 km/h', 1.38888888889],
  ['10 mph', 4.4704],
  ['18 kn', 9.26],
  ['18 kt', 9.26],
  ['18 knots', 9.26],
  ['10 ft/s', 3.048],
  ['0 km/h', 0],
  ['Bft 0', 0],
  ['Bft 4', 6.688],
  ['4 Bft', 6.688],
  ['Bft4', 6.688],
  ['force 4', 6.688],
  ['Beaufort 4', 6.688],
]);

refuses(speed, [
  ['5', 'plan/missing-unit', 'Write 5 km/h or 5 m/s or 5 mph or 5 kn'],
  ['5 km', 'plan/unknown-unit', '“km” is not a unit of speed'],
  ['5 km/s', 'plan/unknown-unit', '“km/s” is not a unit of speed'],
  ['1,5 m/s', 'plan/decimal-comma', '1.5', '1.5 m/s'],
  ['-5 km/h', 'plan/impossible-value', 'not negative'],
  ['2000 km/h', 'plan/impossible-value', '150 m/s'],
  ['Bft 13', 'plan/impossible-value', 'from 0 to 12'],
  ['Bft 2.5', 'plan/impossible-value', 'whole numbers'],
  ['Bft', 'plan/unreadable', 'a Beaufort force'],
  ['light', 'plan/unreadable', 'a speed'],
  ['', 'plan/unreadable', 'a speed'],
]);

keepsTheContract(
  speed,
  fc.oneof(
    fc.double({ min: 0, max: 150, noNaN: true }).map((value) => Number(value.toPrecision(12))),
    fc.integer({ min: 0, max: 5400 }).map((tenths) => speed.parse(`${tenths / 10} km/h`).value ?? Number.NaN),
  ),
);

test('a speed in km/h is written in km/h again', () => {
  expect(speed.format(speed.parse('3 km/h').value ?? Number.NaN)).toBe('3 km/h');
  expect(speed.format(speed.parse('12.7 km/h').value ?? Number.NaN)).toBe('12.7 km/h');
});
