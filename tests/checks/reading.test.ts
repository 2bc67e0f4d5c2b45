import { describe, expect, test } from 'vitest';
import { check, checkFix, fixTitles, mended } from '../support/check.ts';

/** A plan with one line at its end; the line's mark follows it. */
const plan = (lines: string) => `plan: A day
date: 2027-03-20
timezone: Europe/London
${lines}
`;
const only = ['plan/', 'filter/ambiguous-strength', 'syntax/'];

describe('mends that the readers propose', () => {
  test('the certain one is preferred and replaces what is meant', () => {
    const marked = plan('spot: []\n#<^^ warning plan/unknown-key');
    check(marked, { only });
    checkFix(marked, 'Write spots', plan('spots: []'), { only });
  });

  test('several readings are several fixes', () => {
    const marked = plan(
      'spots: [{ id: a, at: "54.4, -2.6", drive: 1:30 }]\n#                                         ^^^^ error plan/ambiguous-time',
    );
    check(marked, { only });
    expect(fixTitles(marked, { only })).toEqual(['Write 1:30 min', 'Write 1:30 h']);
    checkFix(marked, 'Write 1:30 h', plan('spots: [{ id: a, at: "54.4, -2.6", drive: 1:30 h }]'), { only });
  });

  test('a length without its unit is offered in the units that it may be meant in', () => {
    const spot = (line: string) =>
      `plan: A day\ndate: 2027-03-20\nspots:\n  - id: a\n    at: 54.4, -2.6\n    ${line}\n`;
    const height = `${spot('elevation: 212')}    #          ^^^ error plan/missing-unit: Write 212 m or 212 ft.\n`;
    check(height, { only });
    expect(fixTitles(height, { only })).toEqual(['Write 212 m', 'Write 212 ft']);
    checkFix(height, 'Write 212 ft', spot('elevation: 212 ft'), { only });
    const way = `${spot('walk: { distance: 2 }')}    #                 ^ error plan/missing-unit: Write 2 km or 2 mi.\n`;
    checkFix(way, 'Write 2 km', spot('walk: { distance: 2 km }'), { only });
  });

  test('several ids in one are written as a list', () => {
    const shot = (filters: string) =>
      `plan: A day\ndate: 2027-03-20\nkit: ../kit/field-bag.shootkit.yaml\nspots:\n  - id: a\n    at: 54.4, -2.6\n    shots:\n      - id: b\n        filters: ${filters}\n`;
    const lone = (filters: string) =>
      `${shot(filters)}        #        ${'^'.repeat(filters.length)} error plan/unknown-id: “${filters}” names 2 filters. Write a list: [nd6, pol].\n`;
    for (const filters of ['nd6 + pol', 'nd6, pol', 'nd6 and pol', 'nd6/pol', 'nd6 pol']) {
      checkFix(lone(filters), 'Write [nd6, pol]', shot('[nd6, pol]'), { only });
    }
    const item = `${shot('[nd6 + pol]')}        #         ^^^^^^^^^ error plan/unknown-id: Write a list: [nd6, pol].\n`;
    checkFix(item, 'Write nd6, pol', shot('[nd6, pol]'), { only });
    check(`${shot('nd6 + gone')}        #        ^^^^^^^^^^ error plan/unknown-id: There is no filter\n`, {
      only,
    });
  });

  test('a key that is not known is answered with the first that are', () => {
    check(
      plan(
        'zebra: 1\n#<^^^ warning plan/unknown-key: Known here: plan, date, timezone, kit, bearings, party, start, forecast, tides, spots, effects, checks and 2 more.',
      ),
      { only },
    );
  });

  test('a strength without its unit is offered in stops, as a density and as a factor', () => {
    const kit = (strength: string) => `kit: Field bag
filters:
  - id: nd
    kind: neutral density
    strength: ${strength}
`;
    const marked = `${kit('3')}    #         ^ error filter/ambiguous-strength
`;
    check(marked, { asKit: true });
    expect(fixTitles(marked, { asKit: true })).toEqual(['Write 3 stops', 'Write OD 3.0', 'Write x3']);
    checkFix(marked, 'Write OD 3.0', kit('OD 3.0'), { asKit: true });
  });

  test('an id that is nearly one is written', () => {
    const marked = plan(
      'spots: [{ id: lake, at: "54.4, -2.6" }, { id: b, at: "54.4, -2.6", otherwise: lak }]\n#                                                                             ^^^ error plan/unknown-id',
    );
    check(marked, { only });
    checkFix(
      marked,
      'Write lake',
      plan('spots: [{ id: lake, at: "54.4, -2.6" }, { id: b, at: "54.4, -2.6", otherwise: lake }]'),
      {
        only,
      },
    );
  });
});

describe('mends of broken YAML', () => {
  test.each([
    ['note dawn', 'Put a colon after the key', 'note: dawn'],
    ['note:dawn', 'Put a space after the colon', 'note: dawn'],
    ['note: dawn: first', 'Put the value in quotes', "note: 'dawn: first'"],
    ['note: @dawn', 'Put the value in quotes', "note: '@dawn'"],
    ['note: "dawn', 'Close the quote', 'note: "dawn"'],
    ['tides: [{ low: 06:12 }', 'Close the bracket', 'tides: [{ low: 06:12 }]'],
  ])('%s', (broken, title, mendedLine) => {
    const after = mended(plan(broken), title, { only });
    expect(after.text).toBe(plan(mendedLine));
    check(after.text, { only });
  });
});
