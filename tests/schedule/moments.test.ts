import * as astronomy from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import { dayOf, instant, planText, resolved, utc } from './plans.ts';

describe('A clock time', () => {
  test.each([
    // Offsets of zones: IANA time zone database.
    ['Europe/London', '2027-03-20', '06:00', '2027-03-20T06:00:00Z'],
    ['Europe/London', '2027-07-01', '06:00', '2027-07-01T05:00:00Z'],
    ['Asia/Kolkata', '2027-03-20', '06:00', '2027-03-20T00:30:00Z'],
    ['Asia/Kathmandu', '2027-03-20', '06:00', '2027-03-20T00:15:00Z'],
    ['Australia/Lord_Howe', '2027-07-01', '06:00', '2027-06-30T19:30:00Z'],
    ['Pacific/Auckland', '2027-03-20', '06:00', '2027-03-19T17:00:00Z'],
    ['Pacific/Kiritimati', '2027-03-20', '06:00', '2027-03-19T16:00:00Z'],
    ['Pacific/Pago_Pago', '2027-03-20', '06:00', '2027-03-20T17:00:00Z'],
    ['Europe/London', '2027-03-20', '00:30 next day', '2027-03-21T00:30:00Z'],
    ['Europe/London', '2027-03-27', '03:00 next day', '2027-03-28T02:00:00Z'],
    ['Europe/London', '2027-03-28', '20:00 previous day', '2027-03-27T20:00:00Z'],
    ['Europe/London', '2027-03-29', '20:00 previous day', '2027-03-28T19:00:00Z'],
  ])('in %s on %s: %s', (zone, date, time, expected) => {
    expect(instant(resolved(time, { zone, date }))).toBe(expected);
  });

  test('that the clocks skip is no time, and both readings are given', () => {
    const moment = resolved('01:30', { date: '2027-03-28' });
    expect(moment).toMatchObject({ kind: 'failed', failure: 'skipped', clock: '01:30' });
    if (moment.kind !== 'failed' || moment.failure !== 'skipped') throw new Error('Not skipped.');
    expect([moment.local.beforeMs, moment.local.afterMs]).toEqual([
      Date.UTC(2027, 2, 28, 0, 30),
      Date.UTC(2027, 2, 28, 1, 30),
    ]);
  });

  test('that comes twice is taken at its first reading, and says so', () => {
    const moment = resolved('01:30', { date: '2027-10-31' });
    expect(instant(moment)).toBe('2027-10-31T00:30:00Z');
    expect(moment).toMatchObject({
      notes: [
        {
          note: 'repeated',
          local: { earlierMs: Date.UTC(2027, 9, 31, 0, 30), laterMs: Date.UTC(2027, 9, 31, 1, 30) },
        },
      ],
    });
  });

  test.each([
    ['2027-03-28', 23],
    ['2027-03-29', 24],
    ['2027-10-31', 25],
  ])('runs through a day of its own length: %s has %i hours', (date, hours) => {
    const parts = { date };
    const [from, to] = [resolved('00:00', parts), resolved('00:00 next day', parts)];
    if (from.kind !== 'at' || to.kind !== 'at') throw new Error('Not resolved.');
    expect((to.instantMs - from.instantMs) / 3_600_000).toBe(hours);
  });

  test('and what is added to it: hours go by, whatever the clocks do', () => {
    // 00:30 and two hours more: it is 02:30 in UTC, and the clocks show 03:30.
    expect(instant(resolved('00:30 + 2 h', { date: '2027-03-28' }))).toBe('2027-03-28T02:30:00Z');
  });
});

