import { describe, expect, test } from 'vitest';
import { analysed, check, checkFix, fixTitles, mended, smallKit } from '../support/check.ts';
import { planWithShot as plan } from '../support/plan.ts';

describe('effect/outside-range', () => {
  const only = ['effect/outside-range'];
  const water = { spot: '    water: { kind: cascade }\n' };

  test('the fixes are what the kit can do, written in place', () => {
    const silky = (rest: string, mark = '') =>
      plan(
        `        effect: silky
        lens: wide @ 24 mm
        aperture: f/11
        iso: 64
        metered: 1/13 s         # on the grey rock
${mark}${rest}`,
        water,
      );
    const marked = silky(
      '        start: 06:00\n',
      '        #        ^^^^^^ warning effect/outside-range: too short for “silky” on a cascade (1 s to 15 s). It will look textured. Use nd6: 5 s at f/11.\n',
    );
    check(marked, { only });
    checkFix(marked, 'Use nd6: 5 s at f/11', silky('        filters: [nd6]\n        start: 06:00\n'), {
      only,
    });
  });

  test('in a shot between braces too', () => {
    const text = `plan: A day
date: 2027-03-20
kit: ../kit/field-bag.shootkit.yaml
spots:
  - { id: a, at: "54.4301, -2.6102", water: { kind: cascade }, shots: [{ id: b, effect: silky, aperture: f/11, iso: 64, metered: 1/13 s }] }
`;
    expect(mended(text, 'Use nd6: 5 s at f/11', { only }).text).toContain(
      'metered: 1/13 s, filters: [nd6] }]',
    );
  });

  test('with filters listed in lines of their own, and with CRLF', () => {
    const text = plan(
      `        effect: textured
        lens: wide @ 24 mm
        aperture: f/11
        iso: 64
        metered: 1/8 s
        filters:
          - nd6
        start: 06:00
`,
      water,
    );
    expect(mended(text, 'Use no filter: 1/8 s at f/11', { only }).text).toContain(
      'filters: []\n        start',
    );
    const silky = text.replace('textured', 'silky').replace('        filters:\n          - nd6\n', '');
    expect(mended(silky.replaceAll('\n', '\r\n'), 'Use nd6: 8 s at f/11', { only }).text).toContain(
      'metered: 1/8 s\r\n        filters: [nd6]\r\n        start',
    );
  });

  test('says when nothing does it, and when only averaging does', () => {
    const bright = plan(
      '        effect: mist\n        lens: wide @ 24 mm\n        aperture: f/22\n        iso: 64\n        metered: 1/500 s\n',
      water,
    );
    const kit = smallKit({
      filters: ['{ id: nd6, kind: neutral density, strength: 6 stops, thread: 77 mm }'],
    });
    const found = analysed(bright, { kit }).findings.find(({ code }) => code === only[0]);
    expect(found?.message).toContain('Nothing in the kit reaches that');
    const dimmer = analysed(bright.replace('1/500', '1/20'), { kit }).findings.find(
      ({ code }) => code === only[0],
    );
    expect(dimmer?.message).toMatch(/average \d+ frames of/);
  });

  test('is silent in the range, at its rounded end, and in the plan’s own', () => {
    const text = (effect: string, shutter: string, more = '') =>
      plan(`        effect: ${effect}\n        shutter: ${shutter}\n`, water).replace('kit:', `${more}kit:`);
    check(text('silky', '4 s'), { only });
    check(text('silky', '16 s'), { only });
    check(text('silky', '30 s', 'effects: { silky cascade: 10 s .. 40 s }\n'), { only });
  });
});

