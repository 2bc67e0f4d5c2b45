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
      'thresholds: { fastest-drive: slow }\n#                            ^^^^ warning plan/unknown-threshold: “slow” is no number. `fastest-drive` is a number of km/h without a unit behind it, such as 90.\n',
    );
    check(word, { only });
    check(
      plan(
        'thresholds: { walking-factor: x, sun-margin: x, overcast: x }\n#                             ^ warning plan/unknown-threshold: `walking-factor` is a factor without a unit\n#                                            ^ warning plan/unknown-threshold: `sun-margin` is a number of degrees\n#                                                         ^ warning plan/unknown-threshold: `overcast` is a share from 0 to 1\n',
      ),
      { only },
    );
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
  const hazard = '    hazards: [cliff edge]\n';

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

  const at = (arrive: string, spot: string, top = '') => plan(top, spot).replace('10:00', arrive);
  const carrying = (things: string) => `kit: { carried: [${things}] }\n`;

  test('safety/hazard is silent where the plan makes nothing acute', () => {
    const all = '    hazards: [cliff edge, deep water, cold water, thin ice, slippery rock, surf, wasps]\n';
    check(plan('', all), { only });
    check(plan(carrying('cloth'), all), { only });
  });

  test('safety/hazard in the dark without a lamp', () => {
    // Civil dawn on that day is half an hour before sunrise at 06:13, civil dusk half an hour after sunset at 18:23.
    const marked = (line: string) =>
      `    hazards: [wasps, cliff edge]\n    #                ^^^^^^^^^^ ${line}\n`;
    const early = marked(
      'hint safety/hazard: You arrive in the dark (05:20; civil dawn comes at 05:38) at a spot with hazards, and `carried` names no lamp.',
    );
    check(at('05:20', early, carrying('cloth')), { only });
    const late = marked('hint safety/hazard: You leave in the dark (18:10 + 1 h');
    check(at('18:10', late.replace('18:10 + 1 h', '19:10; civil dusk was at 18:5'), carrying('cloth')), {
      only,
    });
    for (const lamp of ['headlamp', 'head torch', 'two lights']) {
      check(at('05:20', '    hazards: [cliff edge]\n', carrying(`cloth, ${lamp}`)), { only });
    }
    // What is carried is not known, or nothing there can hurt.
    check(at('05:20', '    hazards: [cliff edge]\n'), { only });
    check(at('05:20', '    hazards: [wasps]\n', carrying('cloth')), { only });
  });

  test('safety/hazard on a day that stays dark (the sun at 75° north in December: 90 − 75 − 23.4 is 8° below)', () => {
    check(
      at(
        '12:00',
        '    hazards: [thin ice]\n    #         ^^^^^^^^ hint safety/hazard: It is dark all day at a spot with hazards\n',
        carrying('cloth'),
      )
        .replace('date: 2027-03-20\ntimezone: Europe/London', 'date: 2026-12-21\ntimezone: UTC')
        .replace('54.4301, -2.6102', '75.0000, 20.0000'),
      { only },
    );
  });

  test('safety/hazard where water may be released and nobody seems to be asked', () => {
    const mark =
      '    #                     ^^^^^^^^^^^^^^^^^ hint safety/hazard: Water can be released there without warning\n';
    const spillway = (more: string, marks = '') =>
      plan('', `    hazards: [deep water, spillway upstream]\n${marks}${more}`);
    check(spillway('', mark), { only });
    check(spillway('    permission: not needed\n', mark), { only });
    check(spillway('    permission: granted\n'), { only });
    check(spillway('    note: The keeper releases at noon, with a siren ten minutes before.\n'), { only });
  });

  test('safety/hazard where the tide is not in the plan, or rises while nothing is said of the way back', () => {
    const mark = (text: string) => `    #         ^^^^ hint safety/hazard: ${text}\n`;
    const tides = 'tides: [{ low: 08:00 }, { high: 14:10 }]\n';
    const shore = (top: string, more = '', marks = '') =>
      plan(top, `    hazards: [tide, cliff edge]\n${marks}${more}`);
    check(shore('', '', mark('The tide is a hazard there, and the plan has no `tides`.')), { only });
    check(shore(tides, '', mark('The water rises until 14:10 while you are there.')), { only });
    check(shore('tides: [{ high: 14:10 }]\n', '', mark('The water rises until 14:10')), { only });
    check(shore('tides: [{ high: 08:00 }, { low: 14:10 }]\n'), { only });
    check(shore(tides, '    open: low water - 2 h .. low water + 5 h\n'), { only });
    check(shore(tides, '    needs: [tide < 1.5 m]\n'), { only });
    check(shore(tides, '    note: The ledge stays dry; the path is above the wall.\n'), { only });
    check(shore(tides, '    needs: [wind < 20 km/h]\n', mark('The water rises')), { only });
  });

  test('safety/hazard defers to those responsible', () => {
    check(
      plan(
        '',
        '    hazards: [tide]\n    #         ^^^^ hint safety/hazard: Local rules and the people responsible there decide.\n',
      ),
      { only },
    );
  });
});
