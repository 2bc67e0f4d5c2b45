import { test } from 'vitest';
import { check, checkFix } from '../support/check.ts';
import { planWithShot as plan } from '../support/plan.ts';

const only = ['filter/used-twice'];
const shot = (filters: string, mark = '') =>
  plan(`        aperture: f/11\n        metered: 1/60 s\n        filters: [${filters}]\n${mark}`);

test('a filter of the kit is on the lens once', () => {
  checkFix(
    shot(
      'nd6, pol, nd6',
      '        #                   ^^^ error filter/used-twice: nd6 stands here twice, and the kit has one\n',
    ),
    'Take nd6 off',
    shot('nd6, pol'),
    { only },
  );
  check(shot('nd6, pol'), { only });
  check(shot('nd7, nd7'), { only });
});

test('of two polarizers one finding is enough', () => {
  check(shot('pol, pol', '        #              ^^^ warning filter/several-polarizers\n'), {
    only: ['filter/used-twice', 'filter/several-polarizers'],
  });
});
