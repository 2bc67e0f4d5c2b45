import { describe, expect, test } from 'vitest';
import { check, checkFix, fixTitles, smallKit } from '../support/check.ts';

const only = ['exposure/', 'kit/', 'filter/'];

/** One shot at noon at an invented lake. `line` is marked where the test says. */
const plan = (lines: string) => `plan: A day
date: 2027-03-20
timezone: Europe/London
kit: ../kit/field-bag.shootkit.yaml
spots:
  - id: lake
    at: 54.4301, -2.6102
    arrive: 11:00
    shots:
      - id: one
${lines
  .split('\n')
  .filter((line) => line !== '')
  .map((line) => `        ${line}\n`)
  .join('')}`;

const body = (more: string) => [`{ id: main, sensor: 36 x 24 mm, ${more} }`];

describe('exposure/beyond-dial', () => {
  const kit = smallKit({ bodies: body('shutter: 1/4000 s .. 30 s, bulb: none') });

  test('is told by how many stops, where there is no bulb', () => {
    // 2 s through 6 stops is 128 s; the dial keeps 32 s at its 30 s: 2 stops.
    const lines = `aperture: f/11
metered: 2 s
#        ^^^ error exposure/beyond-dial: 2 stops too dark
filters: [nd6]`;
    check(plan(lines), { only, kit });
  });

  test('is silent at the end of the dial, and where there is bulb', () => {
    check(plan('aperture: f/11\nmetered: 1/2 s\nfilters: [nd6]'), { only, kit });
    check(plan('aperture: f/11\nmetered: 2 s\nfilters: [nd6]'), { only });
  });
});

describe('exposure/shorter-than-dial', () => {
  const kit = smallKit({ bodies: body('shutter: 1/1000 s .. 30 s') });

  test('is told where the dial ends too early', () => {
    check(
      plan('aperture: f/4\nmetered: 1/8000 s\n#        ^^^^^^^^ error exposure/shorter-than-dial: 3 stops'),
      {
        only,
        kit,
      },
    );
    check(plan('aperture: f/4\nmetered: 1/1000 s'), { only, kit });
  });
});

describe('exposure/bulb-limit', () => {
  const kit = smallKit({ bodies: body('shutter: 1/4000 s .. 30 s, bulb: up to 2 min') });

  test('is told where it is passed, and not at the limit', () => {
    // 4 s through 6 stops is 256 s: log2(256 / 120) = 1.1 stops.
    check(
      plan(
        'aperture: f/11\nmetered: 4 s\n#        ^^^ error exposure/bulb-limit: is longer than the 2 min\nfilters: [nd6]',
      ),
      { only, kit },
    );
    check(plan('shutter: 2 min'), { only, kit });
  });

  test('is a hint within the ± of the filters, and an error for a time that is stated', () => {
    // 2 s through 6 ± 1/3 stops is 128 s, log2(128 / 120) = 0.09 stops past the limit; the filter may be weaker by 1/3.
    check(
      plan(
        'aperture: f/11\nmetered: 2 s\n#        ^^^ hint exposure/bulb-limit: 8 s too long. That is within the ± of reading and filters: set 2 min.\nfilters: [nd6]',
      ),
      { only, kit },
    );
    check(
      plan(
        'shutter: 2 min 3 s\n#        ^^^^^^^^^ error exposure/bulb-limit: 3 s too long. Take that much less',
      ),
      { only, kit },
    );
  });
});

describe('exposure/no-remote-release', () => {
  const lines = (mark: string) => `shutter: 2 min\n${mark}`;
  const mark = '#        ^^^^^ warning exposure/no-remote-release: 2 min needs bulb';

  test('is told where the bag is known and holds none', () => {
    check(plan(lines(mark)), { only, kit: smallKit({ more: 'carried: [headlamp]' }) });
    check(plan(lines('')), { only, kit: smallKit({ more: 'carried: [headlamp, remote release]' }) });
    check(plan(lines('')), { only, kit: smallKit() });
    check(plan('shutter: 30 s'), { only, kit: smallKit({ more: 'carried: [headlamp]' }) });
  });
});

describe('exposure/residual', () => {
  const kit = smallKit({ bodies: body('shutter: 1/4000 s .. 30 s, dial: 1 stop') });

  test('is told beyond the threshold', () => {
    // 1/3 s lies 0.41 stop from 1/4 s (log2(4/3)); a dial of whole stops has 1/4 and 1/2.
    const marked = 'aperture: f/11\nmetered: 1/3 s\n#        ^^^^^ hint exposure/residual: 0.4 stop too dark';
    check(plan(marked), { only, kit });
    check(plan('aperture: f/11\nmetered: 1/3 s'), {
      only,
      kit,
      settings: { thresholds: new Map([['long-residual', 0.5]]) },
    });
    check(plan('aperture: f/11\nmetered: 1/4 s'), { only, kit });
  });
});

