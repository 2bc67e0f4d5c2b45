import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rules } from '../../server/checks/list.ts';
import { applyEdits } from '../../server/text/edit.ts';
import type { Finding } from '../../server/text/finding.ts';
import { analysed, check, checkFix, fixTitles, smallKit } from '../support/check.ts';
import { planWithShot as plan } from '../support/plan.ts';

const code = 'effect/outside-range';
const only = [code];
const cascade = { spot: '    water: { kind: cascade }\n' };

const kit = smallKit({
  lenses: [
    '{ id: wide, focal: 16-35 mm, aperture: f/4 .. f/22, thread: 77 mm }',
    '{ id: tele, focal: 70-200 mm, aperture: f/4 .. f/32, thread: 77 mm }',
  ],
  filters: [
    '{ id: nd3, kind: neutral density, strength: 3 stops, measured: 3.1 stops, thread: 77 mm }',
    '{ id: nd6, kind: neutral density, strength: 6 stops, thread: 77 mm }',
    '{ id: nd10, kind: neutral density, strength: 10 stops, measured: 10.3 stops, thread: 77 mm }',
    '{ id: nd6-small, kind: neutral density, strength: 6 stops, thread: 67 mm }',
    '{ id: grad2, kind: graduated, strength: 2 stops, edge: soft, thread: 77 mm }',
    '{ id: pol, kind: polarizer, loss: 1.5 stops, thread: 77 mm }',
    '{ id: pol2, kind: polarizer, thread: 77 mm }',
    '{ id: clear, kind: colour, loss: 0 stops, thread: 77 mm }',
  ],
});

function found(text: string, wanted = code): Finding | undefined {
  return analysed(text, { kit }).findings.find((finding) => finding.code === wanted);
}

const shot = (effect: string, ...lines: readonly string[]) =>
  plan(`        effect: ${effect}\n${lines.map((line) => `        ${line}\n`).join('')}`, cascade);

describe('what a way changes is named and written', () => {
  test('the ISO, with the reading at the old one', () => {
    const text = (iso: string, metered: string, mark = '') =>
      plan(
        `        effect: frozen\n        lens: wide @ 24 mm\n        aperture: f/11\n${iso}        metered: ${metered}\n${mark}`,
        cascade,
      );
    // 1/60 s to 1/500 s are three stops: ISO 100 to 800.
    checkFix(
      text(
        '',
        '1/60 s',
        '        #        ^^^^^^ warning effect/outside-range: It will look neither frozen nor textured. Set ISO 800: 1/500 s.\n',
      ),
      'Set ISO 800: 1/500 s',
      text('        iso: 800\n', '1/60 s, ISO 100'),
      { only, kit },
    );
  });

  test('aperture and ISO together', () => {
    const text = shot('frozen', 'lens: wide @ 24 mm', 'aperture: f/11', 'iso: 64', 'metered: 1/15 s');
    expect(fixTitles(text, { only, kit })).toEqual(['Set f/5 and ISO 400: 1/500 s']);
  });

  test('a lone aperture leaves the filters', () => {
    const text = shot(
      'silky',
      'lens: wide @ 24 mm',
      'aperture: f/11',
      'iso: 64',
      'metered: 1/15 s',
      'filters: [nd3]',
    );
    // 1/15 s (as written) through 3.1 stops is 0.57 s: a stop smaller makes 1.1 s.
    expect(fixTitles(text, { only, kit })[0]).toBe('Set f/16: 1.3 s');
  });
});

describe('a polarizer', () => {
  test('is kept, and never joined by another or put on to freeze water or for a mirror', () => {
    const overcast = shot(
      'silky',
      'lens: wide @ 24 mm',
      'aperture: f/11',
      'metered: 1/30 s',
      'filters: [pol]',
    );
    const titles = fixTitles(overcast, { only, kit });
    expect(titles.length).toBeGreaterThan(1);
    for (const title of titles) expect(title).toMatch(/^Use pol \+ |^Set /);
    for (const effect of ['frozen', 'mirror', 'silky', 'mist', 'cloud streaks']) {
      const bare = shot(effect, 'lens: wide @ 24 mm', 'aperture: f/11', 'metered: 1/15 s');
      for (const title of fixTitles(bare, { only, kit })) expect(title).not.toContain('pol');
    }
  });
});