describe('An event', () => {
  const fairbanks = { at: '64.84, -147.72', zone: 'America/Anchorage' };

  /** The sunsets of a civil day by another library, with the definition that we use: upper limb, 34′ of refraction. */
  function sunsets(
    fromMs: number,
    toMs: number,
    [latitude, longitude]: readonly [number, number],
  ): readonly number[] {
    const observer = new astronomy.Observer(latitude, longitude, 0);
    const found: number[] = [];
    for (let at = fromMs; at < toMs; ) {
      const next = astronomy.SearchRiseSet(astronomy.Body.Sun, observer, -1, new Date(at), 2);
      if (next === null || next.date.getTime() >= toMs) break;
      found.push(next.date.getTime());
      at = next.date.getTime() + 60_000;
    }
    return found;
  }

  test('that comes twice in a civil day is taken at its first, and says so', () => {
    // Summer nights in the far north: sunset slips from after midnight to before it, and one day has both.
    const days = Array.from({ length: 40 }, (_, day) =>
      new Date(Date.UTC(2027, 6, 1 + day)).toISOString().slice(0, 10),
    );
    const doubled = days.filter((date) => {
      const moment = resolved('sunset', { ...fairbanks, date });
      return moment.kind === 'at' && moment.notes.some(({ note }) => note === 'several');
    });
    expect(doubled.length).toBe(1);
    const date = doubled[0] as string;
    const moment = resolved('sunset', { ...fairbanks, date });
    if (moment.kind !== 'at' || moment.notes[0]?.note !== 'several') throw new Error('Not twice.');
    const midnight = Date.parse(`${date}T08:00:00Z`);
    const other = sunsets(midnight, midnight + 86_400_000, [64.84, -147.72]);
    expect(other.length).toBe(2);
    moment.notes[0].instants.forEach((ms, place) => {
      // A minute: the sun sets at a shallow angle there.
      expect(Math.abs(ms - (other[place] as number))).toBeLessThan(60_000);
    });
    expect(moment.instantMs).toBe(moment.notes[0].instants[0]);
    // Named, each is found, and nothing is left open.
    const [first, second, third] = ['first', 'second', 'third'].map((word) =>
      resolved(`${word} sunset`, { ...fairbanks, date }),
    );
    const [firstMs = 0, secondMs = 0] = moment.notes[0].instants;
    expect(first).toEqual({ kind: 'at', instantMs: firstMs, notes: [] });
    expect(second).toEqual({ kind: 'at', instantMs: secondMs, notes: [] });
    expect(third).toMatchObject({ kind: 'failed', failure: 'no-such-event', occurrence: 3 });
  });

  test('of the day before is about a day earlier', () => {
    const [today, yesterday] = [resolved('sunset'), resolved('sunset previous day')];
    if (today.kind !== 'at' || yesterday.kind !== 'at') throw new Error('Not resolved.');
    const minutes = (today.instantMs - yesterday.instantMs) / 60_000;
    // At 54° in March the sun sets about two minutes later each day.
    expect(minutes).toBeGreaterThan(1441);
    expect(minutes).toBeLessThan(1443);
  });

  test.each([
    ['sunrise', '2026-12-21', '69.65, 18.96', 'Europe/Oslo'],
    ['sunset + 10 min', '2027-06-21', '69.65, 18.96', 'Europe/Oslo'],
    ['astronomical dusk', '2027-06-21', '54.43, -2.61', 'Europe/London'],
    ['high water', '2027-03-20', '54.43, -2.61', 'Europe/London'],
    ['sun clears skyline', '2026-12-21', '69.65, 18.96', 'Europe/Oslo'],
  ])('that does not happen is no time: %s on %s', (event, date, at, zone) => {
    expect(instant(resolved(event, { date, at, zone }))).toBe('no-such-event');
  });

  test('goes with the date: the day moves with it', () => {
    const shots = ['id: s, shutter: 1 s, start: sunrise + 10 min'];
    const on = (date: string) =>
      dayOf(planText({ date, spot: ['arrive: sunrise - 30 min'], shots })).spots[0];
    const [march, june] = [on('2027-03-20'), on('2027-06-20')];
    for (const spot of [march, june]) {
      expect((spot?.shots[0]?.startMs ?? 0) - (spot?.arriveMs ?? 0)).toBe(40 * 60_000);
    }
    // Sunrise comes hours earlier in June.
    const hours = (ms: number | undefined) => ((ms ?? 0) % 86_400_000) / 3_600_000;
    expect(hours(march?.arriveMs) - hours(june?.arriveMs)).toBeGreaterThan(2);
  });

  test('of the next day is about a day later', () => {
    const [today, tomorrow] = [resolved('sunrise'), resolved('sunrise next day')];
    if (today.kind !== 'at' || tomorrow.kind !== 'at') throw new Error('Not resolved.');
    const minutes = (tomorrow.instantMs - today.instantMs) / 60_000;
    // At 54° in March the sun rises between two and three minutes earlier each day.
    expect(minutes).toBeGreaterThan(1437);
    expect(minutes).toBeLessThan(1438);
  });

  test('of the tide is the first of the day in the plan’s table', () => {
    const head = [
      'tides: [{ low: 06:12, height: 0.9 m }, { high: 12:24, height: 5.4 m }, { high: 00:10 next day }]',
    ];
    expect(instant(resolved('high water - 2 h', { head }))).toBe('2027-03-20T10:24:00Z');
    expect(instant(resolved('low water', { head }))).toBe('2027-03-20T06:12:00Z');
    expect(instant(resolved('second low water', { head }))).toBe('no-such-event');
  });

  test('of the tide may be the second of the day, or one of the day before', () => {
    const head = ['tides: [{ high: 23:40 previous day }, { high: 00:20 }, { low: 06:30 }, { high: 12:44 }]'];
    expect(instant(resolved('second high water - 2 h', { head }))).toBe('2027-03-20T10:44:00Z');
    expect(instant(resolved('high water previous day', { head }))).toBe('2027-03-19T23:40:00Z');
  });
});