describe('effect/streak-too-long', () => {
  const only = ['effect/streak-too-long'];
  const run = (effect: string, shutter: string, mark = '') =>
    plan(
      `        effect: ${effect}
        lens: wide @ 35 mm
        shutter: ${shutter}
${mark}`,
      { spot: '    water: { kind: river, speed: 2 m/s, distance: 10 m }\n' },
    );

  test('counts pixels for frozen water', () => {
    // 35 mm · 2 m/s · 1/500 s / 10 m = 0.014 mm; pixels of 36 mm / 8256 = 4.36 µm: 3.1, for the 1/512 s that the dial keeps.
    check(
      run(
        'frozen',
        '1/500 s',
        '        #        ^^^^^^^ hint effect/streak-too-long: In 1/500 s the water runs over 3.1 pixels\n',
      ),
      { only },
    );
    check(run('frozen', '1/1000 s'), { only });
  });

  test('counts the share of the frame for textured water', () => {
    // 35 · 2 · 1 / 10 = 7 mm of 36 mm: 19 %.
    check(run('textured', '1 s', '        #        ^^^ hint effect/streak-too-long: 19 % of the width\n'), {
      only,
    });
    check(run('textured', '1/2 s'), { only });
    check(run('silky', '4 s'), { only });
  });
});

describe('stars', () => {
  const sky = (effect: string, lines: string) =>
    plan(`        effect: ${effect}
        facing: 0°
        tilt: 30°
        lens: wide @ 16 mm
        aperture: f/4
        iso: 1600
${lines}        start: astronomical dusk + 2 h
`);

  test('around the pole they may trail for longer', () => {
    const only = ['effect/stars-trail'];
    // Simple NPF at 16 mm, f/4, 4.36 µm: (35 · 4 + 30 · 4.36) / 16 = 16.9 s at declination 0°.
    check(sky('star points', '        shutter: 15 s\n'), { only });
    const marked = sky(
      'star points',
      '        shutter: 40 s\n        #        ^^^^ warning effect/stars-trail: the fastest in the frame\n',
    );
    check(marked, { only });
    expect(fixTitles(marked, { only })[0]).toMatch(/^Take \d+ s at ISO \d+$/);
  });

  test('trails of a few degrees are short', () => {
    const only = ['effect/trails-too-short'];
    // 15 min turn the sky by 15.041° / 4 = 3.8°.
    check(
      sky(
        'star trails',
        '        shutter: 15 min\n        #        ^^^^^^ hint effect/trails-too-short: In 15 min the sky turns by 3.8°: short for star trails. 5° take 20 min\n',
      ),
      { only },
    );
    check(sky('star trails', '        shutter: 15 min\n        frames: 2\n'), { only });
  });

  test('a gap shows, and a dark frame is one', () => {
    const only = ['effect/trails-have-gaps'];
    const trails = (more: string) => sky('star trails', `        shutter: 5 min\n        frames: 6\n${more}`);
    check(trails('        gap: 5 s\n        #    ^^^ hint effect/trails-have-gaps: closed for 5 s\n'), {
      only,
    });
    // The frame at 16 mm holds the pole and, at its edge, stars nearer to the equator: 4.36 µm / (16 mm · 7.292e-5 / s · cos δ)
    // is 3.7 s at δ = 0° and longer towards the pole.
    check(trails('        gap: 3 s\n'), { only });
    check(trails('        gap: 1 s\n'), { only });
    const long = (gap: string, mark = '') =>
      trails(`        gap: ${gap}\n${mark}`).replace('wide @ 16 mm', 'tele @ 200 mm').replace('0°', '180°');
    const tele = smallKit({ lenses: ['{ id: tele, focal: 70-200 mm, aperture: f/4 .. f/32 }'] });
    checkFix(
      long(
        '3 s',
        '        #    ^^^ hint effect/trails-have-gaps: closed for 3 s between frames, and stars run over 10 pixels meanwhile\n',
      ),
      'Take a gap of 1 s',
      long('1 s'),
      { only, kit: tele },
    );
    const kit = smallKit({
      bodies: ['{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, noise-reduction: on }'],
    });
    const [found] = analysed(trails(''), { kit }).findings.filter(({ code }) => code === only[0]);
    expect(found?.severity).toBe('warning');
    expect(found?.message).toContain('dark frame');
  });
});