describe('a stated time', () => {
  const stated = (effect: string, shutter: string, mark = '', more = '') =>
    plan(
      `        effect: ${effect}\n        lens: wide @ 24 mm\n        aperture: f/11\n        shutter: ${shutter}\n${mark}${more}`,
      cascade,
    );

  test('is set to the end of the range; the light that is expected says what goes with it', () => {
    checkFix(
      stated(
        'textured',
        '8 s',
        '        #        ^^^ warning effect/outside-range: It will look silky. Set 1 s or less; in the light that is expected, use nd6\n',
        '        start: 11:00\n',
      ),
      'Set 1 s',
      stated('textured', '1 s', '', '        start: 11:00\n'),
      { only, kit },
    );
    checkFix(stated('silky', '1/4 s'), 'Set 1 s', stated('silky', '1 s'), { only, kit });
    checkFix(stated('cloud streaks', '8 s'), 'Set 1 min', stated('cloud streaks', '1 min'), { only, kit });
  });

  test('with a reading is stated anew together with what the reading asks for', () => {
    const text = (aperture: string, shutter: string, metered: string) =>
      shot(
        'textured',
        'lens: wide @ 24 mm',
        `aperture: ${aperture}`,
        'iso: 100',
        `metered: ${metered}`,
        'filters: [nd6]',
        `shutter: ${shutter}`,
      );
    // 1/30 s through six stops is 2.1 s; a stop wider makes 1.07 s.
    checkFix(text('f/11', '8 s', '1/30 s'), 'Set f/8: 1 s', text('f/8', '1 s', '1/30 s @ f/11'), {
      only,
      kit,
    });
  });

  test('that no dial has is not offered', () => {
    const slow = smallKit({ bodies: ['{ id: old, shutter: 1/60 s .. 1 s, dial: 1 stop }'] });
    expect(fixTitles(stated('frozen', '1/60 s'), { only, kit: slow })).toEqual([]);
  });
});

describe('frames to average', () => {
  const noBulb = smallKit({
    bodies: ['{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, shutter: 1/8000 s .. 30 s, bulb: none }'],
    filters: ['{ id: nd6, kind: neutral density, strength: 6 stops, thread: 77 mm }'],
  });
  const clouds = (filters: string, frames = '', mark = '') =>
    shot(
      'cloud streaks',
      'lens: wide @ 24 mm',
      'aperture: f/11',
      'iso: 64',
      'metered: 1/2 s',
      ...(mark === '' ? [] : [mark]),
      `filters: [${filters}]`,
      'start: 13:20',
      ...(frames === '' ? [] : [`frames: ${frames}`]),
    );

  test('are offered with the filter that they need, and count once they are written', () => {
    const title = 'Average 2 frames of 30 s with nd6';
    const mark =
      '#        ^^^^^ warning effect/outside-range: No single exposure reaches that with this kit; average 2 frames of 30 s with nd6 (`frames: 2`).';
    checkFix(clouds('', '', mark), title, clouds('nd6', '2'), { only, kit: noBulb });
  });

  test('that are too few are counted together', () => {
    const text = shot(
      'cleared of people',
      'lens: wide @ 24 mm',
      'aperture: f/11',
      'shutter: 2 s',
      'frames: 30',
    );
    expect(found(text)?.message).toContain('30 frames of 2 s, averaged, are 1 stop too short');
    expect(fixTitles(text, { only, kit }).slice(0, 2)).toEqual(['Take 60 frames', 'Set 2 min']);
    expect(found(text.replace('frames: 30', 'frames: 60'))).toBeUndefined();
  });

  test('do not freeze water nor draw its texture', () => {
    expect(found(shot('textured', 'aperture: f/11', 'shutter: 1/60 s', 'frames: 8'))).toBeDefined();
    const dark = shot('textured', 'lens: wide @ 24 mm', 'aperture: f/22', 'metered: 1/4000 s');
    expect(found(dark)?.message).not.toContain('average');
  });

  test('are no help on film', () => {
    const film = smallKit({ film: ['{ id: slide, iso: 50, reciprocity: { exponent: 1.31, beyond: 1 s } }'] });
    const text = shot('mist', 'film: slide', 'aperture: f/11', 'shutter: 10 s', 'frames: 8');
    expect(analysed(text, { kit: film }).findings.map((finding) => finding.code)).toContain(code);
  });
});

