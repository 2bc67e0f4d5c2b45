import fc from 'fast-check';
import { expect, test } from 'vitest';
import { focalLength, lensChoice } from '../../server/quantities/focal.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

const range = (shortestMillimetres: number, longestMillimetres = shortestMillimetres) => ({
  shortestMillimetres,
  longestMillimetres,
});

accepts(focalLength, [
  ['24 mm', range(24)],
  ['24mm', range(24)],
  ['10.5 mm', range(10.5)],
  ['16-35 mm', range(16, 35)],
  ['16–35 mm', range(16, 35)],
  ['16 - 35mm', range(16, 35)],
  ['16 .. 35 mm', range(16, 35)],
  ['16 mm .. 35 mm', range(16, 35)],
  ['16mm-35', range(16, 35)],
]);

refuses(focalLength, [
  ['24', 'plan/missing-unit', 'Write 24 mm', '24 mm'],
  ['16-35', 'plan/missing-unit', 'Write 16-35 mm', '16-35 mm'],
  ['35-16 mm', 'plan/impossible-value', 'shortest focal length first', '16-35 mm'],
  ['2.4 cm', 'plan/unknown-unit', '“cm”'],
  ['10,5 mm', 'plan/decimal-comma', '10.5', '10.5 mm'],
  ['0 mm', 'plan/impossible-value', '1 mm to 10000 mm'],
  ['16-99999 mm', 'plan/impossible-value', '1 mm to 10000 mm'],
  ['-24 mm', 'plan/unreadable', 'a focal length'],
  ['16-35 cm', 'plan/unreadable', 'mm behind the focal length'],
  ['wide', 'plan/unreadable', 'a focal length'],
  ['', 'plan/unreadable', 'a focal length'],
]);

const millimetres = fc.double({ min: 1, max: 10_000, noNaN: true });
keepsTheContract(
  focalLength,
  fc.tuple(millimetres, millimetres).map(([a, b]) => range(Math.min(a, b), Math.max(a, b))),
);

/** A choice without its spans, which belong to one spelling. */
const unplaced = (value: unknown) => {
  const { lensSpan, focalSpan, ...rest } = (value ?? {}) as Record<string, unknown>;
  return rest;
};
const choice = (lens: string, focalMillimetres?: number) => ({
  lens,
  lensSpan: { start: 0, end: 0 },
  ...(focalMillimetres === undefined ? {} : { focalMillimetres, focalSpan: { start: 0, end: 0 } }),
});

accepts(
  lensChoice,
  [
    ['wide @ 24 mm', choice('wide', 24)],
    ['wide@24mm', choice('wide', 24)],
    ['long_2 @ 135.5 mm', choice('long_2', 135.5)],
  ],
  unplaced,
);

test('a lens alone is read; nothing tells it from another id', () => {
  expect(lensChoice.parse(' wide ')).toEqual({
    value: { lens: 'wide', lensSpan: { start: 1, end: 5 } },
    problems: [],
  });
});

test('the spans lie under the id and under the focal length', () => {
  const text = '  wide @  24 mm ';
  const value = lensChoice.parse(text).value;
  expect(text.slice(value?.lensSpan.start, value?.lensSpan.end)).toBe('wide');
  expect(text.slice(value?.focalSpan?.start, value?.focalSpan?.end)).toBe('24 mm');
});

refuses(lensChoice, [
  ['24 mm', 'plan/unreadable', 'Name the lens as well'],
  ['24mm', 'plan/unreadable', 'Name the lens as well'],
  ['wide @ 24', 'plan/missing-unit', 'mm', 'wide @ 24 mm'],
  ['wide @ 16-35 mm', 'plan/unreadable', 'one focal length'],
  ['wide 24 mm', 'plan/unreadable', '@ and a focal length'],
  ['wide @', 'plan/unreadable', 'a focal length'],
  ['@ 24 mm', 'plan/unreadable', 'the id of a lens'],
  ['wide @ 24,5 mm', 'plan/decimal-comma', '24.5', 'wide @ 24.5 mm'],
]);

test('a problem behind the @ lies where it stands', () => {
  const text = 'wide @ 24 cm';
  const [problem] = lensChoice.parse(text).problems;
  expect(text.slice(problem?.span.start, problem?.span.end)).toBe('cm');
});