describe('effect/nothing-to-streak', () => {
  const only = ['effect/nothing-to-streak'];
  const under = (hour: string, mark = '') =>
    plan(
      `        effect: cloud streaks
${mark}        lens: wide @ 24 mm
        shutter: 2 min
        start: 10:00
`,
      { forecast: `forecast: { hours: [{ at: 09:00, ${hour} }] }\n` },
    );

  test('hints at a clear and at a closed sky', () => {
    check(under('cloud: 0 %', '        #       ^^^^^^^^^^^^^ hint effect/nothing-to-streak: 0 % cloud\n'), {
      only,
    });
    check(
      under('cloud: 100 %', '        #       ^^^^^^^^^^^^^ hint effect/nothing-to-streak: closed sky\n'),
      { only },
    );
    check(under('cloud: 50 %'), { only });
    check(under('wind: 5 km/h'), { only });
  });

  test('hints at clouds that hardly move', () => {
    // 24 mm · 1 m/s · sin 20° / 2000 m · 120 s = 0.49 mm of 36 mm: 1.4 %.
    check(
      under(
        'cloud: 50 %, cloud-base: 2000 m, wind-aloft: 1 m/s',
        '        #       ^^^^^^^^^^^^^ hint effect/nothing-to-streak: over about 1.4 % of the width\n',
      ),
      { only },
    );
    check(under('cloud: 50 %, cloud-base: 1000 m, wind-aloft: 10 m/s'), { only });
  });
});

