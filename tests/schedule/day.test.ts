import { describe, expect, test } from 'vitest';
import { dayOf, planText, utc } from './plans.ts';

/** Two visits by the clock, worked out by hand below. Instants are UTC, which is local time there in winter. */
const twoVisits = `plan: P
date: 2027-03-20
timezone: Europe/London
start: { leave: 04:30 }
spots:
  - id: first
    at: 54.43, -2.61
    drive: 35 min
    walk: { distance: 1 km, climb: 60 m }
    arrive: 05:30
    setup: 10 min
    pack: 5 min
    open: 05:00 .. 20:00
    shots:
      - { id: a, shutter: 30 s, frames: 2, gap: 10 s }
      - { id: b, shutter: 1 min, start: 06:00 }
      - { id: c, shutter: 2 s, start: after a + 5 min }
  - id: second
    at: 54.45, -2.60
    drive: 20 min
    walk: { time: 12 min }
    setup: 8 min
    shots:
      - { id: d, shutter: 4 s }
`;

describe('Two visits by the clock', () => {
  const day = dayOf(twoVisits);
  const [first, second] = day.spots;

  test('leaving, drive and walk give the earliest arrival; the plan’s own word goes before it', () => {
    // Naismith: 1 km at 5 km/h is 12 min, 60 m of climb 6 min more: 18 min there, 12 min back.
    expect(utc(day.leaveMs)).toBe('2027-03-20T04:30:00Z');
    expect(first?.walk).toEqual({
      thereSeconds: expect.closeTo(1080, 6),
      backSeconds: expect.closeTo(720, 6),
      estimated: true,
    });
    expect(utc(first?.earliestMs)).toBe('2027-03-20T05:23:00Z');
    expect(utc(first?.arriveMs)).toBe('2027-03-20T05:30:00Z');
    expect(utc(first?.leaveByMs)).toBe('2027-03-20T04:37:00Z');
    expect(first?.arrivalStated).toBe(true);
  });

  test('a shot without a start begins when ready, or when the shot before ends', () => {
    expect(utc(first?.readyMs)).toBe('2027-03-20T05:40:00Z');
    // Two frames that the dial keeps at 32 s, ten seconds between them: 74 s.
    expect(utc(day.shotOf('a')?.startMs)).toBe('2027-03-20T05:40:00Z');
    expect(utc(day.shotOf('a')?.endMs)).toBe('2027-03-20T05:41:14Z');
    expect(utc(day.shotOf('b')?.startMs)).toBe('2027-03-20T06:00:00Z');
    expect(utc(day.shotOf('b')?.endMs)).toBe('2027-03-20T06:01:00Z');
    expect(utc(day.shotOf('b')?.freeFromMs)).toBe('2027-03-20T05:41:14Z');
    expect(utc(day.shotOf('c')?.startMs)).toBe('2027-03-20T05:46:14Z');
  });

  test('the visit is over when the last frame of any shot ends, packed and walked back', () => {
    expect(utc(first?.doneMs)).toBe('2027-03-20T06:01:00Z');
    // 5 min to pack, 12 min to walk.
    expect(utc(first?.leaveMs)).toBe('2027-03-20T06:18:00Z');
    expect([utc(first?.opensMs), utc(first?.closesMs)]).toEqual([
      '2027-03-20T05:00:00Z',
      '2027-03-20T20:00:00Z',
    ]);
  });

  test('the next visit follows from it', () => {
    // 20 min of driving and 12 of walking.
    expect(utc(second?.earliestMs)).toBe('2027-03-20T06:50:00Z');
    expect(utc(second?.arriveMs)).toBe('2027-03-20T06:50:00Z');
    expect(second?.arrivalStated).toBe(false);
    expect(second?.leaveByMs).toBeUndefined();
    expect(utc(day.shotOf('d')?.startMs)).toBe('2027-03-20T06:58:00Z');
    expect(utc(second?.leaveMs)).toBe('2027-03-20T07:10:04Z');
  });
});

describe('What is broken', () => {
  test.each([
    ['setup: 10 min', 'setup: soon', { readyMs: undefined, arriveMs: '2027-03-20T05:30:00Z' }],
    ['pack: 5 min', 'pack: quickly', { leaveMs: undefined, doneMs: '2027-03-20T06:01:00Z' }],
    ['distance: 1 km', 'distance: far', { earliestMs: undefined, arriveMs: '2027-03-20T05:30:00Z' }],
    ['drive: 35 min', 'drive: long', { earliestMs: undefined, readyMs: '2027-03-20T05:40:00Z' }],
    ['arrive: 05:30', 'arrive: early', { arriveMs: undefined, earliestMs: '2027-03-20T05:23:00Z' }],
    ['at: 54.43, -2.61', 'at: there', { arriveMs: undefined, driveSeconds: undefined }],
  ])('takes with it only what leans on it: %s becomes %s', (whole, broken, expected) => {
    const [spot] = dayOf(twoVisits.replace(whole, broken)).spots;
    for (const [key, value] of Object.entries(expected)) {
      if (key === 'driveSeconds') continue;
      expect([key, utc(spot?.[key as 'arriveMs'])]).toEqual([key, value]);
    }
  });

  test('in one visit stays in it, where the next one says when it begins', () => {
    const text = twoVisits.replace('setup: 10 min', 'setup: soon').replace('setup: 8 min', 'arrive: 07:00');
    expect(utc(dayOf(text).shotOf('d')?.startMs)).toBe('2027-03-20T07:00:00Z');
  });
});

