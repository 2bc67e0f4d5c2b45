import { describe, test } from 'vitest';
import { check, checkFix } from '../support/check.ts';

const plan = (top: string, spot = '') => `plan: A day
date: 2027-03-20
timezone: Europe/London
${top}spots:
  - id: lake
    at: 54.4301, -2.6102
    arrive: 10:00
    shots: [{ id: one, shutter: 30 min, frames: 2 }]
${spot}`;

describe('what a plan sets for itself', () => {
  test('plan/unknown-code offers the nearest', () => {
    const only = ['plan/'];
    const marked = plan(
      'checks: { time/late-strat: off }\n#         ^^^^^^^^^^^^^^^ warning plan/unknown-code: Did you mean time/late-start?\n',
    );
    check(marked, { only });
    checkFix(marked, 'Write time/late-start', plan('checks: { time/late-start: off }\n'), { only });
  });

  test('plan/unknown-threshold offers the nearest, and wants a number', () => {
    const only = ['plan/'];
    const marked = plan(
      'thresholds: { fastest-driv: 80 }\n#             ^^^^^^^^^^^^ warning plan/unknown-threshold: Did you mean fastest-drive?\n',
    );
    check(marked, { only });
    checkFix(marked, 'Write fastest-drive', plan('thresholds: { fastest-drive: 80 }\n'), { only });
    const word = plan(
      'thresholds: { fastest-drive: slow }\n#                            ^^^^ warning plan/unknown-threshold: “slow” is no number. fastest-drive is in km/h; usually 90.\n',
    );
    check(word, { only });
    checkFix(word, 'Write 90', plan('thresholds: { fastest-drive: 90 }\n'), { only });
  });

  test('plan/permission-open speaks only where the plan says so', () => {
    const only = ['plan/'];
    check(plan('', '    permission: asked\n    #           ^^^^^ hint plan/permission-open\n'), { only });
    check(plan('', '    permission: unknown\n    #           ^^^^^^^ hint plan/permission-open\n'), { only });
    check(plan('', '    permission: granted\n'), { only });
    check(plan(''), { only });
  });
});

describe('safety', () => {
  const only = ['safety/'];
  const hazard =
    '    hazards: [cliff edge]\n    #         ^^^^^^^^^^ hint safety/hazard: Keep away from the edge\n';

  test('safety/contact-not-told with hazards', () => {
    check(
      plan(
        'party: { contact: not told }\n#                 ^^^^^^^^ warning safety/contact-not-told: has hazards\n',
        hazard,
      ),
      { only },
    );
    check(plan('party: { contact: told }\n', hazard), { only });
    check(plan('party: { contact: not told }\n'), { only });
  });

  test('safety/contact-not-told in the dark', () => {
    // Civil dawn on that day is half an hour before sunrise at 06:13.
    const dark = (arrive: string, mark: string) =>
      plan(`party: { contact: not told }\n${mark}`).replace('10:00', arrive);
    check(dark('05:20', '#                 ^^^^^^^^ warning safety/contact-not-told: touches the dark\n'), {
      only,
    });
    check(dark('06:00', ''), { only });
  });

  test('safety/back-by-too-early', () => {
    const back = (time: string, mark = '') => plan(`party: { contact: told, back-by: ${time} }\n${mark}`);
    const marked = back(
      '10:30',
      '#                                ^^^^^ error safety/back-by-too-early: leave the last spot at 11:00, 30 min later\n',
    );
    check(marked, { only });
    check(back('11:00'), { only });
    checkFix(marked, 'Write 12:00, an hour after the last spot', back('12:00'), { only });
  });

  test('safety/hazard once for each spot, deferring to those responsible', () => {
    check(
      plan(
        '',
        '    hazards: [spillway upstream, tide]\n    #         ^^^^^^^^^^^^^^^^^ hint safety/hazard: Local rules and the people responsible there decide.\n',
      ),
      { only },
    );
    check(plan('', '    hazards: [wasps]\n'), { only });
  });
});
