import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Bearing, bearing } from '../../server/quantities/bearing.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

const from = (degrees: number, reference: Bearing['reference'] = 'unstated'): Bearing => ({
  degrees,
  reference,
});

accepts(bearing, [
  ['118', from(118)],
  ['118°', from(118)],
  ['118º', from(118)],
  ['118 deg', from(118)],
  ['118 degrees', from(118)],
  ['118.5°', from(118.5)],
  ["118°30'", from(118.5)],
  ['007', from(7)],
  ['0', from(0)],
  ['360', from(0)],
  ['360° mag', from(0, 'magnetic')],
  ['118° mag', from(118, 'magnetic')],
  ['118 magnetic', from(118, 'magnetic')],
  ['118°M', from(118, 'magnetic')],
  ['118° true', from(118, 'true')],
  ['118°T', from(118, 'true')],
  ['SE', from(135)],
  ['se', from(135)],
  ['SE mag', from(135, 'magnetic')],
  ['ESE', from(112.5)],
  ['south-east', from(135)],
  ['southeast', from(135)],
  ['South East', from(135)],
  ['east-south-east', from(112.5)],
  ['north north west true', from(337.5, 'true')],
  ['S20E', from(160)],
  ['S 20° E', from(160)],
  ['s20w', from(200)],
  ['N 45 W', from(315)],
  ['N0E', from(0)],
  ['N 0 W', from(0)],
  ['N45W mag', from(315, 'magnetic')],
]);

test('the sixteen points stand 22.5° apart, clockwise from north', () => {
  const points = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(' ');
  expect(points.map((point) => bearing.parse(point).value?.degrees)).toEqual(points.map((_, i) => i * 22.5));
});

refuses(bearing, [
  ['400', 'plan/impossible-value', 'Write 40°', '40°'],
  ['361° mag', 'plan/impossible-value', 'Write 1° mag', '1° mag'],
  ['-10', 'plan/impossible-value', 'Write 350°', '350°'],
  ['-10° true', 'plan/impossible-value', 'Write 350° true', '350° true'],
  ['99999', 'plan/impossible-value', 'from 0° to 360°'],
  ['S95E', 'plan/impossible-value', 'at most 90°'],
  ['118,5', 'plan/decimal-comma', '118.5', '118.5'],
  ['souht-east', 'plan/unknown-word', 'Is southeast meant?', 'southeast'],
  ['upstream', 'plan/unknown-word', '“upstream” is no bearing'],
  ['SEE', 'plan/unknown-word', 'no bearing'],
  ['E20S', 'plan/unknown-word', 'no bearing'],
  ['S20', 'plan/unreadable', 'E or W'],
  ['118° east', 'plan/unreadable', 'true or mag'],
  ['118° mag north', 'plan/unreadable', 'true or mag'],
  ['', 'plan/unreadable', '118° or SE'],
]);

keepsTheContract(
  bearing,
  fc.record({
    degrees: fc.integer({ min: 0, max: 359_999_999 }).map((millionths) => millionths / 1e6),
    reference: fc.constantFrom('true', 'magnetic', 'unstated'),
  }) as fc.Arbitrary<Bearing>,
);