test('a plan goes on past midnight', () => {
  const day = dayOf(
    planText({
      spot: ['arrive: 23:30', 'setup: 15 min', 'pack: 10 min'],
      shots: ['id: trails, shutter: 20 min', 'id: points, shutter: 13 s, start: 00:30 next day'],
    }),
  );
  expect(utc(day.shotOf('trails')?.endMs)).toBe('2027-03-21T00:05:00Z');
  expect(utc(day.shotOf('points')?.startMs)).toBe('2027-03-21T00:30:00Z');
  expect(utc(day.spots[0]?.leaveMs)).toBe('2027-03-21T00:40:13Z');
});

test('each spot keeps its own clock where no zone is given', () => {
  // Two invented places on either side of a border of zones: Portugal keeps the time of London, Spain that of Berlin.
  const day = dayOf(
    'plan: P\ndate: 2027-03-20\nspots:\n  - { id: west, at: "41.80, -7.60", arrive: 09:00 }\n  - { id: east, at: "42.30, -7.20", arrive: 12:00 }\n',
  );
  expect(day.spots.map(({ at }) => at?.clock.zone)).toEqual(['Europe/Lisbon', 'Europe/Madrid']);
  expect(day.spots.map(({ arriveMs }) => utc(arriveMs))).toEqual([
    '2027-03-20T09:00:00Z',
    '2027-03-20T11:00:00Z',
  ]);
});

describe('The light on a shot', () => {
  const lit = (shot: string) =>
    dayOf(
      planText({ spot: ['arrive: 06:00'], shots: [`id: s, shutter: 1 s, start: solar noon, ${shot}`] }),
    ).shotOf('s')?.light?.direction;

  test.each([
    // At solar noon north of the tropics the sun stands in the south.
    ['facing: N', 'front-lit'],
    ['facing: S', 'back-lit'],
    ['facing: E', 'side-lit'],
    ['facing: W', 'side-lit'],
    ['subject: { at: "54.53, -2.61" }', 'front-lit'],
    ['subject: { at: "54.33, -2.61" }', 'back-lit'],
  ])('with %s at solar noon is %s', (shot, kind) => {
    expect(lit(shot)?.kind).toBe(kind);
  });

  test('comes from the right when the lens points east, from the left when it points west', () => {
    expect([lit('facing: E')?.side, lit('facing: W')?.side]).toEqual(['right', 'left']);
  });

  test('turns with magnetic bearings by the declination of place and date', () => {
    const facing = (head: readonly string[]) =>
      dayOf(planText({ head, spot: ['arrive: 06:00'], shots: ['id: s, facing: 100°'] })).shotOf('s')?.facing;
    expect(facing([])?.degrees).toBe(100);
    const turned = facing(['bearings: magnetic']);
    expect(turned?.degrees).toBeCloseTo(100 + (turned?.declination?.degrees ?? Number.NaN), 9);
    // WMM2025 gives about half a degree west to one degree east in the north of England in 2027.
    expect(Math.abs(turned?.declination?.degrees ?? Number.NaN)).toBeLessThan(2);
  });
});

describe('A shot that is only begun', () => {
  const begun = (shot: string) =>
    dayOf(
      twoVisits
        .replace('      - { id: b,', `      - ${shot}\n      - { id: b,`)
        .replace(', start: 06:00', ''),
    );

  test('counts nothing yet and keeps none of the others waiting', () => {
    const day = begun('{ id: new, facing: 20° }');
    expect(utc(day.shotOf('b')?.startMs)).toBe(utc(day.shotOf('a')?.endMs));
    expect(day.shotOf('new')?.frames).toBeUndefined();
    expect(day.spots[0]?.leaveMs).toBeDefined();
  });

  test('one whose time is written and cannot be worked out does', () => {
    for (const shot of ['{ id: new, shutter: soon }', '{ id: new, metered: 1/2 s, filters: [nothing] }']) {
      expect(begun(shot).shotOf('b')?.startMs, shot).toBeUndefined();
    }
  });
});
