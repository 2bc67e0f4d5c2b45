import { describe, test } from 'vitest';
import { check, checkFix, smallKit } from '../support/check.ts';

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

describe('filter/polarizer-idle', () => {
  const behind = `        #              ^^^ hint filter/polarizer-idle: the sun stands behind the camera
`;

  test('is told with the sun behind the camera, by the degree of polarization there', () => {
    // γ = 153° to 173°: P < 0.1, −log2(1 − P) < 0.15 stop, below the threshold of 0.3.
    check(plan('278°', behind, { time: '07:00' }), { only });
  });

  test('is silent at right angles to the sun', () => {
    check(plan('8°', '', { time: '07:00' }), { only: ['filter/polarizer-idle'] });
  });

  test('is told under cloud and in the dark', () => {
    const forecast = (share: string) => `forecast: { hours: [{ at: 11:00, cloud: ${share} }] }\n`;
    check(
      plan('90°', '        #              ^^^ hint filter/polarizer-idle: the forecast says 95 % cloud\n', {
        forecast: forecast('95 %'),
      }),
      { only },
    );
    check(plan('90°', '', { forecast: forecast('80 %') }), { only: ['filter/polarizer-idle'] });
    check(
      plan('90°', '        #              ^^^ hint filter/polarizer-idle: below the horizon\n', {
        time: '03:00',
      }),
      { only },
    );
  });

  test('the filter can be taken off', () => {
    const time = '07:00';
    checkFix(plan('278°', behind, { time }), 'Take pol off', plan('278°', '', { time, filters: '[nd6]' }), {
      only,
    });
    const alone = plan('278°', '        #         ^^^ hint filter/polarizer-idle\n', {
      time,
      filters: '[pol]',
    });
    checkFix(alone, 'Take pol off', plan('278°', '', { time, filters: '[]' }), { only });
  });
});

describe('filter/uneven-sky', () => {
  const uneven = '        #              ^^^ warning filter/uneven-sky: stops uneven\n';

  test('is told on a wide frame at the side of the sun', () => {
    check(plan('60°', uneven, { lens: '16 mm' }), { only });
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
