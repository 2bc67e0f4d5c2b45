import { Body, Equator, Horizon, Observer } from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import { rules } from '../../server/checks/list.ts';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlayHints.ts';
import { analysed, check, checkFix, fixTitles, mended, smallKit } from '../support/check.ts';
import { planWithShot as plan } from '../support/plan.ts';

const cloud = (share: string) =>
  `forecast: { hours: [{ at: 05:00, cloud: ${share} }, { at: 11:00, cloud: ${share} }] }\n`;

describe('light/differs-from-expected', () => {
  const only = ['light/differs-from-expected'];
  const at = (metered: string, mark = '') =>
    plan(
      `        aperture: f/16
        iso: 100
        metered: ${metered}
${mark}        start: 12:00
`,
      { forecast: cloud('0 %') },
    );

  test('is silent for the sunny rule at noon', () => {
    // Full sun: 1/ISO at f/16, EV 14.6 (common practice, no source); in March at 36° about EV 14.
    check(at('1/100 s'), { only });
  });

  test('says both and by how much when the reading is far off', () => {
    // f/16 and 1 s are EV 8.
    check(
      at(
        '1 s',
        '        #        ^^^ warning light/differs-from-expected: The meter says EV 8, but about EV 14\n',
      ),
      { only },
    );
  });

  test('takes the markings for what they stand for: f/11 is 11.31 (ISO 517)', () => {
    // log2(11.314² / 1) = 7.00; with 11 as it stands EV 6.9 would be said.
    const text = at('1 s').replace('f/16', 'f/11');
    const found = analysed(text).findings.find(({ code }) => code === only[0]);
    expect(found?.facts.ev100).toBeCloseTo(7, 9);
  });

  test('is silent without a reading, and while the start is not known', () => {
    check(at('1 s').replace(/ {8}metered.*\n/, ''), { only });
    check(at('1 s').replace('start: 12:00', 'start: sunris'), { only });
  });
});

describe('exposure/differs-from-expected', () => {
  const only = ['exposure/differs-from-expected'];
  const at = (shutter: string, mark = '', more = '') =>
    plan(
      `        aperture: f/16
        iso: 100
        shutter: ${shutter}
${mark}${more}        start: 12:00
`,
      { forecast: cloud('0 %') },
    );

  test('is silent for the sunny rule at noon', () => {
    // Full sun: 1/ISO at f/16, EV 14.6 (common practice, no source); in March at 36° about EV 14.
    check(at('1/100 s'), { only });
  });

  test('says by how much a stated time is off, and the mend ends it', () => {
    // 1/100 s would do, so 4 s is log2(400) = 8.6 stops too bright; about nine, with a sun at 36°.
    const marked = at(
      '4 s',
      '        #        ^^^ warning exposure/differs-from-expected: stops too bright for the light that is expected at 12:00\n',
    );
    const { findings } = check(marked, { only });
    const facts = findings.find(({ code }) => code === only[0])?.facts;
    expect(facts?.differenceStops).toBeGreaterThan(7.6);
    expect(facts?.differenceStops).toBeLessThan(9.1);
    const [title] = fixTitles(marked, { only });
    check(mended(marked, title as string, { only }).text, { only });
  });

  test('counts filters, and is silent with a reading, for stars and without an aperture', () => {
    // Six stops make it 2.6, within two stops and the ± of 0.5.
    check(at('1/2 s', '', '        filters: [nd6]\n'), { only });
    check(at('4 s', '', '        metered: 1/100 s\n'), { only });
    check(at('4 s', '', '        effect: star points\n'), { only });
    check(at('4 s').replace('        aperture: f/16\n', ''), { only });
  });

  test('the hint and the hover say it as an estimate', () => {
    const analysis = analysed(at('4 s'));
    expect(inlayHints(analysis).map(({ label }) => label)).toContainEqual(
      expect.stringMatching(/^about \+8\.\d stops against the light expected, ± 0\.\d$/),
    );
    const markdown = hover(analysis, analysis.text.indexOf('shutter') + 10, rules)?.markdown;
    expect(markdown).toMatch(
      /as written: about \+8\.\d stops against the .* that the expected light asks for/,
    );
  });
});

