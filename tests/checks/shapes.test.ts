import { describe, expect, test } from 'vitest';
import { analysed, check } from '../support/check.ts';

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
