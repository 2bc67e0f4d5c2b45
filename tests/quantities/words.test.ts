import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  choice,
  choiceWithText,
  count,
  flag,
  identifier,
  plainNumber,
  text,
} from '../../server/quantities/words.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

accepts(identifier, [
  ['north-steps', 'north-steps'],
  ['nd6', 'nd6'],
  ['Grad_2', 'Grad_2'],
  ['østre-øy', 'østre-øy'],
  [' wide ', 'wide'],
]);

refuses(identifier, [
  ['north steps', 'plan/unreadable', 'a blank', 'north-steps'],
  ['north  steps (low)', 'plan/unreadable', 'a blank', 'north-steps-low'],
  ['a/b', 'plan/unreadable', '“/” (U+002F)', 'a-b'],
  ['07:10', 'plan/unreadable', '“:” (U+003A)'],
  ['24mm', 'plan/unreadable', 'begins with a letter'],
  ['-x', 'plan/unreadable', 'begins with a letter'],
  ['a'.repeat(101), 'plan/unreadable', 'at most 100 characters'],
  ['', 'plan/unreadable', 'missing'],
]);

const letters = fc.constantFrom(...'abcxyzÅø');
const tails = fc.string({ unit: fc.constantFrom(...'abc019-_é'), maxLength: 12 });
keepsTheContract(
  identifier,
  fc.tuple(letters, tails).map(([head, tail]) => head + tail),
);

const note = text('note', 'What to remember.', ['Low sun on the far wall']);
accepts(note, [
  ['Low sun', 'Low sun'],
  ['  two words ', 'two words'],
  ['3.0', '3.0'],
]);
refuses(note, [
  ['', 'plan/unreadable', 'The note is empty'],
  ['  ', 'plan/unreadable', 'The note is empty'],
]);

accepts(flag, [
  ['yes', true],
  ['no', false],
  ['on', true],
  ['off', false],
  ['true', true],
  ['FALSE', false],
  [' Yes ', true],
]);
refuses(flag, [
  ['ye', 'plan/unknown-word', 'Is “yes” meant?', 'yes'],
  ['maybe', 'plan/unknown-word', 'Write yes, on, true, no, off, false'],
  ['1', 'plan/unknown-word', 'not known here'],
  ['', 'plan/unknown-word', 'A word is missing'],
]);
keepsTheContract(flag, fc.boolean());

accepts(count, [
  ['2', 2],
  [' 12 ', 12],
  ['100000', 100_000],
]);
refuses(count, [
  ['0', 'plan/impossible-value', 'a whole number from 1 to 100000'],
  ['-2', 'plan/impossible-value', 'a whole number from 1 to 100000'],
  ['2.5', 'plan/impossible-value', 'a whole number from 1 to 100000'],
  ['2 frames', 'plan/unreadable', 'nothing more'],
  ['two', 'plan/unreadable', 'a whole number'],
]);
keepsTheContract(count, fc.integer({ min: 1, max: 100_000 }));

const exponent = plainNumber({
  name: 'exponent',
  documentation: 'Of the law.',
  examples: ['1.31'],
  min: 1,
  max: 2,
});
accepts(exponent, [
  ['1.31', 1.31],
  ['1 1/4', 1.25],
  ['2', 2],
]);
refuses(exponent, [
  ['1,31', 'plan/decimal-comma', '1.31', '1.31'],
  ['0.5', 'plan/impossible-value', 'a number from 1 to 2'],
  ['1/0', 'plan/impossible-value', 'not a number'],
  ['', 'plan/unreadable', 'a number from 1 to 2'],
]);
keepsTheContract(
  exponent,
  fc.double({ min: 1, max: 2, noNaN: true }).map((value) => Number(value.toPrecision(12))),
);

const kind = choice('filter kind', [
  { value: 'neutral density', doc: 'darkens all colours alike' },
  { value: 'graduated', doc: 'darkens one half' },
  { value: 'polarizer', doc: 'takes away polarized light' },
]);
accepts(kind, [
  ['neutral density', 'neutral density'],
  ['Neutral-Density', 'neutral density'],
  ['neutral_density', 'neutral density'],
  ['polarizer', 'polarizer'],
]);
refuses(kind, [
  ['polariser', 'plan/unknown-word', 'Is “polarizer” meant?', 'polarizer'],
  ['infrared', 'plan/unknown-word', 'Write neutral density, graduated, polarizer'],
  ['', 'plan/unknown-word', 'A word is missing'],
]);
keepsTheContract(kind, fc.constantFrom('neutral density', 'graduated', 'polarizer'));

test('a choice explains each word in its documentation and beside its completion', () => {
  expect(kind.documentation).toContain('`graduated` darkens one half');
  expect(kind.complete('gr')).toEqual([{ text: 'graduated', detail: 'darkens one half' }]);
});

const hazard = choiceWithText('hazard', [
  { value: 'deep water', doc: 'no footing' },
  { value: 'slippery rock', doc: 'wet or with weed' },
]);
accepts(hazard, [
  ['Deep-water', 'deep water'],
  ['cattle on the dam', 'cattle on the dam'],
]);
refuses(hazard, [['', 'plan/unreadable', 'The hazard is empty']]);

test('own words that look like a usual one misspelt are kept, with a hint', () => {
  const { value, problems } = hazard.parse('deep watre');
  expect(value).toBe('deep watre');
  expect(problems).toMatchObject([{ code: 'plan/unknown-word', severity: 'hint', rewrite: 'deep water' }]);
});
