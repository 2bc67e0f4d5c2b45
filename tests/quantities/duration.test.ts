import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { duration, formatDuration } from '../../server/quantities/duration.ts';
import { holdsContract } from '../support/contract.ts';

holdsContract(duration, {
  accepted: [
    ['35 min', 2100],
    ['35min', 2100],
    ['35 minutes', 2100],
    ['1 h 20 min', 4800],
    ['1h20m', 4800],
    ['1:20 h', 4800],
    ['1:30 min', 90],
    ['1:20:30 h', 4830],
    ['90 s', 90],
    ['90"', 90],
    ['0 min', 0],
    ['½ h', 1800],
    ['1 1/2 h', 5400],
    ['1.5 h', 5400],
    ['2 days', 172_800],
    ['1 day 2 h 3 min 4 s', 93_784],
  ],
  refused: [
    ['1/0 h', 'plan/impossible-value', 'nothing can be divided by 0'],
    ['35', 'plan/missing-unit', '35 min?', '35 min'],
    ['35 x', 'plan/unknown-unit', '“x” is not a unit of time'],
    ['35 huors', 'plan/unknown-unit', 'hours?', '35 hours'],
    ['1h 20', 'plan/missing-unit', '20 min?', '1h 20 min'],
    ['1 day 6', 'plan/missing-unit', '6 h?', '1 day 6 h'],
    ['1:20', 'plan/ambiguous-time', '1:20 min or 1:20 h'],
    ['1:20 x', 'plan/unknown-unit', '“x” is not a unit of time'],
    ['-5 min', 'plan/impossible-value', 'no sign'],
    ['+5 min', 'plan/impossible-value', 'no sign', '5 min'],
    ['1,5 h', 'plan/decimal-comma', '1.5', '1.5 h'],
    ['1,500 s', 'plan/decimal-comma', 'or 1500 if that is meant'],
    ['60 days', 'plan/impossible-value', 'at most 31 days'],
    [`${'9'.repeat(400)} h`, 'plan/impossible-value', 'at most 31 days'],
    ['0.0001 s', 'plan/impossible-value', 'at least a thousandth'],
    ['5 min later', 'plan/unreadable', '“later” is not understood here'],
    ['5 ‽', 'plan/unreadable', 'U+203D'],
    ['soon', 'plan/unreadable', 'expected a duration'],
    ['', 'plan/unreadable', 'expected a duration'],
  ],
  values: fc.oneof(
    fc.integer({ min: 0, max: 31 * 86_400 }),
    fc.double({ min: 0.001, max: 31 * 86_400, noNaN: true }),
  ),
});

test('the usual spelling', () => {
  const usual: [number, string][] = [
    [0, '0 min'],
    [45, '45 s'],
    [90, '1 min 30 s'],
    [5400, '1 h 30 min'],
    [86_400, '1 day'],
    [176_400, '2 days 1 h'],
  ];
  for (const [seconds, text] of usual) expect(duration.format(seconds)).toBe(text);
});

describe('for people', () => {
  test.each([
    [0, '0 s'],
    [45.4, '45 s'],
    [59.7, '1 min'],
    [90, '1 min 30 s'],
    [599.6, '10 min'],
    [629, '10 min'],
    [2100, '35 min'],
    [3599, '1 h'],
    [4790, '1 h 20 min'],
    [100_000, '27 h 47 min'],
    [300_000, '3 days 11 h'],
    [-1500, '−25 min'],
    [-0.2, '0 s'],
  ])('%d', (seconds, text) => {
    expect(formatDuration(seconds)).toBe(text);
  });
});
