import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clockText, offsetText, secondsText } from '../../server/features/localTime.ts';
import { code, figures, plain, table } from '../../server/features/markdown.ts';
import {
  altitudeText,
  bearingText,
  decimal,
  signed,
  slackText,
  spreadText,
  threeFigures,
} from '../../server/features/numbers.ts';
import { zoneClock } from '../../server/sky/zones.ts';

describe('local times', () => {
  const london = zoneClock('Europe/London');
  const date = { year: 2027, month: 3, day: 20 };
  const at = (hour: number, minute = 0, second = 0, day = 20) => Date.UTC(2027, 2, day, hour, minute, second);

  test('are rounded before the date is taken', () => {
    expect(clockText(at(6, 23, 29), london, date)).toBe('06:23');
    expect(clockText(at(6, 23, 30), london, date)).toBe('06:24');
    expect(clockText(at(23, 59, 40), london, date)).toBe('00:00 +1 day');
    expect(secondsText(at(23, 59, 40), london, date)).toBe('23:59:40');
    expect(secondsText(at(23, 59, 59) + 700, london, date)).toBe('00:00:00 +1 day');
  });

  test('name the day when it is another', () => {
    expect(clockText(at(12, 0, 0, 19), london, date)).toBe('12:00 −1 day');
    expect(clockText(at(12, 0, 0, 23), london, date)).toBe('12:00 on 2027-03-23');
    expect(clockText(at(12, 0, 0, 23), london)).toBe('12:00');
  });

  test('follow the zone through its changes (clocks went to summer time on 2027-03-28 at 01:00 UTC)', () => {
    expect(clockText(at(0, 59, 0, 28), london)).toBe('00:59');
    expect(clockText(at(1, 0, 0, 28), london)).toBe('02:00');
    expect(clockText(at(0), zoneClock('Asia/Kathmandu'))).toBe('05:45');
    expect(clockText(Date.UTC(1960, 0, 1, 3), london)).toBe('03:00');
  });

  test('offsets', () => {
    expect([0, 3600, -12_600, 20_700, -2_670].map(offsetText)).toEqual([
      'UTC+00:00',
      'UTC+01:00',
      'UTC−03:30',
      'UTC+05:45',
      'UTC−00:44:30',
    ]);
  });
});

describe('markdown', () => {
  test('code spans hold any text', () => {
    expect(code('mirror')).toBe('`mirror`');
    expect(code('a`b')).toBe('``a`b``');
    expect(code('`a``')).toBe('``` `a`` ```');
    expect(code(' \n ')).toBe('(empty)');
    expect(code('a\r\nb\tc')).toBe('`a b c`');
    expect(code('a|b', { inTable: true })).toBe('`a\\|b`');
    expect(code('x\u202ey')).toBe('`x\ufffdy`');
    expect([...code('🌊'.repeat(200))]).toHaveLength(82);
  });

  test('a code span closes nowhere but at its end (CommonMark 0.31, 6.1)', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('`', 'a', ' ', '\\', '\n', '*') }), (text) => {
        const span = code(text);
        if (span === '(empty)') return;
        const fence = /^`+/.exec(span)?.[0] ?? '';
        const inner = span.slice(fence.length, -fence.length);
        expect(span.endsWith(fence)).toBe(true);
        expect([...inner.matchAll(/`+/g)].some(([run]) => run.length === fence.length)).toBe(false);
        expect(inner).not.toMatch(/^`|`$|\n/);
      }),
    );
  });

  test('plain words keep no mark of markdown unescaped', () => {
    expect(plain('[x](command:y) <b> *z*')).toBe('\\[x\\]\\(command\\:y\\) \\<b\\> \\*z\\*');
    expect(plain('http://a.invalid')).toBe('http\\:\\/\\/a\\.invalid');
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(plain(text).replace(/\\[!-/:-@[-`{-~]/g, '')).not.toMatch(/[!-/:-@[-`{-~]/);
      }),
    );
  });

  test('rows without a value are left out', () => {
    expect(
      figures([
        ['a', '1'],
        ['b', undefined],
      ]),
    ).toBe('|  |  |\n| :--- | :--- |\n| a: | 1 |');
    expect(figures([['b', undefined]])).toBe('');
    expect(figures([['a b', '1 2']])).toBe('|  |  |\n| :--- | :--- |\n| a\u00a0b: | 1 2 |');
  });

  test('a column and its head stand on the same side, with a gap between columns', () => {
    expect(
      table(
        ['what', 'much'],
        [
          ['a', '1'],
          ['b', ''],
        ],
        ['left', 'right'],
      ),
    ).toBe('| what&ensp; | much |\n| :--- | ---: |\n| a&ensp; | 1 |\n| b&ensp; |  |');
  });
});

test('numbers for people', () => {
  expect([decimal(-0.04, 1), decimal(-1.25, 1), signed(0.04, 1), signed(12)]).toEqual([
    '0.0',
    '−1.3',
    '0.0',
    '+12',
  ]);
  expect([
    bearingText(98.4),
    bearingText(359.7),
    bearingText(-1),
    bearingText(8.25, 1),
    bearingText(359.97, 1),
  ]).toEqual(['098°', '000°', '359°', '008.3°', '000.0°']);
  expect([altitudeText(11.6), altitudeText(-4.2, 1), altitudeText(-0.2)]).toEqual(['+12°', '−4.2°', '0°']);
  expect([0, 0.1, 1 / 3, Math.hypot(1 / 3, 0.1), 0.5, 1.44].map(spreadText)).toEqual([
    undefined,
    '± 0.1 stop',
    '± 1/3 stop',
    '± 1/3 stop',
    '± 1/2 stop',
    '± 1.4 stops',
  ]);
  expect([0, 20, 1080, -1500].map(slackText)).toEqual([
    'just in time',
    'just in time',
    '18 min to spare',
    '25 min late',
  ]);
  expect([1612.7, 80.63, 1.5625, 0.0123].map(threeFigures)).toEqual(['1610', '80.6', '1.56', '0.0123']);
});
