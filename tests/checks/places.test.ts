import { describe, expect, test } from 'vitest';
import { zoneClock } from '../../server/sky/zones.ts';
import { check, checkFix, fixTitles, mended } from '../support/check.ts';
import { planWithShot } from '../support/plan.ts';

const only = ['time/', 'light/'];

describe('time/closed', () => {
  const plan = (arrive: string, open: string, mark = '', openMark = '') => `plan: A day
date: 2027-03-20
timezone: Europe/London
spots:
  - id: steps
    at: 54.4301, -2.6102
    arrive: ${arrive}
${mark}    open: ${open}
${openMark}    shots: [{ id: mirror, shutter: 10 min, frames: 3 }]
`;
  const early =
    '    #       ^^^^^ error time/closed: You arrive at 05:40, but the place opens at 06:00: 20 min too early.\n';

  test('says by how much one is too early', () => {
    check(plan('05:40', '06:00 .. 21:00', early), { only });
  });

  test('says by how much one is too late', () => {
    const late =
      '    #     ^^^^^^^^^^^^^^ error time/closed: The place closes at 21:00, but you are packed and back from the walk at 21:10: 10 min too late.\n';
    check(plan('20:40', '06:00 .. 21:00', '', late), { only });
  });

  test('is silent at both ends, and over midnight', () => {
    check(plan('06:00', '06:00 .. 21:00'), { only });
    check(plan('20:30', '06:00 .. 21:00'), { only });
    check(plan('00:30', '20:00 .. 02:00 next day'), { only });
    check(plan('07:00 next day', '06:00 .. 21:00'), { only });
  });

  test('arriving when it opens mends it', () => {
    checkFix(plan('05:40', '06:00 .. 21:00', early), 'Arrive at 06:00', plan('06:00', '06:00 .. 21:00'), {
      only,
    });
  });
});

describe('the way between two places', () => {
  /** One degree of latitude is 111.3 km here (WGS 84, the length of a degree of the meridian at 54.5°). */
  const plan = (more: string, at = '55.0, -2.6') => `plan: A day
date: 2027-03-20
timezone: Europe/London
spots:
  - { id: south, at: "54.0, -2.6" }
  - id: north
    at: ${at}
${more}`;

  test('a drive faster than the threshold is found', () => {
    const marked = `${plan('    drive: 60 min\n')}    #      ^^^^^^ warning time/drive-too-fast: 111 km along the straight line in 1 h is 111 km/h. At 90 km/h it takes 1 h 15 min or more
`;
    check(marked, { only });
    checkFix(marked, 'Write 1 h 15 min', plan('    drive: 1 h 15 min\n'), { only });
  });

  test('the threshold can be set, and the limit is silent', () => {
    const settings = { thresholds: new Map([['fastest-drive', 112]]) };
    check(plan('    drive: 60 min\n'), { only, settings });
    check(plan('    drive: 75 min\n'), { only });
  });

  test('a drive that was left out is found', () => {
    check(
      `${plan('')
        .replace(
          '  - id: north\n',
          '  - id: north\n    #   ^^^^^ warning time/drive-left-out: This lies 4.5 km\n',
        )
        .replace('55.0', '54.04')}`,
      { only },
    );
  });

  test('is silent where the walk covers it', () => {
    check(plan('    walk: { distance: 3 km }\n', '54.04, -2.6'), { only });
    check(plan('', '54.017, -2.6'), { only });
  });
});

