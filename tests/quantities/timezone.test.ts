import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { timezone } from '../../server/quantities/timezone.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

// Names of the IANA time zone database. Run times accept more of them than they list.
accepts(
  timezone,
  [
    'Europe/London',
    'Europe/Kyiv',
    'Europe/Kiev',
    'Asia/Kolkata',
    'America/Coyhaique',
    'America/Argentina/Ushuaia',
    'America/Port-au-Prince',
    'UTC',
    'GMT',
    'Etc/UTC',
    'europe/london',
  ].map((name) => [name, name] as const),
);

refuses(timezone, [
  ['Europe/Lodnon', 'plan/unknown-zone', 'Is Europe/London meant?', 'Europe/London'],
  ['America/New York', 'plan/unknown-zone', 'Is America/New_York meant?', 'America/New_York'],
  ['London', 'plan/unknown-zone', 'Is Europe/London meant?', 'Europe/London'],
  ['Middle/Earth', 'plan/unknown-zone', 'Write a name such as'],
  ['+01:00', 'plan/unknown-zone', 'is an offset'],
  ['GMT+1', 'plan/unknown-zone', 'is an offset'],
  ['UTC \u22125', 'plan/unknown-zone', 'is an offset'],
  ['CET', 'plan/unknown-zone', 'is an abbreviation'],
  ['EST', 'plan/unknown-zone', 'is an abbreviation'],
  ['PST8PDT', 'plan/unknown-zone', 'is an abbreviation'],
  ['', 'plan/unreadable', 'A time zone is missing'],
]);

test('the reversed sign of Etc/GMT+1 is said', () => {
  const { value, problems } = timezone.parse('Etc/GMT+1');
  expect(value).toBe('Etc/GMT+1');
  expect(problems).toMatchObject([{ severity: 'warning', code: 'plan/ambiguous-value' }]);
  expect(problems[0]?.message).toContain('1 h behind UTC');
});

describe('completion', () => {
  test('finds a zone by its beginning and by its city', () => {
    const texts = (typed: string) => timezone.complete(typed).map(({ text }) => text);
    expect(texts('europe/lon')).toEqual(['Europe/London']);
    expect(texts('new y')).toEqual(['America/New_York']);
    expect(texts('Europe/Ky')).toContain('Europe/Kyiv');
  });
});

keepsTheContract(timezone, fc.constantFrom(...Intl.supportedValuesOf('timeZone')));
