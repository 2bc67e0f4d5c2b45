import { describe, expect, test } from 'vitest';
import { analysed, check, checkFix, smallKit } from '../support/check.ts';

const only = ['filter/'];

/** At noon in March the sun stands in the south, 35° high; at 07:00 in the east, 7° high. 35 mm unless it says otherwise. */
const plan = (
  facing: string,
  mark: string,
  more: { lens?: string; effect?: string; filters?: string; time?: string; forecast?: string } = {},
) => `plan: A day
date: 2027-03-20
timezone: Europe/London
kit: ../kit/field-bag.shootkit.yaml
${more.forecast ?? ''}spots:
  - id: lake
    at: 54.4301, -2.6102
    arrive: 00:00
    shots:
      - id: one
        effect: ${more.effect ?? 'silky'}
        facing: ${facing}
        lens: wide @ ${more.lens ?? '35 mm'}
        filters: ${more.filters ?? '[nd6, pol]'}
${mark}        start: ${more.time ?? '12:15'}
`;

const forecast = (share: string) => `forecast: { hours: [{ at: 11:00, cloud: ${share} }] }\n`;

describe('filter/polarizer-idle', () => {
  const idle = (part: string) => `        #              ^^^ hint filter/polarizer-idle: ${part}\n`;
  const behind = idle('the sun stands behind the camera');
  const effect = 'cloud streaks';
  const only = ['filter/polarizer-idle'];

  test('is told with the sun behind the camera, by the degree of polarization there', () => {
    // γ = 153° to 173°: P < 0.1, −log2(1 − P) < 0.15 stop, below the threshold of 0.3.
    check(plan('278°', behind, { effect, time: '07:00' }), { only });
  });

  test('is silent at right angles to the sun', () => {
    check(plan('8°', '', { effect, time: '07:00' }), { only });
  });

  test('is told under cloud and in the dark', () => {
    check(plan('90°', idle('the forecast says 95 % cloud'), { effect, forecast: forecast('95 %') }), {
      only,
    });
    check(plan('90°', idle('below the horizon'), { effect, time: '03:00' }), { only });
  });

  test('clouds weaken it by their share: common practice, no source', () => {
    // At 90° from the sun P = 0.8 · (1 − N): with four fifths of cloud −log2(1 − 0.16) = 0.25 stop, with half 0.74.
    check(
      plan('90°', idle('the forecast says 80 % cloud, and it darkens the sky by 0.25 stop at most'), {
        effect,
        lens: '35 mm',
        forecast: forecast('80 %'),
      }),
      { only },
    );
    check(plan('90°', '', { effect, forecast: forecast('50 %') }), { only });
  });

  test('is silent where it takes glare from water and wet rock, under cloud most of all', () => {
    const wet = (kind: string, more: Parameters<typeof plan>[2] = {}, mark = '') =>
      plan('90°', mark, { forecast: forecast('100 %'), ...more }).replace(
        '    shots:',
        `    water: { kind: ${kind} }\n    shots:`,
      );
    check(wet('cascade'), { only });
    check(wet('cascade', { effect }), { only });
    check(wet('lake'), { only });
    // Far off there is nothing to take: 200 mm level sees 3.4° below the horizon, s 0.764, p 0.619: 0.16 stop (Fresnel).
    const kit = smallKit({ lenses: ['{ id: wide, focal: 200 mm, aperture: f/4 .. f/22, thread: 77 mm }'] });
    const far = idle(
      'the forecast says 100 % cloud. Of the reflection on the water it can take 0.2 stop at most',
    );
    check(wet('lake', { lens: '200 mm' }, far), { only, kit });
    check(wet('cascade', { lens: '200 mm' }), { only, kit });
  });

  test('is silent in a frame without sky, where leaves or stones are meant', () => {
    check(plan('90°', '', { effect: `${effect}\n        tilt: -25°`, forecast: forecast('100 %') }), {
      only,
    });
  });

  test('the filter can be taken off, and no fix goes without asking', () => {
    const more = { effect, time: '07:00' };
    checkFix(plan('278°', behind, more), 'Take pol off', plan('278°', '', { ...more, filters: '[nd6]' }), {
      only,
    });
    const alone = plan('278°', '        #         ^^^ hint filter/polarizer-idle\n', {
      ...more,
      filters: '[pol]',
    });
    checkFix(alone, 'Take pol off', plan('278°', '', { ...more, filters: '[]' }), { only });
    const [found] = analysed(plan('278°', '', more)).findings.filter(({ code }) => code === only[0]);
    expect(found?.facts.open).toBe(true);
  });
});