test('calm water mirrors at any short time, other water does not', () => {
  const lake = (state: string, mark = '') =>
    plan(
      `        effect: mirror\n        water: { kind: lake, state: ${state} }\n        aperture: f/11\n        shutter: 1/2 s\n${mark}`,
    );
  check(lake('calm'), { only, kit });
  check(
    lake(
      'rippled',
      '        #        ^^^^^ warning effect/outside-range: Ripples will show in the reflection.\n',
    ),
    { only, kit },
  );
  const long = lake('calm').replace('1/2 s', '10 min');
  expect(found(long)?.message).toContain('The sky may move too far');
  const own = lake('calm').replace('kit:', 'effects: { mirror: 5 s .. 60 s }\nkit:');
  expect(found(own)?.message).toContain('5 s to 1 min');
});

describe('the ± of the filters', () => {
  test('covers a third of a stop, but not a whole one, and not a stated time', () => {
    // nd6 is not measured: ± 1/3 stop. 1/80 s through six stops is 0.8 s, 1/3 stop short of 1 s.
    const text = (metered: string) =>
      shot('silky', 'lens: wide @ 24 mm', 'aperture: f/11', `metered: ${metered}`, 'filters: [nd6]');
    check(text('1/80 s'), { only, kit });
    expect(found(text('1/125 s'))?.message).toContain('0.5 s is 1 stop too short');
    expect(found(shot('silky', 'aperture: f/11', 'shutter: 0.8 s'))?.message).toContain('1/3 stop too short');
  });

  test('a small miss is mended by a small change', () => {
    const text = shot('silky', 'lens: wide @ 24 mm', 'aperture: f/11', 'metered: 1/125 s', 'filters: [nd6]');
    expect(fixTitles(text, { only, kit })[0]).toBe('Set f/16: 1 s');
  });
});

describe('what it looks like instead', () => {
  test.each([
    // On a cascade: frozen to 1/500 s, textured 1/8 to 1 s, silky 1 to 15 s; mist from 30 s (common practice).
    ['silky', '1/80 s', 'It will look neither frozen nor textured.'],
    ['silky', '1/13 s', 'It will look textured.'],
    ['silky', '1/1000 s', 'It will look frozen.'],
    ['frozen', '1/60 s', 'It will look neither frozen nor textured.'],
    ['frozen', '1/4 s', 'It will look textured.'],
    ['frozen', '1 s', 'It will look textured.'],
    ['textured', '1/80 s', 'It will look neither frozen nor textured.'],
    ['textured', '8 s', 'It will look silky.'],
    ['silky', '1 min', 'It will turn to mist.'],
    ['mist', '20 s', 'It will look silky.'],
  ])('%s in %s', (effect, shutter, words) => {
    expect(found(shot(effect, 'aperture: f/11', `shutter: ${shutter}`))?.message).toContain(words);
  });

  test('nothing is said of mist that is too long', () => {
    expect(found(shot('mist', 'aperture: f/11', 'shutter: 20 min'))?.message).not.toMatch(/look|turn/);
  });
});

