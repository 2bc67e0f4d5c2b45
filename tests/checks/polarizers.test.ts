import { describe, test } from 'vitest';
import { check, checkFix } from '../support/check.ts';

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

test('filter/polarizer-against-mirror', () => {
  const code = ['filter/polarizer-against-mirror'];
  const marked = plan('0°', '        #              ^^^ warning filter/polarizer-against-mirror\n', {
    effect: 'mirror',
  });
  check(marked, { only: code });
  check(plan('0°', '', { effect: 'silky' }), { only: code });
  checkFix(marked, 'Take pol off', plan('0°', '', { effect: 'mirror', filters: '[nd6]' }), { only: code });
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
