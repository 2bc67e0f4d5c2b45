import { describe, expect, test } from 'vitest';
import { analysed, check, checkFix, fixTitles } from '../support/check.ts';

const only = ['time/'];

/** One spot and one shot; the places are far from any real work. */
const plan = (date: string, at: string, arrive: string, more = '') => `plan: A day
date: ${date}
spots:
  - id: shore
    at: ${at}
    arrive: ${arrive}
${more}`;

describe('time/no-such-event', () => {
  test('polar day has no sunrise, and polar night neither', () => {
    check(
      `${plan('2027-06-21', '69.65, 18.96', 'sunrise - 20 min')}    #       ^^^^^^^^^^^^^^^^ error time/no-such-event: There is no sunrise here from 2027-05-19 to 2027-07-26: the sun stays above the horizon
`,
      { only },
    );
    check(
      `${plan('2027-12-21', '69.65, 18.96', 'sunrise')}    #       ^^^^^^^ error time/no-such-event
`,
      { only },
    );
  });

  test('a night that is never dark is named from its first to its last date', () => {
    // The sun must come 18° below the horizon: its declination stays above 90° - 52.5° - 18° = 19.5° about as long.
    check(
      `${plan('2026-06-21', '52.5, 13.4', 'astronomical dusk + 20 min')}    #       ^^^^^^^^^^^^^^^^^^^^^^^^^^ error time/no-such-event: here from 2026-05-19 to 2026-07-25: the sun stays above −18° all day
`,
      { only },
    );
  });

  test('a sun that stays low all day leaves low light', () => {
    // At 63° north the sun of the winter solstice climbs to 90° - 63° - 23.4° = 3.6°.
    check(
      `${plan('2026-12-21', '63.0, 10.4', 'morning golden hour end')}    #       ^^^^^^^^^^^^^^^^^^^^^^^ error time/no-such-event: low light from sunrise 09:55 to sunset 14:38
`,
      { only },
    );
  });

  test('is silent where there is a second choice, and where the sun rises', () => {
    check(plan('2027-06-21', '69.65, 18.96', 'earlier of sunrise, 05:00'), { only });
    check(plan('2027-03-21', '69.65, 18.96', 'sunrise'), { only });
  });
});

/** Clocks in Berlin go forward on 2027-03-28 at 02:00 and back on 2027-10-31 at 03:00 (EU Directive 2000/84/EC). */
describe('changes of the clock', () => {
  const berlin = '52.5, 13.4';

  test('a skipped local time is an error with both readings', () => {
    const marked = `${plan('2027-03-28', berlin, '02:30')}    #       ^^^^^ error time/skipped-local-time: There is no 02:30 on that day: the clocks go forward by 1 h to 03:00. Write 01:30 or 03:30.
`;
    check(marked, { only });
    expect(fixTitles(marked, { only })).toEqual(['Write 01:30', 'Write 03:30']);
    checkFix(marked, 'Write 03:30', plan('2027-03-28', berlin, '03:30'), { only });
  });

  test('the first time after the gap is none', () => {
    check(plan('2027-03-28', berlin, '03:00'), { only });
  });

  test('a repeated local time is a warning with both offsets', () => {
    const marked = `${plan('2027-10-31', berlin, '02:30')}    #       ^^^^^ warning time/repeated-local-time: 02:30 comes twice on that day: at UTC+02:00 and again at UTC+01:00. The first is used here.
`;
    check(marked, { only });
    const titles = fixTitles(marked, { only });
    expect(titles).toHaveLength(2);
    for (const title of titles) {
      const text = title.slice(title.indexOf(': ') + 2);
      checkFix(marked, title, plan('2027-10-31', berlin, text), { only });
    }
  });

  test('the two readings of a repeated time lie an hour apart', () => {
    const [first = '', second = ''] = fixTitles(plan('2027-10-31', berlin, '02:30'), { only });
    const minutes = (title: string) => {
      const [, h, min = '0'] = /sunrise - (\d) h(?: (\d+) min)?$/.exec(title) ?? [];
      return Number(h) * 60 + Number(min);
    };
    expect(minutes(first) - minutes(second)).toBe(60);
  });

  test('the hour before is not repeated', () => {
    check(plan('2027-10-31', berlin, '01:59'), { only });
  });
});