describe('water of a known speed', () => {
  const fall = (effect: string, shutter: string) =>
    plan(
      `        effect: ${effect}\n        lens: tele @ 100 mm\n        aperture: f/5.6\n        shutter: ${shutter}\n`,
      {
        spot: '    water: { kind: waterfall, speed: 4 m/s, distance: 10 m }\n',
      },
    );

  test('needs the shorter of both limits, and one finding says so', () => {
    // 100 mm · 4 m/s · t / 10 m = 2 pixels of 4.36 µm: t = 1/4587 s; the dial's next shorter time is 1/5000 s.
    const text = fall('frozen', '1/500 s');
    expect(found(text)?.message).toContain(
      '(1/1000 s or less). It will look neither frozen nor textured. At its speed and distance 1/5000 s or less keeps it below 2 pixels. Set 1/5000 s or less.',
    );
    expect(found(text, 'effect/streak-too-long')).toBeUndefined();
    checkFix(text, 'Set 1/5000 s', fall('frozen', '1/5000 s'), { only: ['effect/'], kit });
  });

  test('in the usual range has a time that the dial has, as a fix', () => {
    const text = fall('frozen', '1/1000 s');
    expect(found(text)).toBeUndefined();
    expect(found(text, 'effect/streak-too-long')?.message).toContain(
      'too far to look frozen. 1/5000 s or less keeps it below 2 pixels.',
    );
    checkFix(text, 'Set 1/5000 s', fall('frozen', '1/5000 s'), { only: ['effect/'], kit });
  });

  test('too fast for the dial asks for more distance', () => {
    const slow = smallKit({
      bodies: ['{ id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, shutter: 1/1000 s .. 30 s }'],
      lenses: ['{ id: tele, focal: 70-200 mm, aperture: f/4 .. f/32, thread: 77 mm }'],
    });
    const [finding] = analysed(fall('frozen', '1/1000 s'), { kit: slow }).findings.filter(
      (each) => each.code === 'effect/streak-too-long',
    );
    expect(finding?.message).toContain('Even 1/1000 s, where the dial ends, is too long: go further back');
  });
});

/** Every fix of the findings of a code, with the text after it. */
function mendedTexts(
  text: string,
  wanted: string,
): readonly { readonly title: string; readonly after: string }[] {
  const analysis = analysed(text, { kit });
  const rule = rules.find((each) => each.code === wanted);
  return analysis.findings
    .filter((finding) => finding.code === wanted)
    .flatMap((finding) => rule?.fixes?.(finding, analysis) ?? [])
    .map(({ title, edits }) => ({ title, after: applyEdits(text, edits) }));
}

test('a fix removes its finding, and its title tells the time that is then set', () => {
  const filters = ['', 'nd3', 'nd6', 'pol', 'grad2, nd3', 'pol, clear', 'nd6, nd6', 'pol, pol2', 'nd6-small'];
  let taken = 0;
  fc.assert(
    fc.property(
      fc.constantFrom('frozen', 'textured', 'silky', 'mist', 'mirror', 'cloud streaks', 'cleared of people'),
      fc.constantFrom(
        'metered: 1/1000 s',
        'metered: 1/60 s',
        'metered: 1/8 s, ISO 200',
        'metered: 2 s @ f/8',
        'metered: EV 9',
      ),
      fc.constantFrom(...filters),
      fc.constantFrom('', 'shutter: 5 s', 'shutter: 1/100 s'),
      fc.constantFrom('aperture: f/11', 'aperture: f/5.6\n        iso: 64'),
      fc.boolean(),
      (effect, metered, on, shutter, aperture, estimated) => {
        const text = shot(
          effect,
          'lens: wide @ 24 mm',
          aperture,
          ...(estimated ? [] : [metered]),
          `filters: [${on}]`,
          ...(shutter === '' ? [] : [shutter]),
          'start: 10:00',
        );
        for (const { title, after } of mendedTexts(text, code)) {
          taken += 1;
          expect(found(after)?.message, `${title}\n${after}`).toBeUndefined();
          const setting = analysed(after, { kit }).day?.shots[0]?.exposure?.setting;
          const time = setting?.kind === 'bulb' ? setting.text : setting?.label;
          expect(title).toContain(time);
          const filtersAfter = /filters: \[(.*)\]/.exec(after)?.[1]?.split(', ') ?? [];
          expect(filtersAfter.filter((id) => id.startsWith('pol')).length).toBeLessThan(
            on === 'pol, pol2' ? 3 : 2,
          );
        }
      },
    ),
    { numRuns: 60, seed: 7 },
  );
  expect(taken).toBeGreaterThan(60);
}, 60_000);
