import { describe, expect, test } from 'vitest';
import { analysed, check, checkFix } from '../support/check.ts';

const only = ['syntax/', 'plan/'];

const plan = `plan: Morning
date: 2027-03-20
kit: ../kit/field-bag.shootkit.yaml
party:
  people: 2
forecast:
  issued: 2027-03-19 18:00
  hours:
    - { at: 06:00, cloud: 30 % }
thresholds:
  walking-factor: 1.2
spots:
  - id: steps
    at: 54.43, -2.61
    arrive: 06:00
    skyline:
      E: 6°
    water:
      kind: lake
    shots:
      - id: mirror
        aperture: f/14
        metered: 1/2 s
        filters:
          - nd6
      - id: strands
        shutter: 1 s
  - id: cascade
    at: 54.44, -2.62
    drive: 10 min
    shots:
      - id: veil
        shutter: 1 s
`;

describe('syntax/value-above-block', () => {
  test('typed behind the key of the spots: one finding, and all spots are kept', () => {
    const marked = plan.replace(
      'spots:\n',
      'spots: x\n#      ^ error syntax/value-above-block: `spots` has a value here, “x”, and the list below it as well. Remove “x”.\n',
    );
    const { day } = check(marked, { only });
    // 1/2 s · 2^6 = 32 s (ISO 5: densities, and so stops, add up).
    expect(day?.shots[0]?.exposure?.filtered?.correctedSeconds).toBe(32);
    checkFix(marked, 'Remove the value above the block', plan, { only });
  });

  test.each(['party', 'forecast', '  hours', 'thresholds', 'spots', '    skyline', '    water', '    shots'])(
    'behind %s',
    (key) => {
      const whole = analysed(plan);
      for (const value of ['x', 'two words', '"x"', '[]', '{}', 'x   # and a comment', '&a x']) {
        const text = plan.replace(`\n${key}:\n`, `\n${key}: ${value}\n`);
        expect(text).not.toBe(plan);
        const { findings, day } = analysed(text);
        const added = findings.filter(({ code }) => code.startsWith('syntax/') || code.startsWith('plan/'));
        expect(
          added.map(({ code }) => code),
          value,
        ).toEqual(['syntax/value-above-block']);
        expect(findings.length, value).toBe(whole.findings.length + 1);
        expect(
          day?.shots.map(({ startMs }) => startMs),
          value,
        ).toEqual(whole.day?.shots.map(({ startMs }) => startMs));
      }
    },
  );

  test('in lists that are not indented', () => {
    const text = `plan: A\ndate: 2027-03-20\nspots: x\n- id: a\n  at: 54.43, -2.61\n  shots: xx\n  - id: b\n    shutter: 1 s\n`;
    const { findings, day } = analysed(text);
    expect(findings.filter(({ code }) => code.startsWith('syntax/')).map(({ code }) => code)).toEqual([
      'syntax/value-above-block',
      'syntax/value-above-block',
    ]);
    expect(day?.shots).toHaveLength(1);
  });

  test('a block that does not belong to the key above it is moved to its neighbours instead', () => {
    check(
      `plan: A
date: 2027-03-20
spots:
  - id: a
    at: 54.43, -2.61
      - id: b
#     ^^^^^^^ error syntax/indentation
        at: 54.44, -2.62
#       ^^^^^^^^^^^^^^^^ error syntax/indentation
`,
      { only },
    );
    const shifted = plan
      .replace('\nspots:', '\n spots:')
      .replace('thresholds:\n  walking-factor: 1.2', 'thresholds: { walking-factor: 1.2 }');
    const { findings, day } = analysed(shifted);
    expect(findings.filter(({ code }) => code.startsWith('syntax/')).map(({ code }) => code)).toEqual([
      'syntax/indentation',
    ]);
    expect(day?.shots).toHaveLength(3);
  });
});

describe('syntax/indentation of the first key', () => {
  test.each([1, 2, 5])('%i blanks before the first key of a plan: one finding, and its mend', (count) => {
    const text = ' '.repeat(count) + plan;
    const { findings, day } = analysed(text);
    const found = findings.filter(({ code }) => code.startsWith('syntax/') || code.startsWith('plan/'));
    expect(found.map(({ code, span }) => [code, span])).toEqual([
      ['syntax/indentation', { start: count, end: count + 'plan: Morning'.length }],
    ]);
    expect(day?.shots).toHaveLength(3);
    checkFix(text, 'Align this line with its neighbours', plan, { only });
  });

  test('behind a comment, with a block below it', () => {
    const { findings, plan: read } = analysed(
      `# A day out\n party:\n   people: 2\nplan: A\ndate: 2027-03-20\nspots: []\n`,
    );
    expect(findings.filter(({ code }) => code.startsWith('syntax/')).map(({ code }) => code)).toEqual([
      'syntax/indentation',
    ]);
    expect(read?.model.party?.people?.value).toBe(2);
    expect(read?.model.plan?.value).toBe('A');
  });

  test('the first key of a kit', () => {
    const { findings, kit } = analysed(
      ` kit: Field bag\nfilters:\n  - { id: nd6, kind: neutral density, strength: 6 stops }\n`,
      {
        asKit: true,
      },
    );
    expect(findings.map(({ code }) => code)).toEqual(['syntax/indentation']);
    expect(kit?.model.filters).toHaveLength(1);
  });
});
