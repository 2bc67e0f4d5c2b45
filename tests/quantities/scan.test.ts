import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { characterName, commaRefused, Scanner, shortened } from '../../server/quantities/scan.ts';

describe('numbers', () => {
  test.each([
    ['30', 30, 'whole'],
    ['010', 10, 'whole'],
    ['0.5', 0.5, 'decimal'],
    ['.5', 0.5, 'decimal'],
    ['-3', -3, 'whole'],
    ['\u22123.5', -3.5, 'decimal'],
    ['+ 2', 2, 'whole'],
    ['1/250', 1 / 250, 'fraction'],
    ['1 / 250', 1 / 250, 'fraction'],
    ['1\u2044250', 1 / 250, 'fraction'],
    ['1/2.5', 0.4, 'fraction'],
    ['½', 0.5, 'fraction'],
    ['-⅓', -1 / 3, 'fraction'],
    ['1⅓', 1 + 1 / 3, 'mixed'],
    ['6 ⅔', 6 + 2 / 3, 'mixed'],
    ['1 1/3', 1 + 1 / 3, 'mixed'],
    ['1\u00a01/3', 1 + 1 / 3, 'mixed'],
    ['-1 1/3', -(1 + 1 / 3), 'mixed'],
    ['\u202f2', 2, 'whole'],
  ])('%s', (text, value, form) => {
    const scanner = new Scanner(text);
    expect(scanner.number()).toMatchObject({ value, form, decimalComma: false });
    expect(scanner.done).toBe(true);
  });

  test('what is left behind a number', () => {
    const rests = [
      ['1..2', '..2'],
      ['1.2.3', '.3'],
      ['5.', '.'],
      ['1/x', '/x'],
      ['1 3/2', '3/2'],
      ['1/2/3', '/3'],
      ['16-35', '-35'],
      ['30 s', 's'],
    ];
    for (const [text, rest] of rests) {
      const scanner = new Scanner(text ?? '');
      scanner.number();
      expect([text, text?.slice(scanner.rest.start)]).toEqual([text, rest]);
    }
    const twice = new Scanner('1.2.3');
    twice.number();
    expect(twice.number()).toBeUndefined();
  });

  test('nothing is taken where no number stands', () => {
    for (const text of ['', '  ', '-', '- x', '.', '/2', 'x1', '٣', '−']) {
      const scanner = new Scanner(text);
      expect(scanner.number()).toBeUndefined();
      expect(scanner.at).toBe(0);
    }
  });

  test('options', () => {
    expect(new Scanner('54,2').number({ comma: false })).toMatchObject({ value: 54 });
    expect(new Scanner('3/8').number({ fractions: false })).toMatchObject({ value: 3, form: 'whole' });
    expect(new Scanner('-3').number({ signed: false })).toBeUndefined();
  });

  test('a division by zero and very many digits give no finite value', () => {
    expect(new Scanner('1/0').number()?.value).toBe(Number.POSITIVE_INFINITY);
    expect(new Scanner('0/0').number()?.value).toBeNaN();
    expect(new Scanner('9'.repeat(100_000)).number()?.value).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('decimal comma', () => {
  test.each([
    ['x 1,5 m', 'Use a decimal point: 1.5.', 'x 1.5 m'],
    ['x 1/2,5 m', 'Use a decimal point: 1/2.5.', 'x 1/2.5 m'],
    [
      'x 1,000 m',
      '“1,000” has a comma: write 1.000 with a decimal point, or 1000 if that is meant.',
      undefined,
    ],
  ])('%s', (text, message, rewrite) => {
    const number = new Scanner(text, 1).number();
    if (number === undefined) throw new Error('no number');
    const problem = commaRefused(text, number)?.problems[0];
    expect(problem).toMatchObject({ code: 'plan/decimal-comma', message, span: number.span });
    expect(problem?.rewrite).toBe(rewrite);
  });

  test('a comma between numbers is none', () => {
    expect(new Scanner('54.43, 2').number()).toMatchObject({ value: 54.43, decimalComma: false });
    expect(new Scanner('54, 2').number()).toMatchObject({ value: 54, decimalComma: false });
  });
});

describe('words, units and marks', () => {
  test('a unit with a slash, quotes and marks', () => {
    const units = ['s', 'min', '"', '″', '°', '°C', '%', 'km/h', 'm/s', 'µm'];
    for (const unit of units) {
      const scanner = new Scanner(`12 ${unit} 3`);
      scanner.number();
      expect(scanner.unit()?.text).toBe(unit);
      expect(scanner.number()?.value).toBe(3);
    }
  });

  test('words stop at digits, ids do not', () => {
    expect(new Scanner(' h30').word()).toEqual({ text: 'h', span: { start: 1, end: 2 } });
    expect(new Scanner('north-2 x').id()?.text).toBe('north-2');
    expect(new Scanner('07:10').digits()?.text).toBe('07');
  });

  test('marks', () => {
    const scanner = new Scanner(' .. \u2212 <=');
    expect([
      scanner.take('...'),
      scanner.take('..'),
      scanner.sign(),
      scanner.takeAny('<>'),
      scanner.next,
    ]).toEqual([false, true, '-', '<', '=']);
  });
});

describe('what is not understood', () => {
  test.each([
    ['30 ‽', 'The character “‽” (U+203D) is not understood here: expected a unit.', 3, 4],
    ['30 \u200b', 'The character U+200B is not understood here: expected a unit.', 3, 4],
    ['30 🌅 x', 'The character “🌅” (U+1F305) is not understood here: expected a unit.', 3, 5],
    ['30 a b ', '“a b” is not understood here: expected a unit.', 3, 6],
    ['30 ', 'Something is missing at the end: expected a unit.', 1, 3],
  ])('%s', (text, message, start, end) => {
    const scanner = new Scanner(text);
    scanner.number();
    expect(scanner.unexpected('a unit').problems[0]).toMatchObject({ message, span: { start, end } });
  });

  test('a lone surrogate has a name, and a long text is cut between characters', () => {
    expect(characterName('\ud800')).toBe('U+D800');
    expect(shortened('a\n b')).toBe('a b');
    expect(shortened(`${'x'.repeat(59)}🌅 y`)).toBe(`${'x'.repeat(59)}…`);
  });
});

test('nothing throws, and nothing is taken twice', () => {
  const takers: ((scanner: Scanner) => unknown)[] = [
    (scanner) => scanner.number(),
    (scanner) => scanner.unit(),
    (scanner) => scanner.id(),
    (scanner) => scanner.word(),
    (scanner) => scanner.digits(),
    (scanner) => scanner.sign(),
    (scanner) => scanner.slash(),
  ];
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 40 }), fc.array(fc.nat(6)), (text, order) => {
      const scanner = new Scanner(text);
      for (const pick of order) {
        const before = scanner.at;
        const taken = takers[pick]?.(scanner);
        if (taken === undefined || taken === false) expect(scanner.at).toBe(before);
        else expect(scanner.at).toBeGreaterThan(before);
      }
      expect(scanner.unexpected('a unit').problems).toHaveLength(1);
    }),
  );
});
