import { describe, expect, test } from 'vitest';
import { analysed, checkFix, fixTitles, mended } from '../support/check.ts';

describe('a missing key', () => {
  const only = ['plan/', 'syntax/'];

  test('an id is made from the name, and is the first key of the item', () => {
    checkFix(
      'plan: P\ndate: 2027-03-20\nspots:\n  - name: North steps\n    at: 54.43, -2.61\n',
      'Insert id: north-steps',
      'plan: P\ndate: 2027-03-20\nspots:\n  - id: north-steps\n    name: North steps\n    at: 54.43, -2.61\n',
      { only },
    );
  });

  test.each([
    ['counted, past those that are taken', 'spots:\n  - id: spot-1\n    at: 1, 2\n  - at: 3, 4\n', 'spot-2'],
    [
      'not twice the same',
      'spots:\n  - { id: steps, at: "1, 2" }\n  - { name: Steps, at: "3, 4" }\n',
      'spot-1',
    ],
    ['of a shot', 'spots:\n  - id: a\n    at: 1, 2\n    shots:\n      - effect: mist\n', 'shot-1'],
    ['in braces', 'spots:\n  - { at: "1, 2", drive: 5 min }\n', 'spot-1'],
    ['in a list that is not indented', 'spots:\n- at: 1, 2\n', 'spot-1'],
    ['of a name in another script', 'spots:\n  - name: Łódź, 2\n    at: 1, 2\n', 'łódź-2'],
    ['of a name that begins with a figure', 'spots:\n  - name: 3 falls\n    at: 1, 2\n', 'spot-1'],
  ])('an id is %s', (_, spots, id) => {
    const text = `plan: P\ndate: 2027-03-20\n${spots}`;
    const after = mended(text, `Insert id: ${id}`, { only: ['plan/missing-key'] }).text;
    const { findings, plan } = analysed(after);
    expect(findings.filter(({ code }) => /^(?:plan|syntax)\//.test(code))).toEqual([]);
    const made = plan?.model.spots
      ?.flatMap((spot) => [spot, ...(spot.shots ?? [])])
      .map((each) => each.id?.value);
    expect(made?.filter((each) => each === id)).toEqual([id]);
  });

  test('what only the author knows waits for a value', () => {
    const text = 'plan: P # a note\nspots: []\n';
    expect(mended(text, 'Insert date, to be filled in', { only }).text).toBe(
      'plan: P # a note\ndate: \nspots: []\n',
    );
    const spot = 'plan: P\ndate: 2027-03-20\nspots:\n  - { id: a }\n';
    expect(mended(spot, 'Insert at, to be filled in', { only }).text).toBe(spot.replace('a }', 'a, at:  }'));
    for (const each of [text, spot]) {
      const title = fixTitles(each, { only }).find((other) => other.startsWith('Insert')) ?? '';
      const codes = analysed(mended(each, title, { only }).text).findings.map(({ code }) => code);
      expect(codes).toContain('plan/empty-value');
      expect(codes.filter((code) => code.startsWith('syntax/'))).toEqual([]);
    }
  });

  test('a title is that of the file, before all other keys and with the line ends of the text', () => {
    expect(mended('# mine\r\ndate: 2027-03-20\r\n', 'Insert plan: Test', { only }).text).toBe(
      '# mine\r\nplan: Test\r\ndate: 2027-03-20\r\n',
    );
    expect(mended('lenses: []\n', 'Insert kit: Field bag', { only, asKit: true }).text).toBe(
      'kit: Field bag\nlenses: []\n',
    );
  });

  test('of a kit: the kind of a filter, the focal length of a lens', () => {
    const kit =
      'kit: Bag\nfilters:\n  - id: nd6   # the old one\n    strength: 6 stops\nlenses: [{ id: wide }]\n';
    const options = { only: ['plan/missing-key'], asKit: true };
    expect(mended(kit, 'Insert kind, to be filled in', options).text).toBe(
      kit.replace('old one\n', 'old one\n    kind: \n'),
    );
    expect(mended(kit, 'Insert focal, to be filled in', options).text).toBe(
      kit.replace('wide }', 'wide, focal:  }'),
    );
  });

  test('then its dash, when the line that opened the item is gone', () => {
    const text = 'plan: P\ndate: 2027-03-20\nspots:\n    at: 1, 2\n  - id: b\n    at: 3, 4\n';
    const first = mended(text, 'Insert id: spot-1', { only }).text;
    expect(mended(first, 'Put a dash before the item', { only }).text).toBe(
      'plan: P\ndate: 2027-03-20\nspots:\n  - id: spot-1\n    at: 1, 2\n  - id: b\n    at: 3, 4\n',
    );
  });
});

describe('a key that stands twice', () => {
  const only = ['syntax/'];
  const head = 'plan: P\ndate: 2027-03-20\n';

  test.each([
    ['one line', 'note: a\nnote: b\nbearings: true\n', 'note: a\nbearings: true\n'],
    ['the last line', 'note: a\nnote: b', 'note: a\n'],
    ['with a comment behind it', 'note: a\nnote: b   # older\n', 'note: a\n# older\n'],
    ['in a block', 'party:\n  people: 2\n  note: a\n  people: 3\n', 'party:\n  people: 2\n  note: a\n'],
    [
      'a block, with its comments',
      'party: { people: 2 }\nparty:  # both\n  # who goes\n  people: 3   # with the child\n  note: x\n# below\n',
      'party: { people: 2 }\n# both\n  # who goes\n# with the child\n# below\n',
    ],
    [
      'a list',
      'spots: []\nspots:\n- id: a\n  at: 1, 2\n- id: b\n  at: 1, 2\nnote: x\n',
      'spots: []\nnote: x\n',
    ],
    [
      'text over several lines',
      'note: a\nnote: |\n  # no comment\n\n  b\nbearings: true\n',
      'note: a\nbearings: true\n',
    ],
    ['in braces', 'party: { people: 2, people: 3, note: x }\n', 'party: { people: 2, note: x }\n'],
    ['the last one in braces', 'party: { people: 2, people: 3 }\n', 'party: { people: 2 }\n'],
    ['in braces over lines', 'party: {\n  people: 2,\n  people: 3\n}\n', 'party: {\n  people: 2\n}\n'],
    ['without a value', 'note: a\nnote:\nbearings: true\n', 'note: a\nbearings: true\n'],
    ['in quotes', 'note: a\n"note": b\n', 'note: a\n'],
  ])('is removed: %s', (_, text, expected) => {
    for (const lineEnd of ['\n', '\r\n']) {
      const before = (head + text).replaceAll('\n', lineEnd);
      const [title = ''] = fixTitles(before, { only });
      expect(title).toMatch(/^Remove the later /);
      const after = mended(before, title, { only }).text;
      expect(after).toBe((head + expected).replaceAll('\n', lineEnd));
      expect(analysed(after).findings.filter(({ code }) => code.startsWith('syntax/'))).toEqual([]);
    }
  });

  test('of three, each of the later two has its own mend', () => {
    expect(fixTitles('plan: P\nnote: a\nnote: b\nnote: c\n', { only })).toEqual([
      'Remove the later note',
      'Remove the later note',
    ]);
  });
});

describe('an event that does not happen', () => {
  const only = ['time/no-such-event'];
  const plan = (date: string, at: string, arrive: string) =>
    `plan: P\ndate: ${date}\nspots:\n  - id: a\n    at: ${at}\n    arrive: ${arrive}\n`;

  // By the altitude that defines each event: noon altitude at 69.65° N on the solstices is 43.8° and −3.1°
  // (90° − latitude ± 23.44°), midnight altitude of the sun at 54.43° N in June −12.1°.
  test.each([
    ['2027-06-21', '69.65, 18.96', 'sunrise - 20 min', ['solar noon']],
    ['2027-12-21', '69.65, 18.96', 'sunrise', ['civil dawn', 'nautical dawn']],
    ['2027-12-21', '69.65, 18.96', 'Sunset  + 5 min', ['civil dusk', 'nautical dusk']],
    ['2027-06-21', '54.43, -2.61', 'astronomical  dawn', ['nautical dawn', 'civil dawn']],
    ['2027-12-21', '69.65, 18.96', 'later of sunrise, sunset', ['civil dawn', 'nautical dawn']],
    ['2027-03-20', '54.43, -2.61', 'sun clears skyline', ['sunrise', 'civil dawn']],
    ['2027-03-20', '54.43, -2.61', 'high water', []],
  ])('%s at %s: %s', (date, at, arrive, expected) => {
    const text = plan(date, at, arrive);
    expect(fixTitles(text, { only })).toEqual(expected.map((event) => `Write ${event}`));
    for (const event of expected) {
      const after = mended(text, `Write ${event}`, { only }).text;
      expect(after).not.toBe(text);
      expect(analysed(after).findings.filter(({ code }) => code === 'time/no-such-event')).toEqual([]);
    }
  });

  test('keeps what stands around it', () => {
    const text = plan('2027-12-21', '69.65, 18.96', '"sunrise - 20 min" # early');
    expect(mended(text, 'Write civil dawn', { only }).text).toContain(
      'arrive: "civil dawn - 20 min" # early\n',
    );
  });

  test('the moon may rise on the next day', () => {
    // The moon rises some 50 minutes later each day, so once a month a date has no moonrise.
    const dates = Array.from({ length: 30 }, (_, n) => `2027-04-${String(n + 1).padStart(2, '0')}`);
    const without = dates.filter(
      (date) => fixTitles(plan(date, '54.43, -2.61', 'moonrise'), { only }).length > 0,
    );
    expect(without.length).toBe(1);
    const text = plan(without[0] as string, '54.43, -2.61', 'moonrise');
    expect(fixTitles(text, { only })).toEqual(['Write moonrise next day']);
    expect(
      analysed(mended(text, 'Write moonrise next day', { only }).text).day?.spots[0]?.arriveMs,
    ).toBeDefined();
  });
});
