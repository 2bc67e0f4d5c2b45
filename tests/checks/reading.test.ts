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
      'spots: [{ id: lake, at: "54.4, -2.6", otherwise: lak }]\n#                                                ^^^ error plan/unknown-id',
    );
    check(marked, { only });
    checkFix(marked, 'Write lake', plan('spots: [{ id: lake, at: "54.4, -2.6", otherwise: lake }]'), {
      only,
    });
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
