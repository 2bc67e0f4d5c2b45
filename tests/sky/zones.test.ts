import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { civilMs, daysLater } from '../../server/sky/civil.ts';
import { staleZoneData } from '../../server/sky/zoneChanges.ts';
import { zoneAt, zonesDisagree, zonesNear, zoneUncertainty } from '../../server/sky/zoneLookup.ts';
import { isZone, type LocalTime, sameZone, zoneClock, zoneClocks } from '../../server/sky/zones.ts';

const HOUR_MS = 3_600_000;

/** Instants as text, so that a failure can be read. */
function readable(local: LocalTime): object {
  return Object.fromEntries(
    Object.entries(local).map(([key, value]) => [
      key,
      key.endsWith('Ms') ? new Date(value as number).toISOString() : value,
    ]),
  );
}

describe('a zone’s name', () => {
  it('is good when the runtime takes it, not when a list holds it', () => {
    // Node 20 lists Europe/Kiev and Asia/Calcutta, but neither of these, nor UTC.
    for (const name of [
      'Europe/Kyiv',
      'Asia/Kolkata',
      'UTC',
      'America/Coyhaique',
      'europe/london',
      'EST5EDT',
    ]) {
      expect(isZone(name), name).toBe(true);
    }
    for (const name of ['Europe/Nowhere', '', ' ', '+01:00', '-0300', 'Mars', 'Europe/London ', 'GMT+25']) {
      expect(isZone(name), name).toBe(false);
    }
    expect(() => zoneClock('Europe/Nowhere')).toThrow(RangeError);
  });

  it('may have two spellings for one zone, and is kept as written', () => {
    expect(sameZone('Europe/Kyiv', 'Europe/Kiev')).toBe(true);
    expect(sameZone('Asia/Kolkata', 'Asia/Calcutta')).toBe(true);
    expect(sameZone('Europe/Berlin', 'Europe/Paris')).toBe(false);
    expect(zoneClock('Europe/Kyiv').zone).toBe('Europe/Kyiv');
  });
});