test('exposure/no-aperture asks for one where there is none at all', () => {
  check(plan('metered: 1/4 s\n#        ^^^^^ hint exposure/no-aperture'), { only });
  check(plan('metered: 1/4 s at f/8'), { only });
  check(plan('metered: 1/4 s\naperture: f/8'), { only });
});

describe('film', () => {
  const kit = (more: string) =>
    smallKit({
      bodies: [
        '{ id: digital, sensor: 36 x 24 mm, pixels: 6000 x 4000 }',
        '{ id: box, sensor: 56 x 56 mm, film: yes }',
      ],
      film: [`{ id: slide, iso: 50${more} }`],
    });
  const reciprocity = ', reciprocity: { exponent: 1.3 }';

  test('kit/film-in-digital-body', () => {
    check(plan('film: slide\n#     ^^^^^ error kit/film-in-digital-body: digital takes no film'), {
      only,
      kit: kit(reciprocity),
    });
    check(plan('film: slide\nbody: box'), { only, kit: kit(reciprocity) });
  });

  test('exposure/film-without-reciprocity beyond one second', () => {
    const lines = (time: string, mark = '') =>
      `body: box\nfilm: slide\n${mark}aperture: f/11\nmetered: ${time}`;
    check(plan(lines('2 s', '#     ^^^^^ warning exposure/film-without-reciprocity: 2 s on slide\n')), {
      only,
      kit: kit(''),
    });
    check(plan(lines('1 s')), { only, kit: kit('') });
    check(plan(lines('2 s')), { only, kit: kit(reciprocity) });
  });
});

describe('kit/battery', () => {
  const kit = (more: string) =>
    smallKit({ bodies: body('shutter: 1/4000 s .. 30 s, battery: 30 min'), more: `carried: [${more}]` });
  const lines = 'shutter: 10 min\nframes: 4';

  test('is told at the shot that empties it; spares count', () => {
    const marked = plan(lines).replace(
      '- id: one\n',
      '- id: one\n      #     ^^^ warning kit/battery: stood open for 40 min, and one charge holds 30 min\n',
    );
    check(marked, { only, kit: kit('remote release') });
    check(plan(lines), { only, kit: kit('remote release, spare battery') });
    check(plan('shutter: 10 min\nframes: 3'), { only, kit: kit('remote release') });
    check(plan('shutter: 10 min\nframes: 9'), { only, kit: kit('remote release, 2 spare batteries') });
  });
});

describe('kit/label-and-measured', () => {
  const kit = (measured: string) => `kit: Field bag
filters:
  - id: nd6
    kind: neutral density
    strength: 6 stops
    measured: ${measured}
`;

  test('is told in the kit beyond half a stop', () => {
    check(
      `${kit('6.7 stops')}    #         ^^^^^^^^^ hint kit/label-and-measured: more than the label says
`,
      { asKit: true },
    );
    check(kit('6.5 stops'), { asKit: true });
  });
});

describe('kit/no-strength', () => {
  const filter = (lines: string) => `kit: Field bag\nfilters:\n  - id: nd3\n${lines}`;

  test('a filter that only darkens needs its strength, engraved or measured', () => {
    check(
      `kit: Field bag\nfilters:\n  - id: nd3\n  #     ^^^ error kit/no-strength: Write what is engraved on it\n    kind: neutral density\n`,
      { asKit: true },
    );
    for (const line of ['strength: 3 stops', 'measured: 3.2 stops']) {
      check(filter(`    kind: graduated\n    edge: soft\n    ${line}\n`), { asKit: true });
    }
    check(filter('    kind: polarizer\n'), { asKit: true });
    check(filter('    kind: colour\n'), { asKit: true });
  });

  test('loss is not a strength', () => {
    const marked = filter(
      '    kind: neutral density\n    loss: 3 stops\n    #     ^^^^^^^ error kit/no-strength: Write strength: 3 stops.\n',
    );
    check(marked, { asKit: true });
    checkFix(marked, 'Write strength', filter('    kind: neutral density\n    strength: 3 stops\n'), {
      asKit: true,
    });
  });
});