describe('time/no-such-event, of an event that comes, but not so often', () => {
  test('says how often it comes', () => {
    check(
      `${plan('2027-03-20', '54.0, -3.2', 'second sunrise')}    #       ^^^^^^^^^^^^^^ error time/no-such-event: There is no second sunrise here on this date: sunrise comes only once that day. Write
`,
      { only },
    );
  });
});

describe('time/several-times', () => {
  const tides = (arrive: string) =>
    plan('2027-03-20', '54.0, -3.2', arrive).replace(
      'spots:',
      'tides: [{ low: 00:10 }, { high: 06:20 }, { low: 12:30 }, { high: 18:40 }]\nspots:',
    );
  const marked = `${tides('high water')}    #       ^^^^^^^^^^ hint time/several-times: high water comes twice that day: 06:20, 18:40. The one at 06:20 is used; for the next, write second high water.
`;

  test('names all of them', () => {
    check(marked, { only });
  });

  test('the other one can be meant', () => {
    checkFix(marked, 'Mean the second high water, 18:40', tides('second high water'), { only });
  });

  test('the first can be meant, and says so', () => {
    checkFix(marked, 'Mean the first high water, 06:20', tides('first high water'), { only });
  });

  test('an offset stays with it', () => {
    checkFix(
      `${tides('high water - 2 h')}    #       ^^^^^^^^^^^^^^^^ hint time/several-times
`,
      'Mean the second high water, 18:40',
      tides('second high water - 2 h'),
      { only },
    );
  });

  test('is silent about an event that comes once', () => {
    check(tides('sunrise'), { only });
  });
});

describe('time/circle', () => {
  test('tells the way round, at each member and nowhere else', () => {
    check(
      `plan: A day
date: 2027-03-20
spots:
  - id: shore
    at: 54.0, -3.2
    arrive: 05:00
    shots:
      - id: first
        shutter: 1 s
        start: after second
        #      ^^^^^^^^^^^^ error time/circle: the start of first ← the end of second ← the start of second ← the end of first ← the start of first
      - id: second
        shutter: 1 s
        start: after first + 1 min
        #      ^^^^^^^^^^^^^^^^^^^ error time/circle
      - id: third
        shutter: 1 s
        start: after second
`,
      { only },
    );
  });

  test('tells both ends of a long one', () => {
    const shots = Array.from(
      { length: 400 },
      (_, n) => `      - { id: s${n}, shutter: 1 s, start: after s${(n + 1) % 400} }\n`,
    );
    const head =
      'plan: A day\ndate: 2027-03-20\nspots:\n  - id: shore\n    at: 54.0, -3.2\n    arrive: 05:00\n    shots:\n';
    const findings = analysed(head + shots.join('')).findings.filter(({ code }) => code === 'time/circle');
    expect(findings.length).toBe(400);
    expect(findings[7]?.message).toBe(
      'This leans on itself: the start of s7 ← the end of s8 ← the start of s8 ← the end of s9 ← the start of s9 ← the end of s10 ← 789 more ← the end of s5 ← the start of s5 ← the end of s6 ← the start of s6 ← the end of s7 ← the start of s7. Give one of them a clock time or an event.',
    );
    expect(findings[7]?.facts.moments).toBe(800);
  });

  test('is silent about a chain', () => {
    check(
      `plan: A day
date: 2027-03-20
spots:
  - id: shore
    at: 54.0, -3.2
    arrive: 05:00
    shots:
      - { id: first, shutter: 1 s, start: 06:00 }
      - { id: second, shutter: 1 s, start: after first }
`,
      { only },
    );
  });
});
