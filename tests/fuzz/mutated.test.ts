import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { kitText, sampleText } from '../samples/folder.ts';
import { exercise, features, fuzzKit, sharedSky } from './exercise.ts';
import { mutated, mutations } from './mutations.ts';

const memory = sharedSky();
const plan = sampleText('dawn-to-noon.shootplan.yaml');
const offset = fc.double({ min: 0, max: 1, noNaN: true });

test('every feature is asked', () => {
  const folder = fileURLToPath(new URL('../../server/lsp/features/', import.meta.url));
  // The list, and what several of them share, are no features.
  const served = readdirSync(folder)
    .map((name) => name.replace(/\.ts$/, ''))
    .filter((name) => /^[a-z]/i.test(name) && name !== 'list');
  expect(served.filter((name) => !Object.hasOwn(features, name))).toEqual([]);
});

// The seeds are fixed, so that a failure comes back; change them to look elsewhere.
describe('Nothing throws, and every place that is named lies in the text', () => {
  test.each([
    ['a whole day', plan, undefined, 60],
    ['a coast', sampleText('coast.shootplan.yaml'), undefined, 30],
    ['a night', sampleText('night.shootplan.yaml'), undefined, 30],
    ['many mistakes', sampleText('mistakes.shootplan.yaml'), undefined, 40],
    ['a kit', kitText, fuzzKit, 60],
  ] as const)('after changes to %s', (_, text, uri, numRuns) => {
    fc.assert(
      fc.property(mutations, offset, (changes, at) => {
        const changed = mutated(text, changes);
        exercise(changed, [Math.floor(at * changed.length)], {
          memory: memory(),
          ...(uri === undefined ? {} : { uri }),
        });
      }),
      { numRuns, seed: 20270320 },
    );
  });

  test('in any text at all', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 400 }), offset, (text, at) => {
        exercise(text, [Math.floor(at * text.length)]);
      }),
      { numRuns: 200, seed: 20270321 },
    );
  });

  test('with any text as the value of a key', () => {
    const keys = fc.constantFrom(
      'date',
      'timezone',
      'kit',
      'bearings',
      'start',
      'spots',
      'tides',
      'forecast',
    );
    fc.assert(
      fc.property(keys, fc.string({ maxLength: 40 }), (key, value) => {
        exercise(
          plan.replace(new RegExp(`^${key}:.*$`, 'm'), () => `${key}: ${value}`),
          [0],
          {
            memory: memory(),
          },
        );
      }),
      { numRuns: 40, seed: 20270322 },
    );
  });

  test('while a plan is typed from its first letter to its last', () => {
    const typed = sampleText('conflicts/tide.shootplan.yaml');
    const one = memory();
    for (let end = 0; end <= typed.length; end += 23) exercise(typed.slice(0, end), [end], { memory: one });
  });
});