describe('scene, bracket and graduated filter', () => {
  const shot = (lines: string) =>
    plan(`        aperture: f/11
        iso: 100
        metered: 1/4 s
${lines}`);

  test('a sky and a foreground give the filter that keeps the sky a stop brighter', () => {
    // 14 − 10.5 − 1 = 2.5 stops: tests/truth/bracketing.yaml, bracketing-05; here on a body of three stops.
    const kit = smallKit({
      bodies: ['{ id: main, sensor: 36 x 24 mm, range: 3 stops }'],
      filters: ['{ id: soft2, kind: graduated, strength: 2 stops, edge: soft }'],
    });
    const marked = shot(`        scene: { sky: EV 14, foreground: EV 10.5 }
        #             ^^^^^ warning filter/range-too-wide: Take a graduated filter of 2 1/2 stops, which keeps the sky 1 stop brighter
`);
    check(marked, { only: ['filter/range-too-wide'], kit });
    expect(mended(marked, 'Use soft2', { only: ['filter/range-too-wide'], kit }).text).toContain(
      'metered: 1/4 s\n        filters: [soft2]\n',
    );
  });

  test('a bracket is put in by the numbers of the table, and then holds', () => {
    // Scene 15, sensor 11, steps of 1.5: 4 frames (bracketing-04); scene 17, sensor 11, steps of 1: 7 (bracketing-03).
    const only = ['filter/range-too-wide', 'exposure/bracket-leaves-gap'];
    const kit = smallKit({ bodies: ['{ id: main, sensor: 36 x 24 mm, range: 11 stops }'] });
    const bare = (mark: string, more = '') => shot(`        scene: { range: 17 stops }\n${mark}${more}`);
    const marked = bare(
      '        #               ^^^^^^^^ warning filter/range-too-wide: or 7 frames 1 stop apart\n',
    );
    expect(mended(marked, 'Bracket 7 frames', { only, kit }).text).toContain(
      'metered: 1/4 s\n        bracket: { frames: 7, step: 1 stop }\n',
    );
    check(bare('', '        bracket: { frames: 7, step: 1 stop }\n'), { only, kit });
    check(
      shot(`        scene: { range: 15 stops }
        bracket: { frames: 3, step: 1 1/2 stops }
        #                  ^ warning exposure/bracket-leaves-gap: holds 14 stops of a scene of 15 stops and leaves out 1 stop. Take a graduated filter of 1 stop with this bracket; or 4 frames
`),
      { only, kit },
    );
  });

  test('a filter that leaves too much is joined by frames, and both are written', () => {
    // Sky and foreground 5 stops apart: 5 − 1 = 4 stops of filter; 17 − 4 on 12 stops leaves 1 + ceil(1 / 1) = 2 frames.
    const only = ['filter/range-too-wide', 'exposure/bracket-leaves-gap'];
    const kit = smallKit({
      filters: [
        '{ id: soft2, kind: graduated, strength: 2 stops, edge: soft }',
        '{ id: soft4, kind: graduated, strength: 4 stops, edge: soft }',
      ],
    });
    const text = (more: string, mark = '') =>
      shot(`${more}        scene: { range: 17 stops, sky: EV 15, foreground: EV 10 }\n${mark}`);
    const marked = text(
      '        filters: [soft2]\n',
      '        #               ^^^^^^^^ warning filter/range-too-wide: 3 stops too many. Take a graduated filter of 4 stops in all, which keeps the sky 1 stop brighter, and 2 frames 1 stop apart: 1/5 s, 0.4 s, 1 s in all; or 4 frames 1 stop apart\n',
    );
    check(marked, { only, kit });
    const { text: after } = mended(marked, 'Use soft4 and bracket 2 frames', { only, kit });
    expect(after).toContain('filters: [soft4]');
    check(after, { only, kit });
  });

  test('no filter stronger than is to be had is asked for', () => {
    const only = ['filter/range-too-wide'];
    const text = (stops: string, part: string) =>
      shot(`        scene: { range: ${stops} }\n        #               ^^^^^^^^ warning ${part}\n`);
    check(
      text(
        '18 stops',
        'filter/range-too-wide: Take a graduated filter of 4 stops, the strongest to be had, and',
      ),
      { only },
    );
    const settings = { thresholds: new Map([['strongest-graduated', 6]]) };
    check(text('18 stops', 'filter/range-too-wide: Take a graduated filter of 6 stops; or 7 frames'), {
      only,
      settings,
    });
  });

  test('a bracket that the body cannot hold open for is no mend', () => {
    // 1/4 s through ten stops is 256 s; four frames two stops apart end at 256 · 2^3 = 2048 s, past the 30 min of bulb by
    // log2(2048 / 1800) = 0.19 stop, a third on the dial.
    const only = ['exposure/bracket-leaves-gap'];
    const kit = smallKit({
      filters: [
        '{ id: nd10, kind: neutral density, strength: 10 stops }',
        '{ id: soft2, kind: graduated, strength: 2 stops, edge: soft }',
      ],
    });
    const text = (filters: string, mark = '') =>
      shot(`        filters: ${filters}
        bracket: { frames: 3, step: 2 stops }
${mark}        scene: { range: 18 stops }
`);
    const marked = text(
      '[nd10]',
      '        #                  ^ warning exposure/bracket-leaves-gap: Take a graduated filter of 2 stops with this bracket; or 4 frames 2 stops apart, of which the longest would take 34 min, longer than the body can: expose 1/3 stop less first\n',
    );
    check(marked, { only, kit });
    expect(fixTitles(marked, { only, kit })).toEqual(['Use soft2']);
    checkFix(marked, 'Use soft2', text('[nd10, soft2]'), { only, kit });
  });

  test('a bracket in lines of its own keeps them and its comments', () => {
    const only = ['exposure/bracket-leaves-gap'];
    const text = (frames: string, mark = '') =>
      shot(`        bracket:
          frames: ${frames}   # as last year
${mark}          step: 1 stop
        scene: { range: 16 stops }
`);
    const marked = text('3', '          #       ^ warning exposure/bracket-leaves-gap: leaves out 2 stops\n');
    checkFix(marked, 'Bracket 5 frames', text('5'), { only });
  });

  test('an estimate is marked, and counts only beyond its ±', () => {
    // Into the sun at 17:30 the sky is about 5 stops brighter than the ground, by ISO 15469 (tests/schedule/picture.test.ts).
    const only = ['filter/range-too-wide'];
    const text = (mark = '') =>
      plan(
        `        facing: 265°
        lens: wide @ 24 mm
        scene: { horizon: straight }
${mark}        start: 17:30
`,
        { forecast: 'forecast: { hours: [{ at: 17:00, cloud: 0 % }] }\n' },
      );
    const body = (range: string) =>
      smallKit({ bodies: [`{ id: main, sensor: 36 x 24 mm, range: ${range} }`], filters: [] });
    check(
      text(
        '        #        ^^^^^^^ warning filter/range-too-wide: (sky EV 16.7, estimated; foreground EV 11.3, estimated), the body holds 3 stops: about 2.4 stops too many\n',
      ),
      {
        only,
        kit: body('3 stops'),
      },
    );
    check(text(), { only, kit: body('5 stops') });
  });

  test('a frame beyond the dial of a body without bulb is found', () => {
    const only = ['exposure/bracket-beyond-dial'];
    const kit = smallKit({
      bodies: ['{ id: main, sensor: 36 x 24 mm, shutter: 1/8000 s .. 30 s, bulb: no }'],
    });
    const text = (frames: string, mark = '') =>
      plan(`        aperture: f/11
        metered: 15 s
        bracket: { frames: ${frames}, step: 2 stops }
${mark}`);
    check(text('3', '        #                  ^ warning exposure/bracket-beyond-dial: 1 min\n'), {
      only,
      kit,
    });
    check(text('1'), { only, kit });
    check(text('3'), { only });
  });

  describe('what moves gives ghosts', () => {
    const only = ['effect/moves-between-frames'];
    const mark = (part: string) => `        #                  ^ hint effect/moves-between-frames: ${part}\n`;
    const text = (lines: string, { part = '', spot = '', forecast = '' } = {}) =>
      plan(
        `        aperture: f/11
        iso: 100
        lens: wide @ 24 mm
        facing: 0°
        metered: 1/4 s
${lines}        bracket: { frames: 3 }
${part}        start: 10:00
`,
        { spot, forecast: forecast === '' ? '' : `forecast: { hours: [{ at: 09:00, ${forecast} }] }\n` },
      );

    test('by the look that is meant; silk and mist merge (common practice, no source)', () => {
      check(text('        effect: textured\n', { part: mark('The strands of the water stand elsewhere') }), {
        only,
      });
      check(text('        effect: silky\n'), { only });
      check(text(''), { only });
      // Twelve stops of body hold eleven of scene: nothing needs to be merged.
      check(text('        effect: textured\n        scene: { range: 11 stops }\n'), { only });
    });

    // 1/8, 1/4 and 1/2 s: from the middle of the first to that of the last 7/8 − (1/8 + 1/2) / 2 = 0.5625 s.
    const seconds = 0.5625;

    test('water, by speed and distance', () => {
      const water = (speed: string) =>
        `    water: { kind: river, state: running, speed: ${speed}, distance: 20 m }\n`;
      // Thin-lens geometry: 24 mm · 1 m/s · 0.5625 s / 20 m = 0.675 mm, over pixels of 4.36 µm: 155.
      expect((24 * 1 * seconds * 8256) / (20 * 36)).toBeCloseTo(154.8, 1);
      const part = mark(
        'The strands of the water (about 155 pixels from the first to the last) stand elsewhere',
      );
      check(text('        effect: textured\n', { part, spot: water('1 m/s') }), { only });
      check(
        text('', {
          part: mark('The waves and strands of the water (about 155 pixels'),
          spot: water('1 m/s'),
        }),
        { only },
      );
      // 1 cm/s moves by 1.5 pixels: no ghost. At 40 m/s the shortest frame draws 24 · 40 / 8 / 20 = 6 mm, 17 % of 36 mm: silk.
      check(text('        effect: textured\n', { spot: water('0.01 m/s') }), { only });
      check(text('', { spot: water('40 m/s') }), { only });
      check(text('', { spot: water('1 m/s').replace('running', 'dry') }), { only });
    });

    test('clouds, by the forecast, without any effect', () => {
      // 24 mm · 20 m/s · sin 20° / 1000 m · 0.5625 s = 0.0923 mm: 21 pixels.
      const pixels = (24 * 20 * Math.sin((20 * Math.PI) / 180) * seconds * 8256) / (1000 * 36);
      expect(pixels).toBeCloseTo(21.2, 1);
      const moving = 'cloud: 40 %, wind-aloft: 20 m/s, cloud-base: 1000 m';
      check(
        text('', {
          part: mark(
            'The clouds (40 % by the forecast; about 21 pixels from the first to the last) stand elsewhere',
          ),
          forecast: moving,
        }),
        { only },
      );
      check(text('', { forecast: moving.replace('20 m/s', '1 m/s') }), { only });
      check(text('', { forecast: moving.replace('40 %', '100 %') }), { only });
      check(text('', { forecast: moving.replace('40 %', '0 %') }), { only });
      check(text('        tilt: -40°\n', { forecast: moving }), { only });
    });

    test('clouds of which the speed is not known, in a bracket that takes longer than a second', () => {
      check(text('', { forecast: 'cloud: 40 %' }), { only });
      const slow = text('', {
        part: mark('The clouds (40 % by the forecast) stand elsewhere'),
        forecast: 'cloud: 40 %',
      });
      check(slow.replace('1/4 s', '2 s'), { only });
    });

    test('stars, by the turn of the sky', () => {
      // 8, 15 and 30 s on the dial are 8, 16 and 32 s: 56 − 20 = 36 s. A pixel takes 4.36 µm / (24 mm · 7.292e-5) = 2.49 s at
      // the equator of the sky; south and level the frame reaches it: 14.4 pixels.
      const sky = text('        effect: star points\n', {
        part: mark('The stars (about 14 pixels from the first to the last)'),
      });
      check(
        sky
          .replace('1/4 s', '16 s')
          .replace('facing: 0°', 'facing: 180°\n        tilt: 25°')
          .replace('10:00', '21:00'),
        { only },
      );
    });
  });

  test('a reverse filter needs a sun on the horizon', () => {
    const only = ['filter/reverse-without-sun'];
    const kit = smallKit({ filters: ['{ id: rev, kind: graduated, strength: 3 stops, edge: reverse }'] });
    const text = (facing: string, start: string, mark = '') =>
      plan(`        facing: ${facing}
        lens: wide @ 24 mm
        filters: [rev]
${mark}        start: ${start}
`);
    check(text('92°', 'sunrise + 10 min'), { only, kit });
    check(
      text('180°', '12:00', '        #         ^^^ hint filter/reverse-without-sun: The sun stands 35\n'),
      {
        only,
        kit,
      },
    );
  });
});

