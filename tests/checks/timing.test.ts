import { describe, expect, test } from 'vitest';
import { check, checkFix, fixTitles } from '../support/check.ts';

/** Only the family that is looked at: the plans are too bare for the others. */
const only = ['time/'];

/** An invented reservoir in the north of England. Sunrise on 2027-03-20 is at 06:13 there. */
const head = `plan: A day
date: 2027-03-20
timezone: Europe/London
`;

const oneSpot = (arrive: string, start: string) => `${head}start: { leave: 04:30 }
spots:
  - id: steps
    at: 54.4301, -2.6102
    drive: 45 min
    arrive: ${arrive}
    setup: 15 min
    shots:
      - id: mirror
        shutter: 30 s
        start: ${start}
`;

describe('time/late-start', () => {
  const late = `${oneSpot('05:50', '05:40')}        #      ^^^^^ error time/late-start: Ready 06:05, but the shot starts at 05:40: 25 min late. Arrive by 05:25, or start at 06:05 or later.
`;

  test('says by how much, and what would mend it', () => {
    check(late, { only });
  });

  test('is silent when the shot starts the moment one is ready', () => {
    check(oneSpot('05:50', '06:05'), { only });
  });

  test('the shot can be started when ready, or at that time', () => {
    expect(fixTitles(late, { only })).toEqual(['Start when ready', 'Start at 06:05']);
    checkFix(late, 'Start when ready', oneSpot('05:50', 'ready'), { only });
    checkFix(late, 'Start at 06:05', oneSpot('05:50', '06:05'), { only });
  });

  test('without a stated arrival it says when to leave', () => {
    check(
      `${oneSpot('05:50', '05:20').replace('    arrive: 05:50\n', '')}        #      ^^^^^ error time/late-start: Ready 05:30, but the shot starts at 05:20: 10 min late. Leave by 04:20, or start at 05:30 or later.
`,
      { only },
    );
  });
});

describe('time/late-arrival', () => {
  const late = oneSpot('05:00', '06:00').replace(
    'arrive: 05:00\n',
    'arrive: 05:00\n    #       ^^^^^ error time/late-arrival: You arrive at 05:15 at the earliest, not at 05:00: 15 min late. Leave by 04:15, or arrive at 05:15 or later.\n',
  );

  test('says by how much', () => {
    check(late, { only });
  });

  test('is silent when drive and walk just make it', () => {
    check(oneSpot('05:15', '06:00'), { only });
  });

  test('arriving later or leaving earlier mends it', () => {
    checkFix(late, 'Arrive at 05:15', oneSpot('05:15', '06:00'), { only });
    checkFix(late, 'Leave at 04:15', oneSpot('05:00', '06:00').replace('04:30', '04:15'), { only });
  });
});

const twoShots = (first: string, start: string) => `${head}spots:
  - id: steps
    at: 54.4301, -2.6102
    arrive: 05:30
    shots:
      - id: mirror
        shutter: 5 min
        frames: ${first}
        start: 06:00
      - id: strands
        shutter: 1 s
        start: ${start}
`;

describe('time/shots-overlap', () => {
  const overlap = `${twoShots('3', '06:10')}        #      ^^^^^ error time/shots-overlap: This starts at 06:10, but mirror ends at 06:15: 5 min of overlap.
`;

  test('says by how much', () => {
    check(overlap, { only });
  });

  test('is silent when one shot ends as the next begins', () => {
    check(twoShots('2', '06:10'), { only });
  });

  test('starting after the shot before mends it', () => {
    checkFix(overlap, 'Start after mirror', twoShots('3', 'after mirror'), { only });
    checkFix(overlap, 'Start at 06:15', twoShots('3', '06:15'), { only });
  });
});

