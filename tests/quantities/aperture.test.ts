import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aperture, apertureRange } from '../../server/quantities/aperture.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

accepts(aperture, [
  ['f/14', 14],
  ['f14', 14],
  ['F 14', 14],
  ['F/14', 14],
  ['f / 2.8', 2.8],
  ['ƒ/2.8', 2.8],
  ['f2.8', 2.8],
  ['f/.95', 0.95],
  ['f/0.5', 0.5],
  ['f/256', 256],
]);

refuses(aperture, [
  ['14', 'plan/missing-unit', 'Write f/14', 'f/14'],
  ['2.8', 'plan/missing-unit', 'Write f/2.8', 'f/2.8'],
  ['500', 'plan/missing-unit', 'starts with f'],
  ['f/2,8', 'plan/decimal-comma', '2.8', 'f/2.8'],
  ['2,8', 'plan/missing-unit', 'Write f/2.8', 'f/2.8'],
  ['f/0.3', 'plan/impossible-value', 'f/0.5 to f/256'],
  ['f/500', 'plan/impossible-value', 'f/0.5 to f/256'],
  ['f/-8', 'plan/unreadable', 'expected an f-number'],
  ['f/1/2', 'plan/unreadable', 'as a decimal'],
  ['f/8 f/11', 'plan/unreadable', 'nothing more'],
  ['f/', 'plan/unreadable', 'expected an f-number'],
  ['', 'plan/unreadable', 'f/14'],
  ['wide open', 'plan/unreadable', 'f/14'],
]);

accepts(apertureRange, [
  ['f/4 .. f/22', { widest: 4, smallest: 22 }],
  ['f/4-22', { widest: 4, smallest: 22 }],
  ['f4–f22', { widest: 4, smallest: 22 }],
  ['f/2.8 .. 16', { widest: 2.8, smallest: 16 }],
  ['f/8 .. f/8', { widest: 8, smallest: 8 }],
]);

refuses(apertureRange, [
  ['f/22 .. f/4', 'plan/impossible-value', 'widest aperture first', 'f/4 .. f/22'],
  ['f/4', 'plan/unreadable', 'The other end is missing'],
  ['4-22', 'plan/unreadable', 'two apertures, as in f/4 .. f/22'],
  ['f/4 ..', 'plan/unreadable', 'the smallest aperture'],
  ['f/4 to f/22', 'plan/unreadable', 'f/4 .. f/22'],
  ['f/2,8 .. f/22', 'plan/decimal-comma', '2.8', 'f/2.8 .. f/22'],
  ['f/4 .. f/220000', 'plan/impossible-value', 'f/0.5 to f/256'],
]);

const fNumber = fc.double({ min: 0.5, max: 256, noNaN: true });
keepsTheContract(aperture, fNumber);
keepsTheContract(
  apertureRange,
  fc.tuple(fNumber, fNumber).map(([a, b]) => ({ widest: Math.min(a, b), smallest: Math.max(a, b) })),
);

describe('completion', () => {
  test('goes on from a number with or without f', () => {
    const texts = (typed: string) => aperture.complete(typed).map(({ text }) => text);
    expect(texts('1')).toEqual(expect.arrayContaining(['f/1.4', 'f/11', 'f/16']));
    expect(texts('f1')).toEqual(texts('f/1'));
    expect(texts('f/5.')).toEqual(['f/5.6']);
  });
});
