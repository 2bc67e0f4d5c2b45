import { describe, expect, test } from 'vitest';
import { analysed, check, checkFix, fixTitles } from '../support/check.ts';

const only = ['syntax/', 'plan/'];

const head = `plan: A day
date: 2027-03-20
timezone: Europe/London
kit: ../kit/field-bag.shootkit.yaml
`;

describe('what is wrong with an item of a list', () => {
  test('is marked at the item, not at the key of the list', () => {
    const { day } = check(
      `${head}spots:
  - North steps
#   ^^^^^^^^^^^ error plan/wrong-shape: An item of \`spots\` takes keys such as \`id, name, at\`; here it has one value.
  - id: a
    at: 54.4, -2.6
    shots:
      - id: b
        shutter: 1 s
        filters:
          - nd6
          - [pol]
#           ^^^^^ error plan/wrong-shape: An item of \`filters\` takes the id of a filter; here it has a list.
          -
#         ^ hint plan/empty-value: This item of \`filters\` is empty.
      - i
#       ^ error plan/wrong-shape: An item of \`shots\`
      # nothing yet
      -
#     ^ hint plan/empty-value: This item of \`shots\` is empty.
  -
# ^ hint plan/empty-value: This item of \`spots\` is empty.
`,
      { only },
    );
    expect(day?.shots).toHaveLength(1);
  });

  test('in brackets', () => {
    check(
      `${head}spots: [a, { id: b, at: "54.4, -2.6" }]
#       ^ error plan/wrong-shape: An item of \`spots\`
`,
      { only },
    );
  });

  test('one value in the place of a list is marked at its key', () => {
    check(
      `${head}spots: a
#<^^^ error plan/wrong-shape: \`spots\` takes keys such as
`,
      { only },
    );
  });
});

describe('aliases that cannot be followed', () => {
  test('are no values left empty: each is reported once', () => {
    const { day } = check(
      `${head}spots:
  - &a
    id: a
    at: *nowhere
#       ^^^^^^^^ error syntax/unknown-alias
    hazards: *nothing
#            ^^^^^^^^ error syntax/unknown-alias
    shots: [*a, { id: b, shutter: 1 s }, *b]
#           ^^ error syntax/alias-cycle
#                                        ^^ error syntax/unknown-alias
`,
      { only },
    );
    expect(day?.shots).toHaveLength(1);
  });

  test('too many of them: one finding', () => {
    let text = `${head}hazards: &a [lol, lol, lol, lol, lol, lol, lol, lol, lol]\n`;
    for (const [index, name] of [...'bcdefg'].entries()) {
      text += `note${index}: &${name} [${Array(9).fill(`*${'abcdef'[index]}`).join(', ')}]\n`;
    }
    for (const spots of ['*g', '[*g, *g, *f]']) {
      const { findings } = analysed(`${text}spots: ${spots}\n`);
      const codes = findings.map(({ code }) => code).filter((code) => code !== 'plan/unknown-key');
      expect(codes, spots).toEqual(['syntax/alias-budget']);
    }
  });

  test('a value of a wrong shape that is used twice is reported once', () => {
    const { findings } = analysed(`${head}spots: [&a [x], *a, *a]\n`);
    expect(findings.map(({ code }) => code)).toEqual(['plan/wrong-shape']);
  });
});

describe('values that a comma cuts in two, between braces', () => {
  const spot = (fields: string) => `${head}spots: [{ id: a, ${fields} }]\n`;
  const forecast = (fields: string) => `${head}forecast: { hours: [{ at: 05:00, ${fields} }] }\n`;
  const marks = (text: string, part: string, finding: string) => {
    const line = text.trimEnd().split('\n').at(-1) as string;
    return `${text}#${' '.repeat(line.indexOf(part) - 1)}${'^'.repeat(part.length)} ${finding}\n`;
  };

  test('coordinates: one finding, its mend, and the place is read', () => {
    const marked = marks(
      spot('at: 54.43, -2.61'),
      '54.43, -2.61',
      'error plan/comma-in-value: A value that has a comma in it stands between quotes here: "54.43, -2.61".',
    );
    const { plan } = check(marked, { only });
    expect(plan?.model.spots?.[0]?.at?.value).toEqual({ latitude: 54.43, longitude: -2.61 });
    checkFix(marked, 'Write 54.43, -2.61', spot('at: "54.43, -2.61"'), { only });
  });

  test.each([
    [forecast('wind: 3,5 km/h, cloud: 30 %'), '3,5 km/h', '3.5 km/h'],
    [`${head}thresholds: { walking-factor: 1,2, overcast: 80 % }\n`, '1,2', '1.2'],
    [spot('setup: 1,5 min, at: "54.4, -2.6"'), '1,5 min', '1.5 min'],
  ])('a decimal comma in %j', (text, written, meant) => {
    const { findings } = analysed(text);
    const found = findings.filter(({ code }) => code.startsWith('plan/'));
    expect(found.map(({ code }) => code)).toEqual(['plan/decimal-comma']);
    checkFix(text, `Write ${meant}`, text.replace(written, meant), { only });
  });

  test('a threshold with a decimal comma counts as it was meant', () => {
    const { plan } = analysed(`${head}thresholds: { walking-factor: 1,2 }\n`);
    expect(plan?.model.thresholds?.entries.map(({ value }) => value.text)).toEqual(['1.2']);
  });

  test('several ids are a list', () => {
    const text = (filters: string) =>
      spot(`at: "54.4, -2.6", shots: [{ id: b, filters: ${filters}, metered: 1/2 s @ f/14 }]`);
    const marked = marks(
      text('nd6, pol'),
      'nd6, pol',
      'error plan/comma-in-value: Several values stand between brackets: `filters: [nd6, pol]`.',
    );
    const { plan } = check(marked, { only });
    expect(plan?.model.spots?.[0]?.shots?.[0]?.filters?.map(({ value }) => value)).toEqual(['nd6', 'pol']);
    checkFix(marked, 'Write [nd6, pol]', text('[nd6, pol]'), { only });
  });

  test('a key that is only begun is named', () => {
    const marked = marks(
      forecast('cloud: 30 %, gus'),
      'gus',
      'warning plan/unknown-key: “gus” is no key, and has no value yet. Write `gusts: …`.',
    );
    check(marked, { only });
    check(
      `${head}forecast:
  hours:
    - { at: 05:00, cloud: 30 %, wi
#   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error syntax/unclosed-bracket
#                               ^^ warning plan/unknown-key: “wi” is no key, and has no value yet. Write \`wind: …\`.
`,
      { only },
    );
  });

  test('what is neither is left, and both ways out are named', () => {
    check(
      marks(
        forecast('cloud: 30 %, zz'),
        'zz',
        'error plan/comma-in-value: “zz” stands alone after a comma. Write `zz: …` if it is a key',
      ),
      { only },
    );
  });

  test('a free key without a value is named itself', () => {
    check(
      marks(
        spot('at: "54.4, -2.6", skyline: { E: 6°, SSW }'),
        'SSW',
        'hint plan/empty-value: `SSW` has no value yet.',
      ),
      { only },
    );
  });

  test('a comma between thousands is not taken for a decimal one', () => {
    const { findings, plan } = analysed(spot('at: "54.4, -2.6", elevation: 1,200 m'));
    expect(findings.filter(({ severity }) => severity === 'error')).toHaveLength(1);
    expect(plan?.model.spots?.[0]?.elevation).toBeUndefined();
  });
});