describe('a clock', () => {
  it('shows the offsets of the runtime, in every zone, through a year with both changes', () => {
    for (const zone of Intl.supportedValuesOf('timeZone')) {
      const clock = zoneClock(zone);
      for (let index = 0; index < 40; index++) {
        const instantMs = Date.UTC(2026, 0, 1) + index * 9.13 * 24 * HOUR_MS;
        const { offsetNanoseconds } = Temporal.Instant.fromEpochMilliseconds(
          Math.floor(instantMs),
        ).toZonedDateTimeISO(zone);
        expect(clock.offsetSeconds(instantMs), zone).toBe(offsetNanoseconds / 1e9);
      }
    }
  });

  it.each(['Africa/Casablanca', 'Europe/London', 'America/Boa_Vista', 'Pacific/Apia', 'Australia/Lord_Howe'])(
    'misses no change of %s between 1950 and 2035',
    (zone) => {
      const clock = zoneClock(zone);
      let at = Temporal.Instant.fromEpochMilliseconds(Date.UTC(1950, 0, 1)).toZonedDateTimeISO(zone);
      let changes = 0;
      for (;;) {
        const next = at.getTimeZoneTransition('next');
        if (next === null || next.epochMilliseconds > Date.UTC(2035, 0, 1)) break;
        const ms = next.epochMilliseconds;
        const before = Temporal.Instant.fromEpochMilliseconds(ms - 1000).toZonedDateTimeISO(zone);
        expect(clock.offsetSeconds(ms - 1), next.toString()).toBe(before.offsetNanoseconds / 1e9);
        expect(clock.offsetSeconds(ms), next.toString()).toBe(next.offsetNanoseconds / 1e9);
        changes++;
        at = next;
      }
      expect(changes).toBeGreaterThan(5);
    },
  );

  it('reads back every local time that it shows', () => {
    for (const zone of [
      'Europe/Berlin',
      'America/New_York',
      'Asia/Kathmandu',
      'Pacific/Chatham',
      'Africa/Cairo',
    ]) {
      const clock = zoneClock(zone);
      for (let ms = Date.UTC(2026, 0, 1, 0, 20); ms < Date.UTC(2027, 0, 1); ms += 7.25 * HOUR_MS) {
        const local = new Date(ms + clock.offsetSeconds(ms) * 1000);
        const back = clock.resolve(
          clock.date(ms),
          local.getUTCHours(),
          local.getUTCMinutes(),
          local.getUTCSeconds(),
        );
        expect(
          back.kind === 'one'
            ? [back.instantMs]
            : back.kind === 'repeated'
              ? [back.earlierMs, back.laterMs]
              : [],
        ).toContain(ms);
      }
    }
  });

  it('says that a time is skipped, and what it would be on either side', () => {
    const berlin = zoneClock('Europe/Berlin').resolve({ year: 2026, month: 3, day: 29 }, 2, 30, 0);
    expect(readable(berlin)).toEqual({
      kind: 'skipped',
      beforeMs: '2026-03-29T00:30:00.000Z',
      afterMs: '2026-03-29T01:30:00.000Z',
      gapSeconds: 3600,
      changeMs: '2026-03-29T01:00:00.000Z',
    });
    // Half an hour only: 02:00 to 02:30.
    const howe = zoneClock('Australia/Lord_Howe');
    expect(howe.resolve({ year: 2026, month: 10, day: 4 }, 2, 15, 0)).toMatchObject({
      kind: 'skipped',
      gapSeconds: 1800,
    });
    expect(howe.resolve({ year: 2026, month: 10, day: 4 }, 2, 30, 0)).toMatchObject({ kind: 'one' });
  });

  it('says that a time comes twice, with both offsets', () => {
    const berlin = zoneClock('Europe/Berlin').resolve({ year: 2026, month: 10, day: 25 }, 2, 30, 0);
    expect(readable(berlin)).toEqual({
      kind: 'repeated',
      earlierMs: '2026-10-25T00:30:00.000Z',
      laterMs: '2026-10-25T01:30:00.000Z',
      earlierOffsetSeconds: 7200,
      laterOffsetSeconds: 3600,
    });
  });

  it('agrees with Temporal about every quarter of an hour of days with a change', () => {
    for (const [zone, year, month, day] of [
      ['Europe/Berlin', 2026, 3, 29],
      ['Europe/Berlin', 2026, 10, 25],
      ['Australia/Lord_Howe', 2026, 4, 5],
      ['Australia/Lord_Howe', 2026, 10, 4],
      ['Africa/Cairo', 2026, 4, 24],
      ['America/Nuuk', 2026, 3, 28],
      ['America/Nuuk', 2026, 10, 24],
      ['Pacific/Chatham', 2026, 9, 27],
      ['America/Havana', 2026, 11, 1],
      ['Pacific/Apia', 2011, 12, 30],
    ] as const) {
      const clock = zoneClock(zone);
      for (let quarter = 0; quarter < 96; quarter++) {
        const [hour, minute] = [Math.floor(quarter / 4), (quarter % 4) * 15];
        const plain = new Temporal.PlainDateTime(year, month, day, hour, minute);
        const earlier = plain.toZonedDateTime(zone, { disambiguation: 'earlier' }).epochMilliseconds;
        const later = plain.toZonedDateTime(zone, { disambiguation: 'later' }).epochMilliseconds;
        const ours = clock.resolve({ year, month, day }, hour, minute, 0);
        const pair =
          ours.kind === 'one'
            ? [ours.instantMs, ours.instantMs]
            : ours.kind === 'skipped'
              ? [ours.beforeMs, ours.afterMs]
              : [ours.earlierMs, ours.laterMs];
        expect(pair, `${zone} ${plain.toString()}`).toEqual([earlier, later]);
      }
    }
  });

  it.each([
    ['Europe/London', 2025, 3, 30, 23],
    ['America/New_York', 2026, 11, 1, 25],
    ['Australia/Lord_Howe', 2026, 4, 5, 24.5],
    ['Africa/Cairo', 2026, 4, 24, 23],
    ['America/Nuuk', 2026, 3, 28, 23],
    ['Pacific/Apia', 2011, 12, 30, 0],
    ['Asia/Tokyo', 2026, 5, 5, 24],
  ] as const)('%s has a day %d-%d-%d of %d hours', (zone, year, month, day, hours) => {
    const { startMs, endMs } = zoneClock(zone).day({ year, month, day });
    expect((endMs - startMs) / HOUR_MS).toBe(hours);
  });

  it('lets the days of a year follow each other without gap or overlap', () => {
    for (const zone of ['America/Nuuk', 'Africa/Casablanca', 'America/Asuncion', 'UTC']) {
      const clock = zoneClock(zone);
      let date = { year: 2025, month: 12, day: 30 };
      let end = clock.day(date).endMs;
      for (let index = 0; index < 370; index++) {
        date = daysLater(date, 1);
        const next = clock.day(date);
        expect(next.startMs, zone).toBe(end);
        expect(clock.date(next.startMs), zone).toEqual(date);
        end = next.endMs;
      }
    }
  });

  it('is made once for each zone by its source', () => {
    const clockOf = zoneClocks();
    expect(clockOf('Europe/Oslo')).toBe(clockOf('Europe/Oslo'));
    expect(clockOf('Europe/Oslo')).not.toBe(zoneClocks()('Europe/Oslo'));
  });

  it('takes early years at their word', () => {
    expect(new Date(civilMs({ year: 50, month: 1, day: 1 })).getUTCFullYear()).toBe(50);
    expect(zoneClock('UTC').date(civilMs({ year: 50, month: 7, day: 4 }))).toEqual({
      year: 50,
      month: 7,
      day: 4,
    });
  });
});