describe('the lens', () => {
  test('kit/aperture-beyond-lens offers the nearest end', () => {
    const marked = plan(
      'lens: wide @ 24 mm\naperture: f/2.8\n#         ^^^^^ error kit/aperture-beyond-lens: wide opens only to f/4.',
    );
    check(marked, { only });
    checkFix(marked, 'Write f/4', plan('lens: wide @ 24 mm\naperture: f/4'), { only });
    check(plan('lens: wide @ 24 mm\naperture: f/22'), { only });
    check(
      plan(
        'lens: wide @ 24 mm\naperture: f/32\n#         ^^^^ error kit/aperture-beyond-lens: closes only to f/22',
      ),
      { only },
    );
  });

  test('kit/focal-beyond-lens offers the nearest end', () => {
    const marked = plan(
      'lens: wide @ 50 mm\n#     ^^^^^^^^^^^^ error kit/focal-beyond-lens: wide reaches from 16 mm to 35 mm; 50 mm is too long. Write wide @ 35 mm.',
    );
    check(marked, { only });
    checkFix(marked, 'Write wide @ 35 mm', plan('lens: wide @ 35 mm'), { only });
    check(plan('lens: wide @ 16 mm'), { only });
    const kit = smallKit({ lenses: ['{ id: fifty, focal: 50 mm, aperture: f/2 .. f/16, thread: 77 mm }'] });
    check(
      plan(
        'lens: fifty @ 35 mm\n#     ^^^^^^^^^^^^^ error kit/focal-beyond-lens: fifty has 50 mm only; 35 mm is too short. Write fifty @ 50 mm.',
      ),
      { only, kit },
    );
  });

  test('kit/zoom-without-focal offers both ends', () => {
    const marked = plan('lens: wide\n#     ^^^^ hint kit/zoom-without-focal');
    check(marked, { only });
    expect(fixTitles(marked, { only })).toEqual(['Write wide @ 16 mm', 'Write wide @ 35 mm']);
    checkFix(marked, 'Write wide @ 16 mm', plan('lens: wide @ 16 mm'), { only });
    const prime = smallKit({ lenses: ['{ id: wide, focal: 24 mm }'] });
    check(plan('lens: wide'), { only, kit: prime });
  });
});

describe('filter/does-not-fit', () => {
  const nd = (thread: string) => [
    `{ id: nd6, kind: neutral density, strength: 6 stops, thread: ${thread} }`,
    '{ id: square, kind: neutral density, strength: 3 stops, slot: 100 mm }',
    '{ id: grad, kind: graduated, strength: 2 stops, edge: soft, slot: 100 mm }',
  ];
  const lines = (filter: string, mark: string) =>
    `lens: wide @ 24 mm\nfilters: [${filter}]\n${mark === '' ? '' : `#         ${'^'.repeat(filter.length)} error filter/does-not-fit: ${mark}`}`;
  const holder = (ring: string, slot = '100 mm') => `holder: { slots: 2, slot: ${slot}, rings: [${ring}] }`;

  test('says which ring is missing', () => {
    check(plan(lines('nd6', 'a step-up ring 77-82 mm is missing')), {
      only,
      kit: smallKit({ filters: nd('82 mm') }),
    });
    check(plan(lines('nd6', 'it would darken the corners')), {
      only,
      kit: smallKit({ filters: nd('67 mm') }),
    });
    check(plan(lines('nd6', '')), { only, kit: smallKit({ filters: nd('77 mm') }) });
    check(plan(lines('nd6', '')), {
      only,
      kit: smallKit({ filters: nd('82 mm'), more: 'carried: [step-up ring 77-82 mm]' }),
    });
  });

  test('a square filter needs holder, slot and ring', () => {
    const kit = (more: string) => smallKit({ filters: nd('77 mm'), more });
    check(plan(lines('square', 'the kit has no holder')), { only, kit: kit('') });
    check(plan(lines('square', 'the holder takes 150 mm')), { only, kit: kit(holder('77 mm', '150 mm')) });
    check(plan(lines('square', 'a 77 mm ring is missing')), { only, kit: kit(holder('82 mm')) });
    check(plan(lines('square', '')), { only, kit: kit(holder('77 mm')) });
  });

  test('filter/more-than-slots', () => {
    const kit = (slots: number) =>
      smallKit({
        filters: nd('77 mm'),
        more: `holder: { slots: ${slots}, slot: 100 mm, rings: [77 mm] }`,
      });
    check(
      plan(
        'lens: wide @ 24 mm\nfilters: [square, grad]\n#                 ^^^^ error filter/more-than-slots: has one slot, and this shot takes 2',
      ),
      { only, kit: kit(1) },
    );
    check(plan('lens: wide @ 24 mm\nfilters: [square, grad]'), { only, kit: kit(2) });
    check(plan('lens: wide @ 24 mm\nfilters: [square, nd6]'), { only, kit: kit(1) });
  });
});