describe('filter/uneven-sky', () => {
  const uneven = '        #              ^^^ warning filter/uneven-sky: stops uneven\n';

  test('is told on a wide frame at the side of the sun', () => {
    check(plan('60°', uneven, { lens: '16 mm' }), { only });
  });

  test('is weaker under broken cloud, and gone long before the sky is closed', () => {
    // The strongest P of 0.8 falls with the open share: 20 % leaves 0.64, which darkens by 1.5 stops instead of 2.3.
    const under = (share: string, mark: string) =>
      plan('60°', mark, { lens: '16 mm', forecast: forecast(share) });
    check(
      under('20 %', '        #              ^^^ warning filter/uneven-sky: with 20 % cloud counted off\n'),
      { only: ['filter/uneven-sky'] },
    );
    check(under('80 %', ''), { only: ['filter/uneven-sky'] });
  });

  test('says brighter where the sky comes out brighter', () => {
    const { findings } = analysed(plan('300°', '', { lens: '16 mm', time: '06:25' }));
    const { message, facts } = findings.find(({ code }) => code === 'filter/uneven-sky') ?? {};
    expect(facts?.weakestStops).toBeLessThan(-0.05);
    expect(message).toMatch(
      /darkens the sky by up to \d\.\d stops, most .* and brightens another part of it by \d\.\d/,
    );
    expect(message).not.toMatch(/[-−]\d/);
  });

  test('the threshold can be set, and no polarizer is uneven', () => {
    const settings = { thresholds: new Map([['uneven-sky', 3]]) };
    check(plan('60°', '', { lens: '16 mm' }), { only, settings });
    check(plan('60°', '', { lens: '16 mm', filters: '[nd6]' }), { only });
  });

  test('the filter can be taken off', () => {
    checkFix(
      plan('60°', uneven, { lens: '16 mm' }),
      'Take pol off',
      plan('60°', '', { lens: '16 mm', filters: '[nd6]' }),
      { only },
    );
  });
});

describe('filter/polarizer-against-mirror', () => {
  const code = ['filter/polarizer-against-mirror'];
  const mirror = (mark: string, lens = '35 mm', tilt = '') =>
    plan('0°', mark, { effect: `mirror${tilt === '' ? '' : `\n        tilt: ${tilt}`}`, lens });
  // 35 mm sees atan(12 / 35) = 18.9° below the horizon: s 0.2372, p 0.0576 (Fresnel, n = 1.333), log2(mean / p) = 1.36.
  const level = mirror(
    '        #              ^^^ warning filter/polarizer-against-mirror: nothing at the far edge and 1.4 stops at the bottom edge (18.9°). The mirror stays far off and goes near the camera.\n',
  );

  test('says how much of the reflection goes, and where', () => {
    check(level, { only: code });
    check(plan('0°', '', { effect: 'silky' }), { only: code });
    checkFix(level, 'Take pol off', plan('0°', '', { effect: 'mirror', filters: '[nd6]' }), { only: code });
  });

  test('is silent where hardly any can go, and where no water is in the frame', () => {
    // Straight at 3° with 200 mm: 6.4° at the bottom edge, log2(0.5022 / 0.4020) = 0.32 stop, below the threshold of 0.5.
    const kit = smallKit({
      lenses: ['{ id: wide, focal: 200 mm, aperture: f/4 .. f/22, thread: 77 mm }'],
    });
    check(mirror('', '200 mm', '-3°'), { only: code, kit });
    const settings = { thresholds: new Map([['mirror-loss', 0.3]]) };
    check(
      mirror(
        '        #              ^^^ warning filter/polarizer-against-mirror: 0.3 stop at the bottom edge (6.4°)\n',
        '200 mm',
        '-3°',
      ),
      { only: code, kit, settings },
    );
    check(mirror('', '35 mm', '25°'), { only: code });
  });

  test('names the angle at which it goes while the frame is not known', () => {
    const unknown =
      '        #              ^^^ warning filter/polarizer-against-mirror: all of it at 37° to the water and hardly any far off\n';
    check(mirror(unknown).replace('wide @ 35 mm', 'wide'), { only: code });
  });
});

test('filter/several-polarizers', () => {
  const code = ['filter/several-polarizers'];
  const marked = plan('90°', '        #              ^^^ warning filter/several-polarizers\n', {
    filters: '[pol, pol]',
  });
  check(marked, { only: code });
  check(plan('90°', '', { filters: '[pol, nd6]' }), { only: code });
  checkFix(marked, 'Take pol off', plan('90°', '', { filters: '[pol]' }), { only: code });
});
