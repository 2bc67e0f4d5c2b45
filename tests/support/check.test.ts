import { describe, expect, test } from 'vitest';
import { check, smallKit, unmarked } from './check.ts';

const plan = `plan: A day at the lake
#<^^ error plan/unreadable
date: 2027-03-20
`;

describe('marked text', () => {
  test('marks are taken out, with their line and columns', () => {
    const { text, marks } = unmarked('a: 1\n# ^ error plan/unreadable: a part\nb: 2\n');
    expect(text).toBe('a: 1\nb: 2\n');
    expect(marks).toMatchObject([
      { line: 0, start: 2, end: 3, severity: 'error', code: 'plan/unreadable', part: 'a part' },
    ]);
  });

  test('a mark of the first column counts its # and <', () => {
    expect(unmarked(plan).marks).toMatchObject([{ line: 0, start: 0, end: 4 }]);
  });

  test('several marks may stand under one line, and lines may end in CRLF', () => {
    const { text, marks } = unmarked(
      'ab: cd\r\n#   ^^ hint plan/empty-value\r\n# ^^... error plan/wrong-shape\r\nx: |\r\n',
    );
    expect(text).toBe('ab: cd\r\nx: |\r\n');
    expect(marks.map(({ line, start, end }) => [line, start, end])).toEqual([
      [0, 4, 6],
      [0, 2, Number.POSITIVE_INFINITY],
    ]);
  });

  test('a mark that is misspelt is refused', () => {
    expect(() => unmarked('a: 1\n# ^ warn plan/unreadable\n')).toThrow('looks like a mark');
  });
});

describe('the comparison', () => {
  const good = `plan: A day
date: 2027-03-20
spot: []
#<^^ warning plan/unknown-key: Did you mean \`spots\`?
`;

  test('agrees when findings and marks agree, with LF and with CRLF', () => {
    check(good, { only: ['plan/'] });
    check(good.replaceAll('\n', '\r\n'), { only: ['plan/'] });
  });

  test.each([
    ['a mark without its finding', 'plan: A day\n#     ^^^^^ error plan/unreadable\ndate: 2027-03-20\n'],
    ['a finding without its mark', 'plan: A day\ndate: 2027-03-20\nspot: []\n'],
    ['another range', 'plan: A day\ndate: 2027-03-20\nspot: []\n#<^ warning plan/unknown-key\n'],
    ['another severity', 'plan: A day\ndate: 2027-03-20\nspot: []\n#<^^ error plan/unknown-key\n'],
    ['another code', 'plan: A day\ndate: 2027-03-20\nspot: []\n#<^^ warning plan/wrong-shape\n'],
    ['another message', 'plan: A day\ndate: 2027-03-20\nspot: []\n#<^^ warning plan/unknown-key: lenses\n'],
  ])('fails on %s', (_, marked) => {
    expect(() => check(marked, { only: ['plan/'] })).toThrow();
  });

  test('the small kit has nothing wrong with it', () => {
    check(smallKit(), { asKit: true });
    check(smallKit({ film: ['{ id: slide-50, iso: 50 }'], more: 'carried: [headlamp]' }), { asKit: true });
  });
});
