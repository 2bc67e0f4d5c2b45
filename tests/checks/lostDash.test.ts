import { describe, expect, test } from 'vitest';
import { analysed, check, checkFix } from '../support/check.ts';

const only = ['syntax/', 'plan/'];

const head = `plan: Morning
date: 2027-03-20
kit: ../kit/field-bag.shootkit.yaml
`;

describe('syntax/dash-missing', () => {
  test('the line that opens the first spot is deleted: its keys are reported once, and all computes', () => {
    const { day } = check(
      `${head}spots:
    at: 54.43, -2.61
#   ^^^^^^^^^^^^^^^^ error syntax/dash-missing: The first item of \`spots\` has no dash. Write \`- id: …\` in a line above \`at\`, or \`- at:\`.
#   ^^ error plan/missing-key
    arrive: 06:00
    shots:
      - id: mirror
        aperture: f/14
        metered: 1/2 s
        filters: [nd6]
  - id: cascade
    at: 54.44, -2.62
    drive: 10 min
    shots:
      - id: veil
        shutter: 1 s
`,
      { only },
    );
    // 1/2 s · 2^6 = 32 s (ISO 5: densities, and so stops, add up).
    expect(day?.spots[0]?.shots[0]?.exposure?.filtered?.correctedSeconds).toBe(32);
    expect(day?.spots[1]?.shots[0]?.startMs).toBeDefined();
  });

  test('of the first shot, between two spots', () => {
    const { day } = check(
      `${head}spots:
  - id: steps
    at: 54.43, -2.61
    arrive: 06:00
    shots:
        aperture: f/14
#       ^^^^^^^^^^^^^^ error syntax/dash-missing: The first item of \`shots\` has no dash.
#       ^^^^^^^^ error plan/missing-key
        metered: 1/2 s
        filters:
          - nd6
      - id: strands
        shutter: 1 s
      - { id: last, shutter: 2 s, start: after strands }
  - id: cascade
    at: 54.44, -2.62
    shots:
      - { id: veil, shutter: 1 s }
`,
      { only },
    );
    const seconds = day?.shots.map(
      ({ exposure }) => exposure?.filtered?.correctedSeconds ?? exposure?.setting.seconds,
    );
    expect(seconds).toEqual([32, 1, 2, 1]);
  });

  test.each([
    ['not indented', '- '],
    ['indented by two', '  - '],
    ['with blanks behind the dash', '  -   '],
  ])('in a list that is %s', (_, dash) => {
    const keys = ' '.repeat(dash.length);
    const text = `${head}spots:\n${keys}at: 54.43, -2.61\n${keys}arrive: 06:00\n${dash}id: cascade\n${keys}at: 54.44, -2.62\n${keys}arrive: 07:00\n`;
    const { day, findings } = analysed(text);
    expect(findings.filter(({ code }) => code.startsWith('syntax/')).map(({ code }) => code)).toEqual([
      'syntax/dash-missing',
    ]);
    expect(day?.spots.map(({ arriveMs }) => new Date(arriveMs ?? 0).toISOString().slice(11, 16))).toEqual([
      '06:00',
      '07:00',
    ]);
  });

  test.each([
    ['lenses', 'focal: 24 mm', '{ id: tele, focal: 70-200 mm }'],
    ['filters', 'kind: polarizer', '{ id: nd6, kind: neutral density, strength: 6 stops }'],
    ['bodies', 'sensor: 36 x 24 mm', '{ id: second, sensor: 24 x 16 mm }'],
    ['film', 'iso: 50', '{ id: sheet, iso: 100 }'],
  ] as const)('in the %s of a kit', (key, line, item) => {
    const text = `kit: Field bag\n${key}:\n    ${line}\n    name: mine\n  - ${item}\n`;
    const { kit, findings } = analysed(text, { asKit: true });
    expect(findings.map(({ code }) => code).sort()).toEqual(['plan/missing-key', 'syntax/dash-missing']);
    const items = kit?.model[key]?.map(({ name, id }) => name?.value ?? id?.value);
    expect(items).toEqual(['mine', item.slice('{ id: '.length, item.indexOf(','))]);
  });

  test('only the dash is deleted, or the dash and its blank: the mend puts it back', () => {
    const whole = `${head}spots:
  - id: steps
    at: 54.43, -2.61
    arrive: 06:00
  - id: cascade
    at: 54.44, -2.62
    arrive: 07:00
`;
    for (const id of ['steps', 'cascade']) {
      checkFix(whole.replace(`- id: ${id}`, `id: ${id}`), 'Put a dash before the item', whole, { only });
    }
    checkFix(whole.replace('- id: steps', '  id: steps'), 'Put a dash before the item', whole, { only });
  });

  test('a map below which a dash is begun stays a map', () => {
    const { plan } = check(
      `${head}party:
  contact: told
-
spots: []
`,
      { only: ['plan/'] },
    );
    expect(plan?.model.party?.contact?.value).toBe('told');
    const { plan: other } = analysed(`${head}party:\n    contact: told\n  - back-by: 14:00\nspots: []\n`);
    expect(other?.model.party?.contact?.value).toBe('told');
  });
});