describe('the zone at a place', () => {
  const instantMs = Date.UTC(2026, 5, 10, 12);

  it('is looked up', () => {
    expect(zoneAt(54.43, -2.61)).toBe('Europe/London');
    expect(zoneAt(50.45, 30.52)).toBe('Europe/Kyiv');
    expect(isZone(zoneAt(90, 180))).toBe(true);
    expect(zoneAt(-17, 179.9)).toBe(zoneAt(-17, 179.9 - 360));
  });

  it('is doubtful near a border: the map has Norwegian ground for Russian', () => {
    const place = { latitude: 69.1475, longitude: 29.2427 };
    expect(zoneAt(place.latitude, place.longitude)).toBe('Europe/Moscow');
    expect(zoneUncertainty(place, instantMs)).toMatchObject({
      zone: 'Europe/Moscow',
      offsetSeconds: 10_800,
      others: [{ zone: 'Europe/Oslo', offsetSeconds: 7200 }],
    });
    // What the plan says stands: either side's time is possible here.
    expect(zonesDisagree(place, 'Europe/Oslo', instantMs)).toBeUndefined();
  });

  it('is not doubtful where the neighbour keeps the same time, nor by the sea', () => {
    // Near the border of Germany and France: one time.
    expect(zonesNear({ latitude: 48.6, longitude: 7.75 }).length).toBeGreaterThan(1);
    expect(zoneUncertainty({ latitude: 48.6, longitude: 7.75 }, instantMs)).toBeUndefined();
    // Off the coast of Spain the meridian zone is another; a beach is no border.
    expect(zoneUncertainty({ latitude: 43.46, longitude: -3.8 }, instantMs)).toBeUndefined();
  });

  it('contradicts a given zone with another time, and no other', () => {
    const place = { latitude: 54.43, longitude: -2.61 };
    expect(zonesDisagree(place, 'Europe/Berlin', instantMs)).toEqual({
      given: { zone: 'Europe/Berlin', offsetSeconds: 7200 },
      lookedUp: { zone: 'Europe/London', offsetSeconds: 3600 },
    });
    expect(zonesDisagree(place, 'Europe/London', instantMs)).toBeUndefined();
    expect(zonesDisagree(place, 'Europe/Jersey', instantMs)).toBeUndefined();
    // UTC is right in winter only.
    expect(zonesDisagree(place, 'UTC', instantMs)).toBeDefined();
    expect(zonesDisagree(place, 'UTC', Date.UTC(2026, 0, 10))).toBeUndefined();
  });
});

describe('old zone data', () => {
  it.each([
    // IANA tzdata 2026d, read beside 2025c; 1 November 2026, 02:00 local.
    ['America/Vancouver', '2026-12-01T12:00Z', -7],
    ['Canada/Pacific', '2027-01-15T12:00Z', -7],
    ['America/Edmonton', '2026-12-01T12:00Z', -6],
    ['America/Yellowknife', '2028-02-01T12:00Z', -6],
    ['Africa/Casablanca', '2026-11-01T12:00Z', 0],
  ])('of %s is found by the runtime’s own answer', (zone, iso, hours) => {
    const instantMs = Date.parse(iso);
    const local = Temporal.Instant.fromEpochMilliseconds(instantMs).toZonedDateTimeISO(zone);
    const runtimeOffsetSeconds = local.offsetNanoseconds / 1e9;
    expect(staleZoneData(zone, instantMs)).toEqual(
      runtimeOffsetSeconds === hours * 3600
        ? undefined
        : { expectedOffsetSeconds: hours * 3600, runtimeOffsetSeconds },
    );
  });

  it('is told from new by the offset alone', () => {
    const instantMs = Date.UTC(2026, 11, 1);
    const knowing = (offset: number) => ({ ...zoneClock('America/Vancouver'), offsetSeconds: () => offset });
    expect(staleZoneData('America/Vancouver', instantMs, knowing(-8 * 3600))).toEqual({
      expectedOffsetSeconds: -7 * 3600,
      runtimeOffsetSeconds: -8 * 3600,
    });
    expect(staleZoneData('America/Vancouver', instantMs, knowing(-7 * 3600))).toBeUndefined();
  });

  it('does not matter before the change, in summer, or elsewhere', () => {
    expect(staleZoneData('America/Vancouver', Date.UTC(2026, 9, 31))).toBeUndefined();
    expect(staleZoneData('America/Vancouver', Date.UTC(2027, 6, 1))).toBeUndefined();
    expect(staleZoneData('Europe/London', Date.UTC(2026, 11, 1))).toBeUndefined();
  });
});
