import { describe, expect, test } from 'vitest';
import { analysed, check, checkFix, mended, smallKit } from '../support/check.ts';
import { planWithShot as plan } from '../support/plan.ts';

describe('focus/not-sharp', () => {
  const only = ['focus/not-sharp'];
  const lens = (aperture: string, focus: string, nearest: string, mark = '') =>
    plan(`        lens: wide @ 24 mm
        aperture: ${aperture}
        focus: ${focus}
        nearest: ${nearest}
${mark}`);
  // H = 24² / (11.3 · 0.03) + 24 = 1.72 m; focused at 5 m, near = 5 · 1.70 / (1.72 + 5 − 0.05) = 1.27 m.
  const mark =
    '        #        ^^^ warning focus/not-sharp: The nearest thing, at 1 m, lies before the sharp zone, which begins at 1.3 m at f/11, focused at 5 m (hyperfocal distance 1.7 m). Focus at 2 m.\n';

  test('says where sharpness begins, and where to focus', () => {
    check(lens('f/11', '5 m', '1 m', mark), { only });
    checkFix(lens('f/11', '5 m', '1 m', mark), 'Focus at 2 m', lens('f/11', '2 m', '1 m'), { only });
  });

  test('asks for a smaller aperture or a stack where focusing alone does not do', () => {
    // Near 0.7 m to infinity: focus at 1.4 m, H = 1.4 m, f/14 at 24 mm and 0.03 mm.
    const marked = lens(
      'f/8',
      '5 m',
      '70 cm',
      '        #        ^^^^^ warning focus/not-sharp: Focus at 1.4 m at f/14, or stack 2 frames focused at 0.98 m, 2.7 m\n',
    );
    check(marked, { only });
    checkFix(marked, 'Focus at 1.4 m at f/14', lens('f/14', '1.4 m', '70 cm'), { only });
  });

  test('is silent when sharp, and when something is not known', () => {
    check(lens('f/11', '2 m', '1 m'), { only });
    // From 1 m to infinity at 24 mm: H = 2 · 1 m, f/9.7 and more do.
    check(lens('f/11', '5 m', '1 m').replace('        focus: 5 m\n', ''), { only });
    // A focus that cannot be read is not taken for none.
    check(lens('f/4', 'half', '50 cm'), { only });
    check(lens('f/11', '5 m', '1 m').replace(' @ 24 mm', ''), { only });
  });

  describe('without a focus', () => {
    const free = (aperture: string, nearest: string, mark = '', more = '') =>
      plan(`        lens: wide @ 35 mm
        aperture: ${aperture}
        nearest: ${nearest}
${mark}${more}`);

    test('looks whether any focus holds the nearest thing and infinity in one frame', () => {
      // Focused at 1 m, H must be 1 m: N = 35² / (0.03 · 965) = 42.3, beyond f/22. At f/5.6, H = 7.25 m.
      const marked = free(
        'f/5.6',
        '0.5 m',
        '        #        ^^^^^ warning focus/not-sharp: From 0.5 m to infinity is more than one frame holds at f/5.6 and 35 mm, wherever it is focused (hyperfocal distance 7.3 m). Stack 10 frames focused at 0.53 m, 0.6 m\n',
      );
      const { findings } = check(marked, { only });
      expect(findings.find(({ code }) => code === only[0])?.facts.neededFNumber).toBeCloseTo(42.3, 0);
      check(free('f/16', '1.5 m'), { only });
    });

    test('goes to the subject where its distance is given', () => {
      // 1 to 2 m: focused at 1.33 m, 1/near − 1/far = 0.5 = 2·(s − f)/(s·(H − f)), so H = 3.93 m, N = 35²/(0.03·3895) = 10.5.
      const to = (aperture: string, mark = '') =>
        free(aperture, '1 m', mark, '        subject: { distance: 2 m }\n');
      const marked = to(
        'f/4',
        '        #        ^^^ warning focus/not-sharp: From 1 m to the subject at 2 m is more than one frame holds at f/4 and 35 mm, wherever it is focused (hyperfocal distance 10 m). Focus at 1.3 m at f/11, or stack\n',
      );
      check(marked, { only });
      check(to('f/11'), { only });
      check(mended(marked, 'Focus at 1.3 m at f/11', { only }).text, { only });
    });

    test('is silent with frames enough for the stack that it asks for', () => {
      const found = analysed(free('f/8', '0.7 m')).findings.find(({ code }) => code === only[0]);
      const frames = Number(/tack (\d+) frames/.exec(found?.message ?? '')?.[1]);
      expect(frames).toBeGreaterThan(1);
      check(free('f/8', '0.7 m', '', `        frames: ${frames}\n`), { only });
    });

    test('stacks nothing nearer than the lens focuses, and nothing without end', () => {
      const near = free(
        'f/5.6',
        '0.3 m',
        '        #        ^^^^^ warning focus/not-sharp: Step back, or take a shorter lens.\n',
      );
      const kit = smallKit({
        lenses: ['{ id: wide, focal: 16-35 mm, aperture: f/4 .. f/22, closest: 0.5 m }'],
      });
      check(near, { only, kit });
    });
  });

  test('finds a subject behind the sharp zone', () => {
    check(
      plan(`        lens: wide @ 35 mm
        aperture: f/4
        focus: 2 m
        #      ^^^ warning focus/not-sharp: The subject, at 20 m, lies behind the sharp zone
        subject: { distance: 20 m }
`),
      { only },
    );
  });
});

