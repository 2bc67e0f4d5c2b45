import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Quantity } from '../../server/quantities/quantity.ts';

/** What is compared of a value: all of it, unless a part depends on where it stood in the text. */
type Compared<T> = (value: T) => unknown;

/** A text that is read, without a word of complaint, as this value. */
export type Acceptance<T> = readonly [text: string, value: T];

/** A text that must be refused: its code, a part of the message, and the exact rewrite or none. */
export type Refusal = readonly [text: string, code: string, messagePart: string, rewrite?: string];

export interface Contract<T> {
  readonly accepted: readonly Acceptance<T>[];
  readonly refused: readonly Refusal[];
  /** Values that `parse` can return. */
  readonly values: fc.Arbitrary<T>;
  readonly compared?: Compared<T>;
}

/** Holds one kind of scalar against the contract of `Quantity`. */
export function holdsContract<T>(kind: Quantity<T>, contract: Contract<T>): void {
  accepts(kind, contract.accepted, contract.compared);
  refuses(kind, contract.refused);
  keepsTheContract(kind, contract.values, contract.compared);
}

/** Spellings that are read, and read the same when written the usual way. */
export function accepts<T>(
  kind: Quantity<T>,
  rows: readonly Acceptance<T>[],
  compared: Compared<T> = asItIs,
): void {
  describe(`${kind.name} reads`, () => {
    test.each(rows.map(([text, value]) => ({ text, value })))('$text', ({ text, value }) => {
      const reading = kind.parse(text);
      expect(reading.problems).toEqual([]);
      expect(comparedOf(reading.value, compared)).toEqual(compared(value));
      expect(kind.recognise(text)).toBe(true);
      expectSameWhenFormatted(kind, reading.value as T, compared);
    });
  });
}

/** Spellings that are refused, each with one problem that is an error. */
export function refuses(kind: Quantity<unknown>, rows: readonly Refusal[]): void {
  describe(`${kind.name} refuses`, () => {
    test.each(rows.map(([text, code, message, rewrite]) => ({ text, code, message, rewrite })))(
      '$text',
      ({ text, code, message, rewrite }) => {
        const { value, problems } = kind.parse(text);
        expect(value).toBeUndefined();
        expect(problems).toMatchObject([{ code, severity: 'error' }]);
        expect(problems[0]?.message).toContain(message);
        expect(problems[0]?.rewrite).toBe(rewrite);
        expectInside(kind, text);
        if (rewrite !== undefined) expect(kind.parse(rewrite)).toMatchObject({ problems: [] });
      },
    );
  });
}

/** What every kind promises: its examples are valid, what it writes it reads, and no text makes it throw or babble. */
export function keepsTheContract<T>(
  kind: Quantity<T>,
  values: fc.Arbitrary<T>,
  compared: Compared<T> = asItIs,
): void {
  describe(`${kind.name} keeps the contract`, () => {
    test('examples are read', () => {
      expect(kind.examples.length).toBeGreaterThan(0);
      for (const example of kind.examples) {
        const reading = kind.parse(example);
        expect(reading.problems, example).toEqual([]);
        expect(kind.recognise(example), example).toBe(true);
        expectSameWhenFormatted(kind, reading.value as T, compared);
      }
    });

    test('any value that can be read is written so that it reads back', () => {
      fc.assert(
        fc.property(values, (value) => expectSameWhenFormatted(kind, value, compared)),
        { numRuns: 500 },
      );
    });

    test('completions are scalars that can be read, each offered once', () => {
      const starts = kind.examples.flatMap((example) =>
        Array.from({ length: example.length + 1 }, (_, length) => example.slice(0, length)),
      );
      for (const typed of new Set(starts)) {
        const offered = kind.complete(typed).map(({ text }) => text);
        expect(new Set(offered).size, typed).toBe(offered.length);
        // What ends in a space goes on: an event before its duration.
        for (const text of offered)
          if (!text.endsWith(' ')) expect(kind.parse(text).problems, text).toEqual([]);
      }
    });

    test('no text makes it throw, and every problem lies in the text', () => {
      const pieces = fc.constantFrom(...units, ...words, ...phrases, ...kind.examples);
      const made = fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join(''));
      fc.assert(
        fc.property(
          fc.oneof({ weight: 8, arbitrary: made }, fc.string(), fc.string({ unit: 'binary' })),
          (text) => {
            const { value, problems } = kind.parse(text);
            expectInside(kind, text);
            expect(typeof kind.recognise(text)).toBe('boolean');
            kind.complete(text);
            if (value !== undefined) expectSameWhenFormatted(kind, value, compared);
            else expect(problems.length).toBeGreaterThan(0);
          },
        ),
        { numRuns: 600 },
      );
    });

    // Quadratic work on any of these takes minutes and runs into the limit of the test runner.
    test('a hostile text of 100 kB is answered with a short message', () => {
      for (const text of hostileTexts()) {
        expectInside(kind, text);
        kind.recognise(text);
        kind.complete(text);
      }
    });
  });
}

/** Long texts that are unkind to a scanner: one piece again and again behind a good beginning. */
export function hostileTexts(): readonly string[] {
  const pieces = [...units, ...words, ...phrases];
  return pieces.flatMap((piece, index) => {
    const beginning = beginnings[index % beginnings.length] ?? '';
    const filler = piece.repeat(Math.ceil(100_000 / piece.length));
    return [filler, beginning + filler];
  });
}

function asItIs(value: unknown): unknown {
  return value;
}

function comparedOf<T>(value: T | undefined, compared: Compared<T>): unknown {
  return value === undefined ? undefined : compared(value);
}

function expectSameWhenFormatted<T>(kind: Quantity<T>, value: T, compared: Compared<T>): void {
  const written = kind.format(value);
  expect(comparedOf(kind.parse(written).value, compared), written).toEqual(compared(value));
}

function expectInside(kind: Quantity<unknown>, text: string): void {
  for (const { code, message, span } of kind.parse(text).problems) {
    expect(code).toMatch(/^[a-z]+\/[a-z]+(-[a-z]+)*$/);
    expect(message).toMatch(/\S/);
    expect(message.length).toBeLessThan(500);
    expect(span.start).toBeGreaterThanOrEqual(0);
    expect(span.end).toBeGreaterThanOrEqual(span.start);
    expect(span.end).toBeLessThanOrEqual(text.length);
  }
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
  '1',
  '64',
  '0.5',
  '1/3',
  '−',
  '/',
  '°',
  "'",
  '"',
  '%',
  '@',
  'a',
  'N',
  'S',
  '1,',
  '1-',
  '1°',
  'f/',
  '\ud800',
  '🌊',
];
const words = [
  'a ',
  's',
  'h',
  '1h',
  '1 h ',
  '1,5 ',
  '1"',
  '1"5',
  '(',
  '\n',
  '\u00a0',
  '\u200b',
  '🌅',
  'mm',
  'm',
  'km/h',
  'stops',
  'ND',
  'OD',
  'x',
  'EV',
  'SE',
  'W',
  'geo:',
  'up to',
  'C',
  'mag',
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
  '1',
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