describe('exposure/against-meter', () => {
  const only = ['exposure/against-meter'];
  const at = (shutter: string, mark = '') =>
    plan(`        aperture: f/11
        iso: 64
        metered: 1/60 s
        filters: [nd6]
        shutter: ${shutter}
${mark}`);

  test('a stated time that the reading contradicts is told, and the mend ends it', () => {
    // 1/60 s through six stops is 1.07 s (t × 2^stops, ISO 2720); 30 s is 32 s: log2(32 / 1.07) = 4.9.
    const marked = at(
      '30 s',
      '        #        ^^^^ warning exposure/against-meter: 30 s is 4.9 stops more than meter and filters ask for: 1 s.\n',
    );
    check(marked, { only });
    checkFix(marked, 'Set 1 s, as metered', at('1 s'), { only });
  });

  test('a stop either way is a matter of taste', () => {
    for (const shutter of ['0.8 s', '1.3 s', '2.5 s']) check(at(shutter), { only });
    check(
      at(
        '1/4 s',
        '        #        ^^^^^ warning exposure/against-meter: less than meter and filters ask for\n',
      ),
      {
        only,
      },
    );
  });
});

describe('light/behind-skyline', () => {
  const only = ['light/behind-skyline'];
  const east = (facing: string, start: string, mark = '', forecast = '') =>
    plan(
      `        facing: ${facing}
        lens: wide @ 24 mm
        start: ${start}
${mark}`,
      { spot: '    skyline: { E: 10°, S: 4° }\n', forecast },
    );
  const marked = east(
    '95°',
    'sunrise + 20 min',
    '        #      ^^^^^^^^^^^^^^^^ warning light/behind-skyline: behind a skyline of\n',
  );

  test('warns where the lens looks for the sun, and can start later', () => {
    check(marked, { only });
    checkFix(marked, 'Start when the sun has cleared the skyline', east('95°', 'sun clears skyline'), {
      only,
    });
  });

  test('is a hint with the sun aside and a start by sunrise', () => {
    check(
      east(
        '20°',
        'sunrise + 20 min',
        '        #      ^^^^^^^^^^^^^^^^ hint light/behind-skyline: It clears the skyline at\n',
      ),
      { only },
    );
  });

  test('says when the sun went behind it in the afternoon', () => {
    const west = east(
      '265°',
      '18:00',
      '        #      ^^^^^ warning light/behind-skyline: again on this day; it went behind it at 17:',
    ).replace('{ E: 10°, S: 4° }', '{ W: 8° }');
    check(`${west}\n`, { only });
  });

  test('is silent away from the sun, once the sun is there, under cloud, and without a skyline', () => {
    check(east('280°', 'sunrise + 20 min'), { only });
    check(east('95°', 'sunrise + 3 h'), { only });
    check(east('95°', 'sunrise + 20 min', '', cloud('100 %')), { only });
    check(marked.replace(/ {4}skyline.*\n/, '').replace(/ +# +\^.*\n/, ''), { only });
  });
});

describe('exposure/drift', () => {
  const only = ['exposure/drift'];
  const dusk = (start: string, metered: string) =>
    plan(`        aperture: f/8
        metered: ${metered}
        filters: [nd6]
        start: ${start}
`);

  test('can set the time that collects the light', () => {
    const text = dusk('sunset + 15 min', '5 s');
    const { findings } = analysed(text);
    const drift = findings.find(({ code }) => code === 'exposure/drift');
    const seconds = drift?.facts.driftSeconds as number;
    expect(seconds).toBeGreaterThan(320);
    expect(drift?.facts.driftStops).toBeCloseTo(Math.log2(seconds / 320), 9);
  });

  test('is silent at noon, for short times and for a time that is stated', () => {
    check(dusk('12:00', '5 s'), { only });
    check(dusk('sunset + 15 min', '1/30 s'), { only });
    check(
      dusk('sunset + 15 min', '5 s').replace('        filters', '        shutter: 6 min\n        filters'),
      {
        only,
      },
    );
  });
});

describe('a shutter that is held while the light changes', () => {
  const dusk = (start: string, metered: string) =>
    plan(`        aperture: f/8
        metered: ${metered}
        filters: [nd6]
        start: ${start}
`);
  const kit = (body: string) =>
    smallKit({ bodies: [`{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, ${body} }`] });

  test('takes the time that collects the light: in the battery, on the clock, against the body’s limit', () => {
    const text = dusk('sunset + 15 min', '5 s');
    const long = analysed(text).findings.find(({ code }) => code === 'exposure/drift');
    const drifted = Math.round(long?.facts.driftSeconds as number);
    expect(drifted).toBeGreaterThan(400);
    // The plain time is 320 s. With a limit of 6 min that fits, and what must be held does not.
    const { findings, day } = analysed(text, { kit: kit('bulb: up to 6 min, battery: 6 min') });
    const shot = day?.shots[0];
    expect(shot?.exposure?.setting.seconds).toBe(320);
    expect(shot?.frames?.openSeconds).toBe(drifted);
    expect(((shot?.endMs as number) - (shot?.startMs as number)) / 1000).toBe(drifted);
    const facts = (code: string) => findings.find((finding) => finding.code === code)?.facts;
    expect(facts('exposure/bulb-limit')).toMatchObject({ seconds: drifted, limitSeconds: 360 });
    expect(facts('kit/battery')).toMatchObject({ openSeconds: drifted, heldSeconds: 360 });
    // A time that the body cannot hold is not offered.
    expect(facts('exposure/drift')?.mends).toEqual([]);
  });

  test('takes the plain time where both differ by less than the threshold', () => {
    const { day } = analysed(dusk('sunset + 15 min', '1 s'), { kit: kit('bulb: up to 6 min') });
    const shot = day?.shots[0];
    expect(shot?.exposure?.drift?.stops).toBeGreaterThan(0.05);
    expect(shot?.frames?.openSeconds).toBe(shot?.exposure?.setting.seconds);
  });
});

describe('exposure/never-completes', () => {
  const codes = ['exposure/never-completes', 'exposure/bulb-limit'];
  const dusk = (metered: string) =>
    plan(`        aperture: f/8
        iso: 64
        metered: ${metered}
        filters: [nd6]
        start: sunset + 30 min
`);
  const kit = (bulb: string) =>
    smallKit({ bodies: [`{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, bulb: ${bulb} }`] });
  const body = (bulb: string) => ({ only: codes, kit: kit(bulb) });

  test.each([
    ['EV 3', 'up to 240 min'],
    ['EV 3', 'up to 30 min'],
    ['20 s', 'up to 20 min'],
    ['20 s @ f/8, ISO 64', 'up to 240 min'],
  ])('%s on a body that holds its shutter open %s: the mend ends it, within that limit', (metered, bulb) => {
    const text = dusk(metered);
    const { findings } = analysed(text, body(bulb));
    const never = findings.find(({ code }) => code === codes[0]);
    expect(never?.severity).toBe('error');
    const titles = fixTitles(text, body(bulb));
    expect(titles).toHaveLength(1);
    const after = mended(text, titles[0] as string, body(bulb)).text;
    // The reading of the old start does not hold at the new one: it is written as the light model gives it.
    expect(after).not.toContain(`metered: ${metered}\n`);
    const again = analysed(after, body(bulb));
    expect(again.findings.map(({ code }) => code).filter((code) => codes.includes(code))).toEqual([]);
    const limitSeconds = Number(/\d+/.exec(bulb)?.[0]) * 60;
    expect(again.day?.shots[0]?.frames?.openSeconds).toBeLessThanOrEqual(limitSeconds);
  });
});

describe('exposure/panorama-drift', () => {
  const sweep = (start: string) =>
    plan(`        facing: 270°
        lens: wide @ 24 mm
        aperture: f/8
        shutter: 60 s
        sweep: 180°
        start: ${start}
`);

  test('hints at dusk and is silent at noon', () => {
    const found = (start: string) =>
      analysed(sweep(start)).findings.filter(({ code }) => code === 'exposure/panorama-drift');
    expect(found('12:00')).toEqual([]);
    const [hint] = found('sunset + 10 min');
    expect(hint?.severity).toBe('hint');
    expect(hint?.message).toContain('the light fades by');
    // 24 mm covers 73.7° of 36 mm: 1 + ceil((180 − 73.7) / 51.6) = 4 frames.
    expect(hint?.facts.columns).toBe(4);
  });
});

describe('light/moon-among-stars', () => {
  const only = ['light/moon-among-stars'];
  // The full moon of 2027-03-22 (10:44 UT, as in the almanac): on the evening of the 21st it is nearly full.
  const night = (effect: string, date: string, mark = '') =>
    plan(`        effect: ${effect}
        start: 23:00
${mark}`).replace('2027-03-20', date);

  test('hints at a bright moon, for stars only', () => {
    check(
      night(
        'star points',
        '2027-03-21',
        '        #      ^^^^^ hint light/moon-among-stars: faint stars will drown\n',
      ),
      { only },
    );
    check(night('silky', '2027-03-21'), { only });
  });

  describe('looks at the whole shot', () => {
    // The moon as astronomy-engine has it, whose positions rest on other series than those of this program.
    const moonAt = (instantMs: unknown) => {
      const when = new Date(instantMs as number);
      const observer = new Observer(54.4301, -2.6102, 0);
      const { ra, dec } = Equator(Body.Moon, when, observer, true, true);
      return Horizon(when, observer, ra, dec, 'normal');
    };
    const trails = (start: string, frames: number, more = '', spot = '') =>
      plan(
        `        effect: star trails
        facing: 120°
        tilt: 10°
        lens: wide @ 24 mm
        aperture: f/4
        iso: 200
        shutter: 10 min
        frames: ${frames}
${more}        start: ${start}
`,
        { spot },
      ).replace('2027-03-20', '2027-03-24');
    const found = (text: string) => analysed(text).findings.find(({ code }) => code === only[0]);

    test('a moon that rises in the frame an hour after the start', () => {
      const hint = found(trails('moonrise - 60 min', 24));
      expect(hint?.message).toMatch(/^From 21:\d\d to 00:\d\d \+1 day the moon, 93 % lit, is in the frame/);
      // It comes over the horizon, and leaves over the right edge: 36.9° from the facing at the height of the axis.
      expect(Math.abs(moonAt(hint?.facts.fromMs).altitude)).toBeLessThan(0.1);
      const { azimuth, altitude } = moonAt(hint?.facts.toMs);
      expect(altitude).toBeGreaterThan(10);
      // tan = cos h · sin a / (sin h · sin 10° + cos h · cos a · cos 10°) at the edge is 18 mm / 24 mm.
      const [a, h, t] = [azimuth - 120, altitude, 10].map((degrees) => (degrees * Math.PI) / 180) as [
        number,
        number,
        number,
      ];
      const depth = Math.sin(h) * Math.sin(t) + Math.cos(h) * Math.cos(a) * Math.cos(t);
      expect((Math.cos(h) * Math.sin(a)) / depth).toBeCloseTo(18 / 24, 2);
    });

    test('not one that rises after the last frame', () => {
      expect(found(trails('moonrise - 60 min', 5))).toBeUndefined();
    });

    test('a skyline holds it back', () => {
      const low = found(trails('moonrise - 60 min', 24));
      const high = found(trails('moonrise - 60 min', 24, '', '    skyline: { E: 5°, S: 5° }\n'));
      // The moon climbs more slowly than 15° an hour · cos φ = 8.7°: five degrees take 34 min or more.
      const later = (high?.facts.fromMs as number) - (low?.facts.fromMs as number);
      expect(later).toBeGreaterThan(34 * 60_000);
      expect(later).toBeLessThan(60 * 60_000);
      expect(moonAt(high?.facts.fromMs).altitude).toBeCloseTo(5, 1);
    });
  });

  test('is silent at new moon', () => {
    // New moon on 2027-04-06.
    check(night('star points', '2027-04-06'), { only });
  });
});

describe('safety/sun-in-frame', () => {
  const only = ['safety/sun-in-frame'];
  const facing = (degrees: string, mark = '', forecast = '') =>
    plan(
      `        facing: ${degrees}
${mark}        lens: wide @ 24 mm
        aperture: f/11
        shutter: 1/60 s
        start: sunrise + 30 min
`,
      { forecast },
    );

  test('warns without a filter too', () => {
    check(facing('92°', '        #       ^^^ warning safety/sun-in-frame: the sun stands in the frame\n'), {
      only,
    });
  });

  test('is a hint just outside the frame', () => {
    // 24 mm reaches 36.9° to each side (2·atan(36/48)); the sun stands at about 96° and goes to the right.
    check(facing('135°', '        #       ^^^^ hint safety/sun-in-frame: outside the frame\n'), { only });
  });

  test('counts every frame of a panorama', () => {
    const swept = facing('20°', '        #       ^^^ warning safety/sun-in-frame: in the frame\n');
    check(`${swept}        sweep: 180°\n`, { only });
  });

  test('is silent away from the sun, under a closed sky and behind the land', () => {
    check(facing('200°'), { only });
    check(facing('92°', '', cloud('100 %')), {
      only,
      kit: smallKit({
        bodies: ['{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, finder: electronic }'],
      }),
    });
    // A finder of which nothing is known may be an optical one.
    check(facing('92°', '        #       ^^^ hint safety/sun-in-frame: which break\n', cloud('100 %')), {
      only,
    });
    check(facing('92°').replace('    shots', '    skyline: { E: 9° }\n    shots'), { only });
  });

  test('is an error behind an optical finder', () => {
    const kit = smallKit({
      bodies: ['{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, finder: optical }'],
    });
    check(
      facing('92°', '        #       ^^^ error safety/sun-in-frame: Never look through the optical finder\n'),
      { only, kit },
    );
  });

  describe('from composing to the end of the last frame', () => {
    const finder = (kind: string, sensor = 'sensor: 36 x 24 mm, ') =>
      smallKit({
        bodies: [`{ id: main, ${sensor}pixels: 8256 x 5504, bulb: up to 240 min, finder: ${kind} }`],
        lenses: ['{ id: tele, focal: 70-200 mm, aperture: f/4 .. f/32, thread: 77 mm }'],
      });
    const shot = (
      lines: { facing: string; tilt?: string; mm?: number; shutter?: string; start: string },
      mark = '',
      forecast = '',
    ) =>
      plan(
        `        facing: ${lines.facing}
${mark}        tilt: ${lines.tilt ?? '0°'}
        lens: tele @ ${lines.mm ?? 90} mm
        aperture: f/11
        shutter: ${lines.shutter ?? '1/60 s'}
        start: ${lines.start}
`,
        { forecast },
      );

    test('the sun crosses the frame in the middle of a shot: both times are given', () => {
      // At the equinox and 54.4° N the sun climbs at 15°/h · cos φ · sin A = 8.7°/h near the east (spherical trigonometry),
      // so that it passes a direction 18.4° high about two hours after it rose.
      const text = shot(
        { facing: '122°', tilt: '18°', mm: 200, shutter: '180 min', start: 'sunrise + 90 min' },
        '        #       ^^^^ error safety/sun-in-frame: Never look through the optical finder\n',
      );
      const { findings, day } = check(text, { only, kit: finder('optical') });
      const facts = findings.find(({ code }) => code === only[0])?.facts;
      const [entered, left] = [facts?.atMs as number, facts?.untilMs as number];
      const { startMs = 0, endMs = 0 } = day?.shots[0] ?? {};
      expect(entered).toBeGreaterThan(startMs);
      expect(left).toBeLessThan(endMs);
      // 200 mm shows 10.3° by 6.9°: at 15°/h the sun is inside for no longer than its diagonal takes, 12.3°: 49 min.
      expect((left - entered) / 60_000).toBeLessThan(50);
      expect((left - entered) / 60_000).toBeGreaterThan(10);
    });

    test('while the shot is composed, in the half hour before', () => {
      const dusk = (start: string, mark = '') => shot({ facing: '271°', mm: 70, start }, mark);
      const mark = (severity: string) =>
        `        #       ^^^^ ${severity} safety/sun-in-frame: while you compose, the sun stands in the frame\n`;
      check(dusk('sunset + 5 min', mark('error')), { only, kit: finder('optical') });
      check(dusk('sunset + 5 min', mark('hint')), { only, kit: finder('electronic') });
      check(dusk('sunset + 40 min'), { only, kit: finder('optical') });
    });

    test('no forecast takes the error from an optical finder', () => {
      const closed = (mark: string) =>
        shot({ facing: '92°', start: 'sunrise + 30 min' }, mark, cloud('100 %'));
      check(
        closed(
          '        #       ^^^ error safety/sun-in-frame: The forecast has it behind clouds, which break.\n',
        ),
        { only, kit: finder('optical') },
      );
      check(closed(''), { only, kit: finder('electronic') });
    });

    test('a frame is taken where the kit does not state the sensor', () => {
      const text = (mark: string) => shot({ facing: '96°', start: 'sunrise + 30 min' }, mark);
      check(
        text('        #       ^^^ error safety/sun-in-frame: is not known: 90 mm on 36 × 24 mm is taken.\n'),
        { only, kit: finder('optical', '') },
      );
      check(text('        #       ^^^ hint safety/sun-in-frame: is taken.\n'), {
        only,
        kit: finder('electronic', ''),
      });
      check(text('').replace('96°', '300°'), { only, kit: finder('optical', '') });
    });

    test('rule and hover warn of burning from the same focal length on', () => {
      // 100 mm and more, as on 36 × 24 mm: common practice, no source.
      const text = (mm: number) => shot({ facing: '96°', mm, start: 'sunrise + 30 min' });
      const said = (mm: number) => {
        const analysis = analysed(text(mm), { kit: finder('electronic') });
        const message = analysis.findings.find(({ code }) => code === only[0])?.message ?? '';
        const markdown = hover(analysis, analysis.text.indexOf('facing') + 9, rules)?.markdown ?? '';
        return [message, markdown].map((each) => each.includes('harms sensor and shutter'));
      };
      expect(said(99)).toEqual([false, false]);
      expect(said(100)).toEqual([true, true]);
    });
  });
});