describe('polarizers', () => {
  test('on a panorama darken each frame differently', () => {
    const only = ['filter/polarizer-panorama'];
    const text = (filters: string, mark = '', cloud = '10 %') =>
      plan(
        `        facing: 0°
        lens: wide @ 24 mm
        filters: ${filters}
${mark}        sweep: 120°
        start: 10:00
`,
        { forecast: `forecast: { hours: [{ at: 09:00, cloud: ${cloud} }] }\n` },
      );
    const marked = text(
      '[pol, nd6]',
      '        #         ^^^ warning filter/polarizer-panorama: the 2 frames\n',
    );
    check(marked, { only });
    checkFix(marked, 'Take the polarizer off', text('[nd6]'), { only });
    check(text('[pol]', '', '100 %'), { only });
  });

  test('can erase a rainbow that falls into the frame', () => {
    const only = ['filter/erases-rainbow'];
    // At 08:00 the sun stands 15° high at 111°: the bow stands around 291°, its top at 27°.
    const text = (facing: string, kind: string, mark = '') =>
      plan(
        `        facing: ${facing}
        tilt: 5°
        lens: wide @ 16 mm
        filters: [pol]
${mark}        start: 08:00
`,
        { spot: `    water: { kind: ${kind} }\n` },
      );
    check(
      text(
        '291°',
        'waterfall',
        '        #         ^^^ hint filter/erases-rainbow: The polarizer can erase it\n',
      ),
      { only },
    );
    check(text('111°', 'waterfall'), { only });
    check(text('291°', 'lake'), { only });
  });
});
