import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatShutter, shutter } from '../../server/quantities/shutter.ts';
import { holdsContract } from '../support/contract.ts';

holdsContract(shutter, {
  accepted: [
    ['1/250', 1 / 250],
    ['1/250 s', 1 / 250],
    ['1/2 s', 0.5],
    ['1/3 s', 1 / 3],
    ['1/2.5 s', 0.4],
    ['½ s', 0.5],
    ['½', 0.5],
    ['⅓ s', 1 / 3],
    ['1 1/2 s', 1.5],
    ['1½ s', 1.5],
    ['0.5 s', 0.5],
    ['0.5', 0.5],
    ['.5 s', 0.5],
    ['0"5', 0.5],
    ['1″3', 1.3],
    ['10"05', 10.05],
    ['30 s', 30],
    ['30s', 30],
    ['30 sec', 30],
    ['30 Seconds', 30],
    ['30"', 30],
    ['30″', 30],
    ["30''", 30],
    ['30\u00a0s', 30],
    ['2 min', 120],
    ["2'", 120],
    ['2\'30"', 150],
    ['2′30″', 150],
    ['1 min 30 s', 90],
    ['1m30s', 90],
    ['1 min 30.5 s', 90.5],
    ['1:30 min', 90],
    ['0:30 min', 30],
    ['1:20 h', 4800],
    ['1:20:30 h', 4830],
    ['1 h 20 min', 4800],
    ['1h20m', 4800],
    ['1 hour 20 minutes', 4800],
    ['1.1 min', 66],
    ['2.3 h', 8280],
    ['24 h', 86_400],
  ],
  refused: [
    ['30', 'plan/ambiguous-time', '“30” may be 1/30 s or 30 s'],
    ['2.5', 'plan/ambiguous-time', '“2.5” may be 1/2.5 s or 2.5 s'],
    ['1', 'plan/missing-unit', '1 s?', '1 s'],
    ['3/2', 'plan/missing-unit', '3/2 s?', '3/2 s'],
    ['1:30', 'plan/ambiguous-time', 'may be minutes or hours: write 1:30 min or 1:30 h'],
    ['1:20:30', 'plan/ambiguous-time', 'Write 1:20:30 h', '1:20:30 h'],
    ['1:70 min', 'plan/unreadable', 'Two digits from 00 to 59'],
    ['1:5 min', 'plan/unreadable', 'Two digits from 00 to 59'],
    ['1:30 s', 'plan/ambiguous-time', 'minutes or hours'],
    ['0,5 s', 'plan/decimal-comma', 'Use a decimal point: 0.5', '0.5 s'],
    ['1 min 30,5 s', 'plan/decimal-comma', 'Use a decimal point: 30.5', '1 min 30.5 s'],
    ['0 s', 'plan/impossible-value', 'longer than 0 s'],
    ['0', 'plan/impossible-value', 'longer than 0 s'],
    ['-1/2 s', 'plan/impossible-value', 'longer than 0 s'],
    ['+1/2 s', 'plan/unreadable', 'no sign', '1/2 s'],
    ['1/0', 'plan/impossible-value', '“1/0” is no time: nothing can be divided by 0'],
    ['0/0 s', 'plan/impossible-value', '“0/0” is no time'],
    ['1/99999999', 'plan/impossible-value', 'at least 1/1000000 s'],
    ['25 h', 'plan/impossible-value', 'at most 24 h'],
    ['30 sek', 'plan/unknown-unit', '“sek” is not a unit of time: sec?', '30 sec'],
    ['30 mintes', 'plan/unknown-unit', 'minutes?', '30 minutes'],
    ['30 km', 'plan/unknown-unit', 'use s, min, h or days'],
    ['1 h 20', 'plan/missing-unit', '20 min?', '1 h 20 min'],
    ['2 min 30', 'plan/missing-unit', '30 s?', '2 min 30 s'],
    ['1 h 1 h', 'plan/unreadable', 'each unit once'],
    ['30 s 1 min', 'plan/unreadable', 'the largest first'],
    ['30 s 5', 'plan/unreadable', 'each unit once'],
    ['1h'.repeat(50_000), 'plan/unreadable', 'each unit once'],
    ['30 s!', 'plan/unreadable', '“!” is not understood here'],
    ['30 \u200bs', 'plan/unreadable', 'U+200B'],
    ['bulb', 'plan/unreadable', '“bulb” is not understood here'],
    ['', 'plan/unreadable', 'expected a shutter time'],
    ['1e3 s', 'plan/unknown-unit', '“e” is not a unit of time'],
  ],
  values: fc.oneof(
    fc.double({ min: 1e-6, max: 86_400, noNaN: true }),
    fc.integer({ min: 1, max: 1_000_000 }).map((part) => 1 / part),
    fc.integer({ min: 1, max: 86_400 }),
    fc.integer({ min: 1, max: 86_400_000 }).map((milliseconds) => milliseconds / 1000),
    fc.integer({ min: -39, max: 48 }).map((third) => 2 ** (third / 3)),
  ),
});

test('the usual spelling', () => {
  const usual: [number, string][] = [
    [1 / 250, '1/250 s'],
    [0.5, '1/2 s'],
    [0.8, '0.8 s'],
    [0.3, '0.3 s'],
    [1, '1 s'],
    [2.5, '2.5 s'],
    [30, '30 s'],
    [60, '1 min'],
    [128, '2 min 8 s'],
    [4800, '1 h 20 min'],
    [86_400, '1 day'],
  ];
  for (const [seconds, text] of usual) expect(shutter.format(seconds)).toBe(text);
});

test('the readings of a bare number are facts that a fix can offer', () => {
  expect(shutter.parse('30').problems[0]?.facts).toEqual({ readings: ['1/30 s', '30 s'] });
});

describe('for people', () => {
  test.each([
    [1 / 8192, '1/8190 s'],
    [1 / 250, '1/250 s'],
    [1 / 249.7, '1/250 s'],
    [1 / 60, '1/60 s'],
    [0.25, '1/4 s'],
    [0.15, '0.15 s'],
    [0.29, '0.29 s'],
    [0.5, '1/2 s'],
    [0.6, '0.6 s'],
    [0.62996, '0.63 s'],
    [0.998, '1 s'],
    [2.457, '2.5 s'],
    [9.96, '10 s'],
    [17.0667, '17 s'],
    [59.6, '1 min'],
    [2048, '34 min 8 s'],
    [3599.7, '1 h'],
    [4800, '1 h 20 min'],
    [100_000, '27 h 47 min'],
    [300_000, '3 days 11 h'],
    [Number.POSITIVE_INFINITY, '∞ s'],
  ])('%d', (seconds, text) => {
    expect(formatShutter(seconds)).toBe(text);
  });

  test('within a tenth of a stop up to a minute, within a hundredth beyond', () => {
    fc.assert(
      fc.property(fc.double({ min: -16, max: 16, noNaN: true }), (stops) => {
        const text = formatShutter(2 ** stops);
        const shown = shutter.parse(text).value ?? Number.NaN;
        expect(Math.abs(Math.log2(shown) - stops)).toBeLessThan(stops > 6 ? 0.012 : 0.1);
      }),
    );
  });
});
