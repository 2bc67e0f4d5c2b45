import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bulb } from '../../server/quantities/bulb.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

const longest = (longestSeconds: number | null) => ({ longestSeconds });

accepts(bulb, [
  ['up to 30 min', longest(1800)],
  ['Up to 1 h 20 min', longest(4800)],
  ['30 min', longest(1800)],
  ['unlimited', longest(null)],
  ['yes', longest(null)],
  ['on', longest(null)],
  ['none', longest(0)],
  ['no', longest(0)],
  ['False', longest(0)],
]);

refuses(bulb, [
  ['up to 30', 'plan/missing-unit', '30 min', 'up to 30 min'],
  ['up to', 'plan/unreadable', 'a duration'],
  ['30 parsecs', 'plan/unknown-unit', 'parsecs'],
  ['maybe', 'plan/unreadable', 'up to 30 min, or unlimited, or none'],
  ['', 'plan/unreadable', 'up to 30 min, or unlimited, or none'],
]);

test('a problem behind "up to" lies where it stands', () => {
  const text = 'up to 30 parsecs';
  const [problem] = bulb.parse(text).problems;
  expect(text.slice(problem?.span.start, problem?.span.end)).toBe('parsecs');
});

keepsTheContract(
  bulb,
  fc.oneof(fc.constant(null), fc.integer({ min: 0, max: 86_400 })).map((seconds) => longest(seconds)),
);