describe('focus/diffraction', () => {
  const only = ['focus/diffraction'];

  test('is silent at f/11, and sets aperture and filter together', () => {
    const text = (aperture: string, rest: string) =>
      plan(`        lens: wide @ 24 mm
        aperture: ${aperture}
${rest}`);
    check(text('f/11', '        metered: 1/2 s\n'), { only });
    const kit = smallKit({
      filters: ['{ id: nd3, kind: neutral density, strength: 3 stops, thread: 77 mm }'],
    });
    const marked = text(
      'f/22',
      '        #         ^^^^ hint focus/diffraction: f/8 with nd3\n        metered: 1/2 s\n',
    );
    // The reading was taken at f/22, and says so once the aperture is another.
    checkFix(
      marked,
      'Use nd3 at f/8',
      text('f/8', '        metered: 1/2 s @ f/22\n        filters: [nd3]\n'),
      { only, kit },
    );
  });
});

describe('focus/shake', () => {
  const only = ['focus/shake'];
  const on = (stance: string, shutter: string, mark = '', wind = '5 km/h') =>
    plan(
      `        lens: wide @ 24 mm
        aperture: f/11
        shutter: ${shutter}
${mark}        start: 06:00
`,
      {
        spot: `    stance: { on: ${stance} }\n`,
        forecast: `forecast: { hours: [{ at: 05:00, wind: ${wind} }] }\n`,
      },
    );

  test('warns of moving ground and long times, hints at sinking sand', () => {
    check(
      on('pier', '30 s', '        #        ^^^^ warning focus/shake: a pier shakes under steps and waves\n'),
      {
        only,
      },
    );
    check(on('sand', '30 s', '        #        ^^^^ hint focus/shake: legs sink in sand\n'), { only });
  });

  test('is silent on firm ground, for short times, and in a breeze', () => {
    check(on('rock', '30 s'), { only });
    check(on('pier', '1/100 s'), { only });
    check(on('ground', '30 s', '', '25 km/h'), { only });
  });

  describe('adds up what is weak by itself', () => {
    const tele = (stance: string, more = '', mark = '') =>
      plan(
        `        lens: tele @ 200 mm
        aperture: f/11
        shutter: 158 s
${mark}        start: 06:00
`,
        { spot: `    stance: { on: ${stance}${more} }\n` },
      );
    const kit = (more: string, focal = '70-200 mm') =>
      smallKit({ lenses: [`{ id: tele, focal: ${focal}, aperture: f/4 .. f/32 }`], more });
    const hint = (part: string) => `        #        ^^^^^ hint focus/shake: ${part}\n`;

    test('a wall and a long lens, without any wind', () => {
      // A pixel of 36 mm / 8256 = 4.36 µm at 200 mm: 4.36e-6 / 0.2 rad = 4.5 arc-seconds.
      check(tele('wall', '', hint('2 min 38 s at 200 mm: a wall carries the shake of steps')), {
        only,
        kit: kit(''),
      });
      check(
        tele(
          'rock',
          '',
          hint('so long a lens shows every movement, and a swing of 4.5 arc-seconds is a pixel'),
        ),
        {
          only,
          kit: kit(''),
        },
      );
      const settings = { thresholds: new Map([['shake-focal', 300]]) };
      check(tele('rock'), { only, kit: kit(''), settings });
    });

    test('a tripod nearly full out, but not one that is too low anyway', () => {
      const tripod = kit('tripod: { height: 1.75 m }');
      const settings = { thresholds: new Map([['shake-focal', 300]]) };
      check(
        tele(
          'ground',
          ', height-needed: 1.6 m',
          hint('the camera must stand 1.60 m high and the tripod reaches 1.75 m: full out it is least stiff'),
        ),
        { only, kit: tripod, settings },
      );
      check(tele('ground', ', height-needed: 1.5 m'), { only, kit: tripod, settings });
      check(tele('ground', ', height-needed: 1.9 m'), { only, kit: tripod, settings });
    });

    test('a hand on the release, where the dial still has the time', () => {
      const settings = { thresholds: new Map([['shake-focal', 300]]) };
      const text = (mark = '') => tele('ground', '', mark).replace('158 s', '1/2 s');
      check(text(hint('a hand on the release shakes the camera')), {
        only,
        kit: kit('carried: [headlamp]'),
        settings,
      });
      check(text(), { only, kit: kit('carried: [remote release]'), settings });
      check(text(), { only, kit: kit(''), settings });
      check(tele('ground'), { only, kit: kit('carried: [headlamp]'), settings });
    });
  });

  test('warns of wind above the threshold', () => {
    const windy = on(
      'ground',
      '30 s',
      '        #        ^^^^ warning focus/shake: wind of 35 km/h\n',
      '35 km/h',
    );
    check(windy, { only });
    check(
      windy.replace(/ +# +\^.*\n/, '').replace('timezone', 'thresholds: { shake-wind: 40 km/h }\ntimezone'),
      { only },
    );
  });
});

describe('focus/subject-outside-frame', () => {
  const only = ['focus/subject-outside-frame'];
  // A degree of longitude is 64.9 km at this latitude: the tower stands 3.2 km east, at 90°.
  const text = (facing: string, mark = '', more = '') =>
    plan(`        facing: ${facing}
${mark}        subject: { at: "54.4301, -2.5602"${more} }
        lens: wide @ 24 mm
        start: 06:00
`);

  test('says where the subject stands, and can turn there', () => {
    const marked = text(
      '20°',
      '        #       ^^^ warning focus/subject-outside-frame: The subject stands at 090°, 70° to the right of the lens axis; the frame reaches 36.9° to each side. Face 090°, or take a wider lens.\n',
    );
    check(marked, { only });
    checkFix(marked, 'Face 090°', text('090° true'), { only });
  });

  test('is silent in the frame, and found from the subject', () => {
    check(text('70°'), { only });
    check(text('70°').replace(/ {8}facing.*\n/, ''), { only });
  });

  test('looks up and down only where both elevations are known', () => {
    const high = text('90°', '', ', height: 10 m, elevation: 2800 m');
    check(high, { only });
    const found = analysed(high.replace('    shots', '    elevation: 200 m\n    shots')).findings;
    // atan(2605 / 3240) is 38.8°, and the frame reaches to 26.6°.
    expect(found.find(({ code }) => code === only[0])?.message).toContain(
      'stands 38.8° above the horizontal',
    );
  });
});

describe('kit/tripod-too-low', () => {
  const text = (needed: string, mark = '') =>
    plan('', { spot: `    stance: { height-needed: ${needed} }\n${mark}` }).replace(/ {4}shots:[\s\S]*$/, '');
  const kit = smallKit({ more: 'tripod: { height: 1.75 m }' });

  test('says by how much', () => {
    check(
      text(
        '1.9 m',
        '    #                        ^^^^^ warning kit/tripod-too-low: The camera must be 1.9 m high here, the tripod reaches 1.75 m: 15 cm too low.\n',
      ),
      { only: ['kit/tripod-too-low'], kit },
    );
    check(text('1.75 m'), { only: ['kit/tripod-too-low'], kit });
    check(text('1.9 m'), { only: ['kit/tripod-too-low'] });
  });
});

describe('time/sweep-without-lens', () => {
  test('hints where the frames of a sweep cannot be counted', () => {
    const only = ['time/sweep-without-lens'];
    check(
      plan(
        '        sweep: 120°\n        #      ^^^^ hint time/sweep-without-lens: the focal length is not known\n',
      ),
      { only },
    );
    check(plan('        sweep: 120°\n        lens: wide @ 24 mm\n'), { only });
  });
});
