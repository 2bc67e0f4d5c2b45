import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exposureValue, formatStops, stopStep, stops } from '../../server/quantities/stops.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';
import { truthGroup } from '../support/truth.ts';

accepts(stops, [
  ['6 stops', 6],
  ['6stops', 6],
  ['1 stop', 1],
  ['1 1/3 stops', 4 / 3],
  ['1⅓ stops', 4 / 3],
  ['6⅔ stops', 20 / 3],
  ['+2/3 stop', 2 / 3],
  ['⅔ stop', 2 / 3],
  ['-1 stop', -1],
  ['\u22121/3 stop', -1 / 3],
  ['-1 1/3 stops', -4 / 3],
  ['6.4 stops', 6.4],
  ['10-stop', 10],
  ['0 stops', 0],
  ['-0 stops', 0],
]);

refuses(stops, [
  ['6', 'plan/missing-unit', 'Write 6 stops', '6 stops'],
  ['1', 'plan/missing-unit', 'Write 1 stop.', '1 stop'],
  ['2/3', 'plan/missing-unit', 'Write 2/3 stop.', '2/3 stop'],
  ['-1/3', 'plan/missing-unit', 'Write -1/3 stop.', '-1/3 stop'],
  ['1 1/3', 'plan/missing-unit', 'Write 1 1/3 stops.', '1 1/3 stops'],
  ['6,4 stops', 'plan/decimal-comma', '6.4', '6.4 stops'],
  ['6 EV', 'plan/unknown-unit', 'counted in stops. Write 6 stops.', '6 stops'],
  ['1/3EV', 'plan/unknown-unit', 'Write 1/3 stop.', '1/3 stop'],
  ['+1 ev', 'plan/unknown-unit', 'Write +1 stop.', '+1 stop'],
  ['6 EV more', 'plan/unknown-unit', '“EV” is not a unit'],
  ['6 stops more', 'plan/unreadable', 'nothing more'],
  ['100 stops', 'plan/impossible-value', 'more than any scene'],
  ['1/0 stop', 'plan/impossible-value', '1/0'],
  ['stops', 'plan/unreadable', 'number of stops'],
  ['', 'plan/unreadable', 'number of stops'],
]);

const some = fc.oneof(
  fc.double({ min: -60, max: 60, noNaN: true }).map((value) => value + 0),
  fc.integer({ min: -180, max: 180 }).map((thirds) => thirds / 3 + 0),
);
keepsTheContract(stops, some);

describe('stops for people', () => {
  test.each([
    [0, '0 stops'],
    [1 / 3, '1/3 stop'],
    [0.5, '1/2 stop'],
    [1, '1 stop'],
    [4 / 3, '1 1/3 stops'],
    [1.65, '1 2/3 stops'],
    [2.1, '2.1 stops'],
    [2.14, '2.1 stops'],
    // Density 3.0 and density 1.8, group nd of the truth.
    [9.96578, '10 stops'],
    [5.979, '6 stops'],
    [8.96921, '9 stops'],
    [-2 / 3, '\u22122/3 stop'],
    [-0.001, '0 stops'],
  ])('%d is %s', (value, text) => {
    expect(formatStops(value)).toBe(text);
  });

  test('are never off by more than a twentieth of a stop', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (value) => {
        const shown = stops.parse(formatStops(value)).value;
        expect(Math.abs((shown ?? Number.NaN) - value)).toBeLessThanOrEqual(0.05 + 1e-9);
      }),
    );
  });
});

accepts(exposureValue, [
  ['EV 12', 12],
  ['EV12', 12],
  ['ev 12', 12],
  ['12 EV', 12],
  ['EV -3', -3],
  ['EV \u22123', -3],
  ['EV-3', -3],
  ['EV 12.3', 12.3],
  ['EV 12 1/3', 37 / 3],
  ['EV 0', 0],
]);

refuses(exposureValue, [
  ['12', 'plan/missing-unit', 'Write EV 12', 'EV 12'],
  ['-3', 'plan/missing-unit', 'Write EV -3', 'EV -3'],
  ['EV 12,3', 'plan/decimal-comma', '12.3', 'EV 12.3'],
  ['EV 100', 'plan/impossible-value', 'EV 30'],
  ['EV', 'plan/unreadable', 'an exposure value'],
  ['EV 12 13', 'plan/unreadable', 'nothing more'],
  ['12 stops', 'plan/unreadable', 'EV'],
]);

keepsTheContract(
  exposureValue,
  fc.double({ min: -20, max: 30, noNaN: true }).map((value) => value + 0),
);

describe('every published exposure value of natural light can be written', () => {
  // ANSI PH2.7-1973 and PH2.7-1986, exposure guides.
  const { cases } = truthGroup('ev_light');
  test('all cases are there', () => expect(cases).toHaveLength(13));
  test.each(cases.map(({ id, expected }) => [id, expected] as const))('%s', (_id, expected) => {
    for (const value of [expected.EV100_min, expected.EV100_max]) {
      expect(exposureValue.parse(`EV ${value}`)).toEqual({ value, problems: [] });
      expect(exposureValue.format(value as number)).toBe(`EV ${value}`);
    }
  });
});

accepts(stopStep, [
  ['1/3 stop', 1 / 3],
  ['⅓ stop', 1 / 3],
  ['1/3 stops', 1 / 3],
  ['third stops', 1 / 3],
  ['1/2 stop', 1 / 2],
  ['half stop', 1 / 2],
  ['half-stop', 1 / 2],
  ['1 stop', 1],
  ['full stop', 1],
  ['Full stops', 1],
]);

refuses(stopStep, [
  ['1/3', 'plan/missing-unit', 'Write 1/3 stop', '1/3 stop'],
  ['64', 'plan/impossible-value', '1/3 stop, 1/2 stop or 1 stop'],
  ['0.3 stop', 'plan/impossible-value', '1/3 stop', '1/3 stop'],
  ['1', 'plan/missing-unit', 'Write 1 stop.', '1 stop'],
  ['1/3 EV', 'plan/unknown-unit', 'Write 1/3 stop.', '1/3 stop'],
  ['2 EV', 'plan/impossible-value', '1/3 stop, 1/2 stop or 1 stop'],
  ['0,5 stop', 'plan/decimal-comma', '0.5.', '0.5 stop'],
  ['0,7 stop', 'plan/impossible-value', '1/3 stop, 1/2 stop or 1 stop'],
  ['1/4 stop', 'plan/impossible-value', '1/3 stop, 1/2 stop or 1 stop'],
  ['2 stops', 'plan/impossible-value', '1/3 stop, 1/2 stop or 1 stop'],
  ['fifth stops', 'plan/unreadable', '1/3 stop, 1/2 stop or 1 stop'],
  ['half', 'plan/unreadable', '1/3 stop, 1/2 stop or 1 stop'],
]);

keepsTheContract(stopStep, fc.constantFrom(1 / 3, 1 / 2, 1));

test('completion takes the unit that goes with the number', () => {
  const offered = (typed: string) => stops.complete(typed).map(({ text }) => text);
  expect(offered('1')).toEqual(['1 stop', '1 1/3 stops']);
  expect(offered('-1')).toEqual(['-1 stop']);
  expect(offered('2/3')).toEqual(['2/3 stop']);
  expect(offered('3')).toEqual(['3 stops']);
});