describe('time/clock-vs-next-day', () => {
  const night = (start: string) => twoShots('2', start).replace('start: 06:00', 'start: 23:30');
  const forgotten = `${night('00:30')}        #      ^^^^^ error time/clock-vs-next-day: For the morning after, write 00:30 next day.
`;

  test('is found instead of an overlap', () => {
    check(forgotten, { only });
  });

  test('is silent six hours back, where an overlap is one', () => {
    check(
      `${twoShots('2', '00:00')}        #      ^^^^^ error time/shots-overlap: 6 h 10 min of overlap
`,
      { only },
    );
  });

  test('the next day mends it', () => {
    checkFix(forgotten, 'Write 00:30 next day', night('00:30 next day'), { only });
  });

  test('holds for an arrival too', () => {
    const plan = (arrive: string, leave = '23:00') => `${head}start: { leave: ${leave} }
spots:
  - id: steps
    at: 54.4301, -2.6102
    arrive: ${arrive}
`;
    const marked = `${plan('01:00')}    #       ^^^^^ error time/clock-vs-next-day: before leaving home at 23:00. For the morning after, write 01:00 next day; if you leave the evening before, write leave: 23:00 previous day.
`;
    check(marked, { only });
    checkFix(marked, 'Write 01:00 next day', plan('01:00 next day'), { only });
    checkFix(marked, 'Leave 23:00 previous day', plan('01:00', '23:00 previous day'), { only });
  });

  test('the evening before can be meant: to decide, and to leave for a dawn', () => {
    const text = `${head}start: { leave: 23:30 previous day }
spots:
  - id: steps
    at: 54.4301, -2.6102
    decide: 20:00 previous day
    otherwise: fall
    arrive: sunrise - 40 min
    shots:
      - { id: mirror, shutter: 2 s, start: sunrise }
  - id: fall
    at: 54.4401, -2.6002
    drive: 10 min
`;
    const { day } = check(text, { only });
    expect(day?.leaveMs).toBe(Date.UTC(2027, 2, 19, 23, 30));
    const decided = day?.moments.find(({ value }) => value.text === '20:00 previous day');
    expect(decided?.resolution).toMatchObject({ kind: 'at', instantMs: Date.UTC(2027, 2, 19, 20) });
  });

  test('an event of the morning after a night is one too', () => {
    const events: readonly (readonly [string, string])[] = [
      ['sunrise', 'sunrise next day'],
      ['sunrise - 30 min', 'sunrise next day - 30 min'],
    ];
    for (const [written, meant] of events) {
      const carets = '^'.repeat(written.length);
      const marked = `${night(written)}        #      ${carets} error time/clock-vs-next-day: For the morning after, write ${meant}.
`;
      check(marked, { only });
      checkFix(marked, `Write ${meant}`, night(meant), { only });
    }
  });
});

describe('time/decides-late', () => {
  const plan = (decide: string, mark = '') => `${head}spots:
  - id: steps
    at: 54.4301, -2.6102
    arrive: 05:30
    decide: ${decide}
${mark}`;

  test('is told after the arrival, and not before', () => {
    check(
      plan(
        '06:00',
        '    #       ^^^^^ warning time/decides-late: You decide at 06:00, 30 min after arriving at 05:30.\n',
      ),
      { only },
    );
    check(plan('05:30'), { only });
    check(plan('sunrise - 60 min'), { only });
  });
});

describe('time/outlasts-departure', () => {
  const plan = (frames: string, arrive: string, mark = '') => `${head}spots:
  - id: steps
    at: 54.4301, -2.6102
    arrive: 05:30
    pack: 5 min
    shots:
      - id: mirror
${mark}        shutter: 5 min
        frames: ${frames}
  - id: fall
    at: 54.4401, -2.6002
    drive: 10 min
    arrive: ${arrive}
`;
  const mark =
    '      #     ^^^^^^ error time/outlasts-departure: mirror ends at 06:00: 15 min too late to reach fall at 06:00. It must end by 05:45, or arrive there at 06:15.\n';

  test('says by how much, and the latest end', () => {
    check(plan('6', '06:00', mark), { only });
  });

  test('is silent when the way is just made', () => {
    check(plan('3', '06:00'), { only });
  });

  test('arriving later mends it', () => {
    checkFix(plan('6', '06:00', mark), 'Arrive at fall at 06:15', plan('6', '06:15'), { only });
  });

  test('it is the arrival that is late where the way alone is too long', () => {
    check(
      `${plan('1', '05:40')}    #       ^^^^^ error time/late-arrival: Leave steps by 05:30
`,
      { only },
    );
  });
});
