import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Quantity } from '../../server/quantities/quantity.ts';

/** A text that must be refused: its code, a part of the message, and the exact rewrite or none. */
export type Refusal = readonly [text: string, code: string, messagePart: string, rewrite?: string];

export interface Contract<T> {
  readonly accepted: readonly (readonly [text: string, value: T])[];
  readonly refused: readonly Refusal[];
  /** Values that `parse` can return. */
  readonly values: fc.Arbitrary<T>;
  /** What is compared of a value: all of it, unless a part depends on where it stood in the text. */
  readonly compared?: (value: T) => unknown;
}

const units = [
  ' ',
  '0',
  '9',
  '1/',
  '1 ',
  '1 1/3 ',
  '½',
  '-',
  '\u2212',
  '+',
  '.',
  ',',
  '..',
  '1..',
  ':',
  '1:',
  '1:00:',
];
const words = [
  'a',
  'a ',
  's',
  'h',
  '1h',
  '1 h ',
  '1,5 ',
  '"',
  "'",
  '1"',
  '1"5',
  '@',
  '%',
  '°',
  '(',
  '\n',
  '\u00a0',
  '\u200b',
  '🌅',
  '\ud800',
];
const phrases = [
  'sunrise',
  'sunrise ',
  'sunrise-',
  'sunrise - 1h ',
  'next ',
  'next day ',
  'earlier of ',
  'after ',
  '07:10, ',
  'to ',
  'of ',
  'f/8 ',
  'ISO ',
  ', ISO 100',
  'wind < ',
  'dew-',
  '2027-03-20 ',
];
const beginnings = [
  '',
  '1 ',
  '30 s ',
  '1/2 s @ ',
  'sunrise - ',
  'after ',
  'earlier of ',
  '06:00 .. ',
  '2027-03-20 ',
  'wind < ',
];

/** Long texts that are unkind to a scanner: one piece again and again behind a good beginning. */
export function hostileTexts(): readonly string[] {
  const pieces = [...units, ...words, ...phrases];
  return pieces.flatMap((piece, index) => {
    const beginning = beginnings[index % beginnings.length] ?? '';
    const filler = piece.repeat(Math.ceil(100_000 / piece.length));
    return [filler, beginning + filler];
  });
}

/** Holds one kind of scalar against the contract of `Quantity`. */
export function holdsContract<T>(quantity: Quantity<T>, contract: Contract<T>): void {
  const { accepted, refused, values, compared = (value: T) => value } = contract;
  const parsed = (text: string): unknown => {
    const { value } = quantity.parse(text);
    return value === undefined ? undefined : compared(value);
  };

  describe('accepted', () => {
    test.each(accepted.map(([text, value]) => ({ text, value })))('$text', ({ text, value }) => {
      expect(quantity.parse(text)).toEqual({ value, problems: [] });
      expect(quantity.recognise(text)).toBe(true);
      expect(parsed(quantity.format(value))).toEqual(compared(value));
    });
  });

  describe('refused', () => {
    test.each(refused.map(([text, code, message, rewrite]) => ({ text, code, message, rewrite })))(
      '$text',
      ({ text, code, message, rewrite }) => {
        const { value, problems } = quantity.parse(text);
        expect(value).toBeUndefined();
        expect(problems).toHaveLength(1);
        expect(problems[0]).toMatchObject({
          code,
          message: expect.stringContaining(message),
          severity: 'error',
        });
        expect(problems[0]?.rewrite).toBe(rewrite);
        if (rewrite !== undefined) expect(quantity.parse(rewrite).problems).toEqual([]);
      },
    );
  });

  test('examples are valid, and completion offers valid scalars that go on from what is typed', () => {
    expect(quantity.examples.length).toBeGreaterThan(0);
    for (const example of quantity.examples) {
      expect([example, quantity.parse(example).problems]).toEqual([example, []]);
      for (let length = 0; length <= example.length; length += 1) {
        const typed = example.slice(0, length);
        const offered = quantity.complete(typed).map(({ text }) => text);
        expect(new Set(offered).size).toBe(offered.length);
        for (const text of offered) {
          const plain = (written: string) => written.replace(/\s+/g, '').toLowerCase();
          expect([typed, plain(text).startsWith(plain(typed))]).toEqual([typed, true]);
          if (!text.endsWith(' ')) expect([text, quantity.parse(text).problems]).toEqual([text, []]);
        }
      }
    }
    expect(quantity.complete('').length).toBeGreaterThan(0);
  });

  test('what is formatted reads back as the same value', () => {
    fc.assert(
      fc.property(values, (value) => {
        const text = quantity.format(value);
        expect([text, parsed(text)]).toEqual([text, compared(value)]);
      }),
      { numRuns: 500 },
    );
  });

  test('no text makes it throw, and every problem lies in the text', () => {
    const holds = (text: string) => {
      const { problems } = quantity.parse(text);
      for (const { span, message } of problems) {
        expect(span.start).toBeGreaterThanOrEqual(0);
        expect(span.end).toBeGreaterThanOrEqual(span.start);
        expect(span.end).toBeLessThanOrEqual(text.length);
        expect(message.length).toBeLessThan(500);
      }
      expect(typeof quantity.recognise(text)).toBe('boolean');
      quantity.complete(text);
    };
    const pieces = fc.constantFrom(...units, ...words, ...phrases, ...accepted.map(([text]) => text));
    fc.assert(fc.property(fc.string({ unit: 'binary' }), holds));
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 8 }), (parts) => holds(parts.join(''))),
      { numRuns: 500 },
    );
    for (const text of hostileTexts()) holds(text);
  });
}
