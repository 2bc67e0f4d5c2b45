import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Quantity } from '../../server/quantities/quantity.ts';

type Same = (value: unknown) => unknown;
const asItIs: Same = (value) => value;

/** Spellings that are read, without a word of complaint, as these values; and read the same when written the usual way. */
export function accepts<T>(
  kind: Quantity<T>,
  rows: readonly (readonly [string, T])[],
  same: Same = asItIs,
): void {
  describe(`${kind.name} reads`, () => {
    test.each(rows.map(([text, value]) => ({ text, value })))('$text', ({ text, value }) => {
      const reading = kind.parse(text);
      expect(reading.problems).toEqual([]);
      expect(same(reading.value)).toEqual(same(value));
      expect(kind.recognise(text)).toBe(true);
      expectSameWhenFormatted(kind, reading.value as T, same);
    });
  });
}

/** Spellings that are refused: the code, a part of the message, and the rewrite where there is to be one. */
export type Refusal = readonly [text: string, code: string, message: string, rewrite?: string];

export function refuses(kind: Quantity<unknown>, rows: readonly Refusal[]): void {
  describe(`${kind.name} refuses`, () => {
    test.each(rows.map(([text, code, message, rewrite]) => ({ text, code, message, rewrite })))(
      '$text',
      (row) => {
        const { text, code, message, rewrite } = row;
        const { value, problems } = kind.parse(text);
        expect(value).toBeUndefined();
        expect(problems).toMatchObject([{ code, severity: 'error' }]);
        expect(problems[0]?.message).toContain(message);
        expect(problems[0]?.rewrite).toBe(rewrite);
        expectInside(text, kind);
        if (rewrite !== undefined) expect(kind.parse(rewrite)).toMatchObject({ problems: [] });
      },
    );
  });
}

/** What every kind promises: its examples are valid, what it writes it reads, and no text makes it throw or babble. */
export function keepsTheContract<T>(kind: Quantity<T>, values: fc.Arbitrary<T>, same: Same = asItIs): void {
  describe(`${kind.name} keeps the contract`, () => {
    test('examples are read', () => {
      for (const example of kind.examples) {
        const reading = kind.parse(example);
        expect(reading.problems, example).toEqual([]);
        expect(kind.recognise(example), example).toBe(true);
        expectSameWhenFormatted(kind, reading.value as T, same);
      }
    });

    test('any value that can be read is written so that it reads back', () => {
      fc.assert(
        fc.property(values, (value) => {
          expect(same(kind.parse(kind.format(value)).value)).toEqual(same(value));
        }),
      );
    });

    test('completions are whole scalars that can be read', () => {
      const starts = [
        '',
        ...kind.examples.flatMap((example) => [example.slice(0, 1), example.slice(0, 3), example]),
      ];
      for (const typed of starts) {
        for (const { text } of kind.complete(typed)) expect(kind.parse(text).problems, text).toEqual([]);
      }
      // Ids and texts of the author's own are not offered at all.
      const offered = kind.complete('').map(({ text }) => text);
      if (offered.length > 0) expect(offered).toContain(kind.examples[0]);
    });

    test('no text makes it throw', () => {
      const pieces = [
        '1',
        '64',
        '0.5',
        '1/3',
        '½',
        ' ',
        '-',
        '−',
        '+',
        ',',
        '.',
        '..',
        '/',
        '°',
        "'",
        '"',
        '%',
        '@',
      ];
      const words = [
        'f/',
        'mm',
        'm',
        'km/h',
        'stops',
        'ND',
        'OD',
        'x',
        'EV',
        'N',
        'SE',
        'W',
        'geo:',
        'up to',
        'C',
        'mag',
      ];
      const made = fc
        .array(fc.constantFrom(...pieces, ...words), { maxLength: 6 })
        .map((parts) => parts.join(''));
      fc.assert(
        fc.property(
          fc.oneof({ weight: 8, arbitrary: made }, fc.string(), fc.string({ unit: 'binary' })),
          (text) => {
            const { value } = kind.parse(text);
            expectInside(text, kind);
            kind.complete(text);
            if (value !== undefined) expectSameWhenFormatted(kind, value, same);
            if (value === undefined) expect(kind.parse(text).problems.length).toBeGreaterThan(0);
          },
        ),
        { numRuns: 600 },
      );
    });

    // Quadratic work on any of these takes minutes and runs into the limit of the test runner.
    test('a hostile text of 100 kB is answered with a short message', () => {
      const units = [
        '1',
        ' ',
        '-',
        ',',
        '.',
        '°',
        "'",
        '/',
        'a',
        'N',
        'S',
        '1 ',
        '1,',
        '1-',
        '1°',
        'f/',
        '\u2212',
        '\ud800',
        '🌊',
        '½',
      ];
      const openings = [
        '',
        '1',
        '1 ',
        '54.4, ',
        'f/',
        'geo:',
        'up to ',
        'wide @ ',
        'ND',
        'EV',
        'S',
        '36 x ',
        '1/',
      ];
      for (const unit of units) {
        for (const opening of openings) {
          const text = opening + unit.repeat(100_000 / unit.length);
          for (const { message } of kind.parse(text).problems) expect(message.length).toBeLessThan(400);
          expectInside(text, kind);
          kind.recognise(text);
          kind.complete(text);
        }
      }
    });
  });
}

function expectSameWhenFormatted<T>(kind: Quantity<T>, value: T, same: Same): void {
  const written = kind.format(value);
  const again = kind.parse(written);
  expect(same(again.value), written).toEqual(same(value));
}

function expectInside(text: string, kind: Quantity<unknown>): void {
  for (const { code, message, span } of kind.parse(text).problems) {
    expect(code).toMatch(/^(plan|filter)\/[a-z]+(-[a-z]+)*$/);
    expect(message).toMatch(/\S/);
    expect(span.start).toBeGreaterThanOrEqual(0);
    expect(span.end).toBeGreaterThanOrEqual(span.start);
    expect(span.end).toBeLessThanOrEqual(text.length);
  }
}