describe('values of a wrong shape, and what they may have been meant to be', () => {
  const spot = (line: string) => `${head}spots:\n  - id: a\n    at: 54.4, -2.6\n    ${line}\n`;
  const shot = (line: string) =>
    `${head}spots:\n  - id: a\n    at: 54.4, -2.6\n    shots:\n      - id: b\n        shutter: 1 s\n        ${line}\n`;
  const plan = (line: string) => `${head}${line}\n`;

  test.each([
    [spot, 'walk', '10 min', '{ time: 10 min }'],
    [spot, 'water', 'calm', '{ state: calm }'],
    [spot, 'water', 'lake', '{ kind: lake }'],
    [spot, 'stance', 'wall', '{ on: wall }'],
    [shot, 'bracket', '3', '{ frames: 3 }'],
    [shot, 'subject', '"54.43, -2.61"', '{ at: "54.43, -2.61" }'],
    [shot, 'subject', 'an old mill', '{ name: an old mill }'],
    [shot, 'metered', '{ shutter: 1/60 s, aperture: f/8 }', '1/60 s @ f/8'],
    [plan, 'start', '06:00', '{ leave: 06:00 }'],
    [plan, 'start', '54.4, -2.6', '{ from: "54.4, -2.6" }'],
    [plan, 'party', '2', '{ people: 2 }'],
    [plan, 'party', 'told', '{ contact: told }'],
  ] as const)('%o %s: %s', (where, key, written, meant) => {
    const text = where(`${key}: ${written}`);
    const found = analysed(text).findings.filter(({ code }) => code === 'plan/wrong-shape');
    expect(found.map(({ message }) => message.split(' Write ')[1])).toEqual([`\`${key}: ${meant}\`.`]);
    checkFix(text, `Write ${meant}`, where(`${key}: ${meant}`), { only });
  });

  test.each([
    ['{ lat: 54.4, lon: -2.6 }', '54.4, -2.6'],
    ['{ lon: -2.6, lat: 54.4 }', '54.4, -2.6'],
    ['{ latitude: "54.4", longitude: "-2.6" }', '54.4, -2.6'],
  ])('coordinates as keys, whatever their order: %s', (written, meant) => {
    const text = spot('').replace('54.4, -2.6', written);
    checkFix(text, `Write ${meant}`, spot(''), { only });
  });

  test('where several keys would take it, all are offered, and none is preferred', () => {
    const walk = spot('walk: 600 m');
    expect(fixTitles(walk, { only })).toEqual(['Write { distance: 600 m }', 'Write { climb: 600 m }']);
    checkFix(walk, 'Write { climb: 600 m }', spot('walk: { climb: 600 m }'), { only });
    expect(fixTitles(shot('scene: 12 stops'), { only })).toContain('Write { range: 12 stops }');
  });

  test('pairs are shown as the documentation has them', () => {
    const message = (text: string) =>
      analysed(text).findings.find(({ code }) => code === 'plan/wrong-shape')?.message;
    expect(message(spot('skyline: 6°'))).toContain('pairs such as `{ E: 6°, SE: 9° }`');
    expect(message(plan('thresholds: 1.2'))).toContain('pairs such as `{ walking-factor: 1.2 }`');
  });

  test('a threshold with a decimal comma is not read as a whole number', () => {
    const threshold = (value: string) => plan(`thresholds:\n  walking-factor: ${value}`);
    const { findings } = analysed(threshold('1,2'));
    expect(findings.find(({ code }) => code === 'plan/unknown-threshold')?.message).toBe(
      '“1,2” has a decimal comma and is not read. Write 1.2.',
    );
    checkFix(threshold('1,2'), 'Write 1.2', threshold('1.2'), { only });
  });
});