describe('time zones', () => {
  const plan = (zone: string, at: string, mark = '', atMark = '') => `plan: A day
${zone === '' ? '' : `timezone: ${zone}\n`}${mark}date: 2027-03-20
spots:
  - id: shore
    at: ${at}
${atMark}`;

  test('a zone that does not suit the place is found, and mended', () => {
    const marked = plan(
      'Europe/London',
      '48.1, 11.5',
      '#         ^^^^^^^^^^^^^ warning time/zone-disagrees: Clocks at 48.1, 11.5 follow Europe/Berlin (UTC+01:00 that day), not Europe/London (UTC+00:00): all times here are off by 1 h.\n',
    );
    check(marked, { only });
    checkFix(marked, 'Write Europe/Berlin', plan('Europe/Berlin', '48.1, 11.5'), { only });
  });

  test('is silent where another zone shows the same time', () => {
    check(plan('Europe/Paris', '48.1, 11.5'), { only });
  });

  test('a lost minus is found instead', () => {
    const marked = plan(
      'America/Denver',
      '39.7, 105.2',
      '',
      '    #   ^^^^^^^^^^^ error time/missing-minus: write 39.7, -105.2?\n',
    );
    check(marked, { only });
    checkFix(marked, 'Write 39.7, -105.2', plan('America/Denver', '39.7, -105.2'), { only });
  });

  test('a border nearby is a warning that asks for one of the zones', () => {
    // Eastern and Central time meet in Tennessee near 85° W (49 CFR 71.5).
    const marked = plan(
      '',
      '35.6, -85.1',
      '',
      '    #   ^^^^^^^^^^^ warning time/zone-near-border: Write `timezone: America/Chicago` or `timezone: America/New_York`.\n',
    );
    check(marked, { only });
    const [title = ''] = fixTitles(marked, { only });
    expect(title).toMatch(/^Add timezone: America\//);
    checkFix(marked, title, plan(title.replace('Add timezone: ', ''), '35.6, -85.1'), { only });
    const windows = mended(marked.replaceAll('\n', '\r\n'), title, { only }).text;
    expect(
      windows.split('\n').every((line, place, all) => line.endsWith('\r') || place === all.length - 1),
    ).toBe(true);
  });

  test('is silent far from every border', () => {
    check(plan('', '54.4, -2.6'), { only });
  });
});

test('time/stale-zone-data speaks exactly where the zone data of the machine lags behind', () => {
  // British Columbia keeps UTC-7 all year from November 2026 on (tzdata 2026).
  const plan = (date: string, mark = '') => `plan: A day
timezone: America/Vancouver
${mark}date: ${date}
spots: [{ id: shore, at: "49.3, -123.1" }]
`;
  const stale = zoneClock('America/Vancouver').offsetSeconds(Date.UTC(2027, 0, 10, 20)) !== -7 * 3600;
  const mark = '#         ^^^^^^^^^^^^^^^^^ warning time/stale-zone-data: is at UTC−07:00 on that date\n';
  check(plan('2027-01-10', stale ? mark : ''), { only });
  check(plan('2026-06-10'), { only });
});

describe('time/far-away', () => {
  const plan = (at: string, mark = '') => `plan: A day
date: 2027-03-20
timezone: Europe/London
spots:
  - { id: south, at: "54.40, -2.60" }
  - { id: west, at: "54.41, -2.61" }
  - id: north
    at: ${at}
${mark}`;

  test.each([
    ['-2.62, 54.42', '    #   ^^^^^^^^^^^^ warning time/far-away: Write 54.42, -2.62?\n'],
    ['54.42, 62.62', '    #   ^^^^^^^^^^^^ warning time/far-away: Check the order\n'],
  ])('%s', (at, mark) => {
    check(plan(at, mark), { only: ['time/far-away'] });
  });

  test('the swap is undone', () => {
    checkFix(
      plan('-2.62, 54.42', '    #   ^^^^^^^^^^^^ warning time/far-away\n'),
      'Write 54.42, -2.62',
      plan('54.42, -2.62'),
      { only: ['time/far-away'] },
    );
  });

  test('the zone is not blamed for a place with swapped coordinates', () => {
    check(plan('-2.62, 54.42', '    #   ^^^^^^^^^^^^ warning time/far-away\n'), {
      only: ['time/far-away', 'time/zone-disagrees'],
    });
  });

  test('is silent below 500 km', () => {
    // 4.4° of latitude are 490 km (111.3 km each).
    check(plan('58.80, -2.60'), { only: ['time/far-away'] });
  });

  test('a minus that is missing is told at any distance that a day cannot cover on foot', () => {
    // 5.22° of longitude at 54.42° north are 338 km (111.3 km × cos φ each).
    check(plan('54.42, 2.62', '    #   ^^^^^^^^^^^ warning time/far-away: Write 54.42, -2.62?\n'), {
      only: ['time/far-away'],
    });
    // As far, and no slip brings it near.
    check(plan('57.40, -2.60'), { only: ['time/far-away'] });
  });

  test('a subject is seen from its own spot', () => {
    const subject = (at: string, mark = '') =>
      planWithShot(`        subject: { at: "${at}", height: 34 m }\n${mark}`);
    const only = ['time/far-away', 'light/subject-here'];
    check(subject('54.4270, -2.6050'), { only });
    check(subject('54.9270, -3.6050'), { only });
    check(
      subject(
        '54.4270, 2.6050',
        '        #               ^^^^^^^^^^^^^^^ warning time/far-away: 337 km from its spot. Write 54.427, -2.605?\n',
      ),
      { only },
    );
    check(
      subject(
        '54.4301, -2.6102',
        '        #               ^^^^^^^^^^^^^^^^ warning light/subject-here: no direction leads to it\n',
      ),
      { only },
    );
  });
});

describe('compass bearings', () => {
  const plan = (date: string, at: string, facing: string, mark = '') => `plan: A day
date: ${date}
spots:
  - id: shore
    at: ${at}
    shots:
      - id: mirror
        facing: ${facing}
${mark}`;

  test('magnetic bearings after the last model are told', () => {
    check(
      plan(
        '2031-06-01',
        '54.4, -2.6',
        '118° mag',
        '        #       ^^^^^^^^ warning light/declination-out-of-date\n',
      ),
      { only },
    );
    check(plan('2029-06-01', '54.4, -2.6', '118° mag'), { only });
    check(plan('2031-06-01', '54.4, -2.6', '118°'), { only });
  });

  test('a compass near the magnetic pole is not trusted', () => {
    // WMM2025: the north magnetic pole lies near 86° N 138° E in 2027.
    check(
      plan(
        '2027-06-01',
        '85.0, 138.0',
        '118° mag',
        '        #       ^^^^^^^^ warning light/compass-unreliable\n',
      ),
      { only: ['light/compass-unreliable'] },
    );
    check(plan('2027-06-01', '54.4, -2.6', '118° mag'), { only: ['light/compass-unreliable'] });
  });
});