describe('The earlier and the later of several', () => {
  test.each([
    ['earlier of 09:00, 08:00 + 30 min', '2027-03-20T08:30:00Z'],
    ['later of 09:00, 08:00 + 30 min', '2027-03-20T09:00:00Z'],
    // One that cannot be leaves the choice to the others.
    ['earlier of high water, 09:00', '2027-03-20T09:00:00Z'],
    ['later of high water, low water', 'no-such-event'],
    ['later of 09:00, after nobody', 'unknown'],
  ])('%s', (moment, expected) => {
    expect(instant(resolved(moment))).toBe(expected);
  });
});

describe('A chain', () => {
  /** Shots of one second in flow mappings, each with its start. */
  const chain = (count: number, start: (n: number) => string) =>
    Array.from({ length: count }, (_, n) => `id: s${n}, shutter: 1 s, start: "${start(n)}"`);
  const startOfFirst = (shots: readonly string[], spot: readonly string[] = ['arrive: 06:00']) =>
    utc(dayOf(planText({ zone: 'UTC', spot, shots })).shots[0]?.startMs);

  // Each waits for the one below it, which takes a second.
  test.each([
    [2, '2027-03-20T06:00:01Z'],
    [199, '2027-03-20T06:03:18Z'],
    [301, '2027-03-20T06:05:00Z'],
    [3001, '2027-03-20T06:50:00Z'],
  ])('of %i shots, written backwards, has no limit', (count, expected) => {
    const shots = chain(count, (n) => (n + 1 < count ? `after s${n + 1}` : 'ready'));
    expect(startOfFirst(shots)).toBe(expected);
  });

  test('may fork: each waits for the later of the two below it', () => {
    const shots = chain(1001, (n) =>
      n + 2 < 1001 ? `later of after s${n + 1}, after s${n + 2}` : '06:00 + 10 s',
    );
    expect(startOfFirst(shots)).toBe('2027-03-20T06:16:49Z');
  });

  test('through shots without a start follows the order of the text', () => {
    const count = 2001;
    const later = Array.from({ length: count }, (_, n) => `      - { id: s${n}, shutter: 1 s }\n`).join('');
    const text = planText({ zone: 'UTC', spot: ['arrive: after s2000'] }).concat(
      `  - id: other\n    at: 54.44, -2.62\n    arrive: 07:00\n    shots:\n${later}`,
    );
    expect(utc(dayOf(text).spots[0]?.arriveMs)).toBe('2027-03-20T07:33:21Z');
  });

  test('that ends in a circle is one, however long', () => {
    const count = 1000;
    const { moments } = dayOf(planText({ shots: chain(count, (n) => `after s${(n + 1) % count}`) }));
    expect(new Set(moments.map(({ resolution }) => instant(resolution)))).toEqual(new Set(['circle']));
  });
});

test('Things that share an id, or have none, keep their own times', () => {
  const other =
    '    at: 54.44, -2.62\n    arrive: 07:00\n    shots:\n      - { shutter: 1 s }\n      - { id: last, shutter: 1 s }\n';
  const text = planText({ zone: 'UTC', spot: ['arrive: after last'], shots: ['shutter: 1 s'] });
  const { spots, moments } = dayOf(`${text}  - id: spot\n${other}`);
  expect(spots.map(({ arriveMs }) => utc(arriveMs))).toEqual([
    '2027-03-20T07:00:02Z',
    '2027-03-20T07:00:00Z',
  ]);
  expect(moments.map(({ resolution }) => resolution.kind)).toEqual(['at', 'at']);
});

describe('A circle', () => {
  test.each([
    [['arrive: ready'], []],
    [['arrive: arrive + 5 min'], []],
    [['arrive: after s'], ['id: s, shutter: 1 s']],
    [['arrive: 06:00'], ['id: s, shutter: 1 s, start: after s']],
    [
      ['arrive: 06:00'],
      ['id: s, shutter: 1 s, start: after t', 'id: t, shutter: 1 s, start: after s + 5 min'],
    ],
    [['arrive: 06:00'], ['id: s, shutter: 1 s, start: "earlier of 07:00, after s"']],
  ])('is reported where it stands: %j %j', (spot, shots) => {
    const { moments } = dayOf(planText({ spot, shots }));
    expect(moments.map(({ resolution }) => instant(resolution))).toContain('circle');
  });

  test('stops nothing else', () => {
    const day = dayOf(
      planText({
        spot: ['arrive: 06:00', 'setup: 10 min'],
        shots: ['id: s, shutter: 1 s, start: after s', 'id: t, shutter: 2 s, start: 07:00'],
      }),
    );
    expect(utc(day.spots[0]?.readyMs)).toBe('2027-03-20T06:10:00Z');
    expect(utc(day.shotOf('t')?.endMs)).toBe('2027-03-20T07:00:02Z');
    expect(day.shotOf('s')?.startMs).toBeUndefined();
  });
});
