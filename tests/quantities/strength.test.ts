import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { duration } from '../../server/quantities/duration.ts';
import { type FilterStrength, filterStrength } from '../../server/quantities/strength.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

const strengthOf = (text: string) => {
  const { value } = filterStrength.parse(text);
  if (value === undefined) throw new Error(`not read: ${text}`);
  return value.stops;
};
const densityOf = (stops: number) => stops * Math.log10(2);

checkTruth('nd', 12, (input) => {
  if (input.factor !== undefined) {
    const stops = strengthOf(`x${input.factor}`);
    return { stops, density: densityOf(stops) };
  }
  if (input.density !== undefined) {
    const stops = strengthOf(`OD ${input.density}`);
    return { stops, factor: 2 ** stops };
  }
  if (input.stack_densities !== undefined) {
    const densities = input.stack_densities as number[];
    const stops = densities.reduce((sum, density) => sum + strengthOf(`${density}D`), 0);
    return {
      stops_exact: stops,
      density: densityOf(stops),
      'stops_at_0.3_per_stop': densityOf(stops) / 0.3,
    };
  }
  const stack = (input.stack_stops ?? [input.stops]) as number[];
  const stops = stack.reduce((sum, count) => sum + strengthOf(`${count} stops`), 0);
  const seconds = numberOf(input.base_time_s) * 2 ** stops;
  return { time_s: seconds, text: duration.format(seconds) };
});

const strength = (stops: number, basis: FilterStrength['basis']): FilterStrength => ({ stops, basis });
const log2of10 = Math.log2(10);

describe('strengths as exact numbers', () => {
  accepts(filterStrength, [
    ['6 stops', strength(6, 'stops')],
    ['1 1/3 stops', strength(4 / 3, 'stops')],
    ['10-stop', strength(10, 'stops')],
    ['ND 6 stops', strength(6, 'stops')],
    ['ND64', strength(6, 'factor')],
    ['ND 64', strength(6, 'factor')],
    ['nd8', strength(3, 'factor')],
    ['ND2', strength(1, 'factor')],
    ['ND1024', strength(10, 'factor')],
    ['ND1000', strength(Math.log2(1000), 'factor')],
    ['ND400', strength(Math.log2(400), 'factor')],
    ['x64', strength(6, 'factor')],
    ['×64', strength(6, 'factor')],
    ['64x', strength(6, 'factor')],
    ['64 ×', strength(6, 'factor')],
    ['x1.5', strength(Math.log2(1.5), 'factor')],
    ['x3', strength(Math.log2(3), 'factor')],
  ]);
});

describe('densities', () => {
  accepts(
    filterStrength,
    [
      ['OD 1.8', strength(1.8 * log2of10, 'density')],
      ['OD1.8', strength(1.8 * log2of10, 'density')],
      ['od 3', strength(3 * log2of10, 'density')],
      ['ND 1.8', strength(1.8 * log2of10, 'density')],
      ['ND3.0', strength(3 * log2of10, 'density')],
      ['ND 0.9', strength(0.9 * log2of10, 'density')],
      ['1.8D', strength(1.8 * log2of10, 'density')],
      ['1.8 D', strength(1.8 * log2of10, 'density')],
    ],
    (value) => {
      const { stops, basis } = value as FilterStrength;
      return { stops: Number(stops.toFixed(12)), basis };
    },
  );
});

const ambiguous = 'filter/ambiguous-strength';
refuses(filterStrength, [
  ['6 EV', 'plan/unknown-unit', 'Write 6 stops.', '6 stops'],
  ['3.0', ambiguous, 'Write 3 stops, or OD 3.0 (10 stops), or x3 (1.6 stops).'],
  ['0.9', ambiguous, 'Write 0.9 stop, or OD 0.9 (3 stops).'],
  ['8', ambiguous, 'Write 8 stops, or OD 8.0 (26.6 stops), or x8 (3 stops).'],
  ['64', ambiguous, 'x64 (6 stops)', 'x64'],
  ['ND 3', ambiguous, '“ND 3” is no usual label'],
  ['ND6', ambiguous, 'Write 6 stops, or OD 6.0 (19.9 stops), or x6 (2.6 stops).'],
  ['ND 10', ambiguous, '10 stops'],
  ['ND1', ambiguous, '1 stop'],
  ['ND 106', ambiguous, 'x106', 'x106'],
  ['64 ND', ambiguous, 'x64', 'x64'],
  ['2/3', ambiguous, 'fraction'],
  ['OD 1,8', 'plan/decimal-comma', '1.8', 'OD 1.8'],
  ['3,0', ambiguous, 'Write 3 stops, or OD 3.0 (10 stops), or x3 (1.6 stops).'],
  ['-2 stops', 'plan/impossible-value', 'not negative'],
  ['x0.5', 'plan/impossible-value', '1 or more'],
  ['OD 20', 'plan/impossible-value', 'more than any filter'],
  ['40 stops', 'plan/impossible-value', 'more than any filter'],
  ['ND', 'plan/unreadable', 'a strength'],
  ['dark', 'plan/unreadable', 'a strength'],
  ['ND64 x', 'plan/unreadable', 'nothing more'],
]);

test('the readings of an ambiguous number are facts that a fix can use', () => {
  const [problem] = filterStrength.parse('3.0').problems;
  const readings = problem?.facts?.readings as { spelling: string; stops: number }[];
  expect(readings.map(({ spelling }) => spelling)).toEqual(['3 stops', 'OD 3.0', 'x3']);
  for (const { spelling, stops } of readings) expect(strengthOf(spelling)).toBeCloseTo(stops, 9);
});

const decimals = (min: number, max: number) =>
  fc.integer({ min: min * 1e4, max: max * 1e4 }).map((n) => n / 1e4);
keepsTheContract(
  filterStrength,
  fc
    .oneof(
      decimals(0, 30).map((stops) => `${stops} stops`),
      decimals(0, 9).map((density) => `OD ${density}`),
      decimals(1, 9999).map((factor) => `x${factor}`),
    )
    .map((text) => filterStrength.parse(text).value ?? strength(Number.NaN, 'stops')),
);
