import { expect, test } from 'vitest';
import { nearest } from '../../server/quantities/nearest.ts';

const names = ['sunrise', 'sunset', 'moonrise', 'min', 's'];

test.each([
  ['sunrsie', 'sunrise'],
  ['SUNRIZE', 'sunrise'],
  ['sunst', 'sunset'],
  ['sunsett', 'sunset'],
  ['mni', 'min'],
  ['moon rise', 'moonrise'],
  ['x', undefined],
  ['wind', undefined],
  ['', undefined],
  ['sunflower', undefined],
  ['sunrise'.repeat(20_000), undefined],
])('%s', (word, expected) => {
  expect(nearest(word, names)).toBe(expected);
});

test('an exact match wins over a near one, the first over a later one as near', () => {
  expect(nearest('sat', ['set', 'sat'])).toBe('sat');
  expect(nearest('sot', ['set', 'sat'])).toBe('set');
});
