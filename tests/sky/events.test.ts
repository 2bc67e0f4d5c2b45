import { describe, expect, it } from 'vitest';
import type { CivilDate } from '../../server/quantities/date.ts';
import { type EventName, events } from '../../server/quantities/events.ts';
import { nextOccurrence, spellWithout } from '../../server/sky/absence.ts';
import { civilMs, daysLater } from '../../server/sky/civil.ts';
import { type Sighting, type SkyOptions, skyDay } from '../../server/sky/events.ts';
import { skyline } from '../../server/sky/skyline.ts';
import { zoneClock, zoneClocks } from '../../server/sky/zones.ts';
import type { TruthCase } from '../support/truth.ts';
import { amountOf, checkPublished, dateOf, placeOf, textOf, toleranceOf } from './published.ts';

const clockOf = zoneClocks();

type PlaceInput = { latitude: number; longitude: number };

function timesOf(sighting: Sighting): readonly number[] {
  return sighting.kind === 'at' ? [sighting.instantMs, ...sighting.others] : [];
}

/** All times of an event on three civil dates around one. */
function timesAround(name: EventName, place: PlaceInput, zone: string, date: CivilDate): number[] {
  return [-1, 0, 1].flatMap((days) =>
    timesOf(skyDay(place, daysLater(date, days), clockOf(zone)).event(name)),
  );
}

const dawns: readonly EventName[] = ['astronomical dawn', 'nautical dawn', 'civil dawn', 'sunrise'];
const dusks: readonly EventName[] = ['sunset', 'civil dusk', 'nautical dusk', 'astronomical dusk'];

function keyOf(name: EventName): string {
  return name.replace(' ', '_');
}

/** Thresholds by the names of the published cases. */
const thresholds: Readonly<Record<string, EventName>> = {
  horizon: 'sunrise',
  civil: 'civil dawn',
  nautical: 'nautical dawn',
  astronomical: 'astronomical dawn',
};

function seconds(a: number, b: number): number {
  return Math.abs(a - b) / 1000;
}

function expectSunEvents(one: TruthCase): void {
  const { input, expected } = one;
  const place = placeOf(input);
  const zone = textOf(input.time_zone);
  const date = dateOf(input.date);
  const noon = skyDay(place, date, clockOf(zone)).event('solar noon');
  if (noon.kind !== 'at') throw new Error('no solar noon');
  if ('solar_noon' in expected) {
    expect(seconds(noon.instantMs, Date.parse(textOf(expected.solar_noon)))).toBeLessThanOrEqual(
      toleranceOf(one, 'solar_noon'),
    );
  }
  const halfDay = 43_200_000;
  for (const name of [...dawns, ...dusks]) {
    // The published convention: the nearest before noon or after it, if there is one within half a day.
    const around = timesAround(name, place, zone, date);
    const beside = dawns.includes(name)
      ? around.filter((ms) => ms <= noon.instantMs && noon.instantMs - ms < halfDay).at(-1)
      : around.find((ms) => ms >= noon.instantMs && ms - noon.instantMs < halfDay);
    const wanted = expected[keyOf(name)];
    if (wanted === null) {
      expect(beside, name).toBeUndefined();
    } else {
      expect(beside, name).toBeTypeOf('number');
      expect(seconds(beside as number, Date.parse(textOf(wanted))), name).toBeLessThanOrEqual(
        toleranceOf(one, keyOf(name)),
      );
    }
  }
  for (const [key, stays] of [
    ['always_above', 'above'],
    ['always_below', 'below'],
  ] as const) {
    for (const threshold of (expected[key] as string[] | undefined) ?? []) {
      const sighting = skyDay(place, date, clockOf(zone)).event(thresholds[threshold] as EventName);
      expect(sighting, `${threshold} ${key}`).toMatchObject({ kind: 'never', facts: { stays } });
    }
  }
}

checkPublished('sun_events', 29, {}, expectSunEvents);

const usnoNames: Readonly<Record<string, EventName>> = {
  sun_civil_dawn: 'civil dawn',
  sun_rise: 'sunrise',
  sun_set: 'sunset',
  sun_civil_dusk: 'civil dusk',
  moon_rise: 'moonrise',
  moon_set: 'moonset',
};

checkPublished('usno_minutes', 10, {}, (one) => {
  const { input, expected } = one;
  const place = placeOf(input);
  const clock = clockOf(textOf(input.time_zone));
  if ('year' in input) {
    for (const [key, name] of [
      ['sun_rise', 'sunrise'],
      ['sun_set', 'sunset'],
    ] as const) {
      const wanted = Date.parse(textOf(expected[key]));
      const found = timesOf(skyDay(place, clock.date(wanted), clock).event(name));
      expect(found).toHaveLength(1);
      expect(seconds(found[0] as number, wanted)).toBeLessThanOrEqual(toleranceOf(one, key));
    }
    return;
  }
  const date = dateOf(input.date);
  const day = skyDay(place, date, clock);
  for (const [key, value] of Object.entries(expected)) {
    if (value === true) {
      const [body, , stays] = key.split('_');
      const name = body === 'sun' ? 'sunrise' : 'moonrise';
      expect(day.event(name), key).toMatchObject({ kind: 'never', facts: { body, stays } });
      continue;
    }
    const name = usnoNames[key];
    if (name === undefined) throw new Error(`unknown name ${key}`);
    const wanted = [value].flat().map((text) => {
      const [hour = 0, minute = 0] = textOf(text).split(':').map(Number);
      return civilMs(date, hour, minute);
    });
    const found = timesOf(day.event(name));
    expect(found, key).toHaveLength(wanted.length);
    found.forEach((ms, index) => {
      expect(seconds(ms, wanted[index] as number), key).toBeLessThanOrEqual(toleranceOf(one, key));
    });
  }
});

checkPublished('moon_rise_set', 11, {}, (one) => {
  const { input, expected } = one;
  const day = skyDay(placeOf(input), dateOf(input.date), clockOf(textOf(input.time_zone)));
  expect((day.endMs - day.startMs) / 3_600_000).toBe(expected.day_length_h);
  for (const name of ['moonrise', 'moonset'] as const) {
    const wanted = expected[name] === null ? [] : [expected[name]].flat();
    const found = timesOf(day.event(name));
    expect(found, name).toHaveLength(wanted.length);
    found.forEach((ms, index) => {
      expect(seconds(ms, Date.parse(textOf(wanted[index]))), name).toBeLessThanOrEqual(
        toleranceOf(one, name),
      );
    });
    if (expected.always_above) expect(day.event(name)).toMatchObject({ facts: { stays: 'above' } });
    if (expected.always_below) expect(day.event(name)).toMatchObject({ facts: { stays: 'below' } });
  }
});

checkPublished(
  'nrel_spa',
  8,
  {
    'nrel_spa-01': 'intermediate values of that algorithm; positions are tested with the positions',
    'nrel_spa-02': 'a position, tested with the positions',
    'nrel_spa-03': 'an angle, tested with the positions',
    'nrel_spa-07': 'a Julian day; the program counts in epoch milliseconds and never shows one',
    'nrel_spa-08': 'a Julian day; the program counts in epoch milliseconds and never shows one',
  },
  (one) => {
    const { input, expected } = one;
    const local = 'local_time' in input;
    const date = dateOf(local ? textOf(input.local_time).slice(0, 10) : input.date);
    // The example's clock stands at -07:00 all year.
    const day = skyDay(placeOf(input), date, clockOf(local ? 'Etc/GMT+7' : 'UTC'));
    // The algorithm takes the day of UT: at -07:00 its sunset is that of the evening before.
    const eveningBefore = skyDay(placeOf(input), daysLater(date, -1), clockOf('Etc/GMT+7'));
    const suffix = local ? '-07:00' : 'Z';
    const iso = textOf(local ? input.local_time : `${textOf(input.date)}T`).slice(0, 10);
    for (const name of ['sunrise', 'sunset'] as const) {
      const key = `${name}_${local ? 'local' : 'ut'}`;
      const before = local && name === 'sunset';
      const found = timesOf((before ? eveningBefore : day).event(name)).map(
        (ms) => ms + (before ? 86_400_000 : 0),
      );
      expect(found).toHaveLength(1);
      const wanted = Date.parse(`${iso}T${textOf(expected[key])}${suffix}`);
      expect(seconds(found[0] as number, wanted), key).toBeLessThanOrEqual(toleranceOf(one, key));
    }
  },
);

describe('rise and set over a sea horizon', () => {
  it('are earlier and later by the dip (horizon-13, Swiss Ephemeris)', () => {
    const place = { latitude: 52.9715, longitude: -9.4309 };
    const at = (name: EventName, options: SkyOptions) =>
      timesOf(
        skyDay(place, { year: 2026, month: 8, day: 15 }, clockOf('Europe/Dublin'), options).event(name),
      )[0];
    const with200m = { horizonDipMetres: 200 };
    const expectAt = (actual: number | undefined, wanted: string) =>
      expect(seconds(actual as number, Date.parse(wanted))).toBeLessThanOrEqual(8);
    expectAt(at('sunrise', with200m), '2026-08-15T06:15:45+01:00');
    expectAt(at('sunset', with200m), '2026-08-15T21:07:31+01:00');
    expectAt(at('sunset', {}), '2026-08-15T21:04:29+01:00');
    // Twilight is counted from the level plane, wherever the eye is.
    expect(at('civil dusk', with200m)).toBe(at('civil dusk', {}));
  });

  it('do not move with the elevation of the place: it is above sea level, not above the horizon', () => {
    const date = { year: 2026, month: 5, day: 2 };
    const clock = clockOf('Asia/Jerusalem');
    const low = skyDay({ latitude: 31.5, longitude: 35.5, elevationMetres: -420 }, date, clock);
    const level = skyDay({ latitude: 31.5, longitude: 35.5 }, date, clock);
    const high = skyDay({ latitude: 31.5, longitude: 35.5, elevationMetres: 3700 }, date, clock);
    for (const name of ['sunrise', 'sunset', 'moonrise'] as const) {
      expect(level.event(name).kind).toBe('at');
      expect(low.event(name)).toEqual(level.event(name));
      expect(high.event(name)).toEqual(level.event(name));
    }
  });
});

describe('the civil day', () => {
  it('holds solar noon on the date that was asked for, in every zone', () => {
    const zones = [...Intl.supportedValuesOf('timeZone'), 'UTC'];
    expect(zones.length).toBeGreaterThan(400);
    const date = { year: 2026, month: 6, day: 10 };
    for (const zone of zones) {
      const clock = zoneClock(zone);
      // A place on the zone's own side of the date line: where the sun is highest about 12:00 to 13:30.
      const offset = clock.offsetSeconds(civilMs(date, 0)) / 240;
      const place = { latitude: 10, longitude: ((((offset - 10) % 360) + 540) % 360) - 180 };
      const noon = skyDay(place, date, clock).event('solar noon');
      expect(noon, zone).toMatchObject({ kind: 'at', others: [] });
      if (noon.kind === 'at') expect(clock.date(noon.instantMs), zone).toEqual(date);
    }
  });

  it.each([
    ['Pacific/Apia', -13.8, -171.76],
    ['Pacific/Kiritimati', 1.8721, -157.4278],
    ['Pacific/Tongatapu', -21.14, -175.2],
    ['Pacific/Chatham', -43.95, -176.55],
    ['Pacific/Fiji', -17, 179.9],
    ['Pacific/Fiji', -17, -179.9],
    ['Europe/Berlin', 52.5, 13.4],
  ])('is not taken for its neighbour in %s at %d, %d', (zone, latitude, longitude) => {
    const date = { year: 2026, month: 6, day: 10 };
    const day = skyDay({ latitude, longitude }, date, clockOf(zone));
    for (const name of ['sunrise', 'solar noon', 'sunset'] as const) {
      const sighting = day.event(name);
      if (sighting.kind !== 'at') throw new Error(`no ${name}`);
      expect(clockOf(zone).date(sighting.instantMs), name).toEqual(date);
    }
  });

  it('has sunset at 18:06 in Apia on 2026-06-10', () => {
    const day = skyDay(
      { latitude: -13.8, longitude: -171.76 },
      { year: 2026, month: 6, day: 10 },
      clockOf('Pacific/Apia'),
    );
    const sunset = timesOf(day.event('sunset'))[0] as number;
    expect(seconds(sunset, Date.parse('2026-06-10T18:06:00+13:00'))).toBeLessThan(60);
  });

  it('keeps both moonrises and names no other', () => {
    // A library that scans the day of UTC and stops after one rise loses the second.
    const day = skyDay(
      { latitude: 69.65, longitude: 18.96 },
      { year: 2026, month: 6, day: 11 },
      clockOf('Europe/Oslo'),
    );
    const minutes = (name: EventName) =>
      timesOf(day.event(name)).map((ms) => Math.round((ms - day.startMs) / 60_000));
    // Read off to the minute: 00:25 and 23:39, set at 18:48.
    expect(
      minutes('moonrise').map((at, index) => Math.abs(at - ([25, 23 * 60 + 39][index] ?? 0)) <= 1),
    ).toEqual([true, true]);
    expect(minutes('moonset')).toEqual([18 * 60 + 48]);
  });

  it('is empty where a zone left a date out, and says so', () => {
    const day = skyDay(
      { latitude: -13.8, longitude: -171.76 },
      { year: 2011, month: 12, day: 30 },
      clockOf('Pacific/Apia'),
    );
    expect(day.endMs - day.startMs).toBe(0);
    for (const { name } of events)
      expect(day.event(name)).toMatchObject({ kind: 'never', facts: { emptyDate: true } });
    expect(Number.isFinite(day.sunRange().highestDegrees)).toBe(true);
  });

  it('gives no time outside itself, for any event, place and season', () => {
    for (let index = 0; index < 400; index++) {
      const place = { latitude: -89.5 + ((index * 37) % 180), longitude: -180 + ((index * 71) % 360) };
      const date = daysLater({ year: 2026, month: 1, day: 1 }, (index * 53) % 365);
      const clock = clockOf(['UTC', 'Pacific/Kiritimati', 'America/Anchorage'][index % 3] as string);
      const day = skyDay(place, date, clock, {
        skyline: skyline([{ azimuthDegrees: 90, altitudeDegrees: 8 }]),
      });
      for (const { name } of events) {
        const times = timesOf(day.event(name));
        for (const ms of times) {
          expect(ms).toBeGreaterThanOrEqual(day.startMs);
          expect(ms).toBeLessThanOrEqual(day.endMs);
        }
        expect([...times].sort((a, b) => a - b)).toEqual(times);
      }
    }
  });

  it('gives the same answer however often and in whatever order it is asked', () => {
    const make = () =>
      skyDay({ latitude: 60, longitude: 5 }, { year: 2026, month: 4, day: 3 }, clockOf('Europe/Oslo'));
    const one = make();
    const forward = events.map(({ name }) => one.event(name));
    const other = make();
    const backward = [...events].reverse().map(({ name }) => other.event(name));
    expect(backward.reverse()).toEqual(forward);
    expect(one.event('sunrise')).toBe(one.event('sunrise'));
  });
});

describe('an event that does not happen', () => {
  const reason = (name: EventName, latitude: number, longitude: number, date: CivilDate, zone: string) => {
    const sighting = skyDay({ latitude, longitude }, date, clockOf(zone)).event(name);
    return sighting.kind === 'never' ? sighting.reason : 'happens';
  };

  it('says how deep or how high the sun gets', () => {
    const midsummer = { year: 2026, month: 6, day: 21 };
    const midwinter = { year: 2026, month: 12, day: 21 };
    expect([
      reason('astronomical dusk', 52.5, 13.4, midsummer, 'Europe/Berlin'),
      reason('sunset', 69.6492, 18.9553, midsummer, 'Europe/Oslo'),
      reason('sunrise', 69.6492, 18.9553, midwinter, 'Europe/Oslo'),
      reason('morning golden hour end', 63, 10.4, midwinter, 'Europe/Oslo'),
      reason('civil dawn', 78.2232, 15.6267, midwinter, 'Arctic/Longyearbyen'),
      reason('moonrise', 55.9533, -3.1883, { year: 2026, month: 10, day: 5 }, 'Europe/London'),
      reason('moonset', 69.6492, 18.9553, { year: 2026, month: 12, day: 23 }, 'Europe/Oslo'),
      reason('sun clears skyline', 50, 0, midsummer, 'UTC'),
      reason('high water', 50, 0, midsummer, 'UTC'),
    ]).toMatchInlineSnapshot(`
      [
        "the sun stays above −18° all day (lowest −14.1°)",
        "the sun stays above the horizon all day (lowest 3.1°)",
        "the sun stays below the horizon all day (highest −3.1°)",
        "the sun stays below 6° all day (highest 3.6°)",
        "the sun stays below −6° all day (highest −11.7°)",
        "the moon sets on this date but does not rise",
        "the moon stays above the horizon all day (lowest 6.5°)",
        "no skyline is given for this spot",
        "no high water is given for this date",
      ]
    `);
  });

  it('is told from the polar day when sunset only slips past midnight', () => {
    const dayOf = (date: CivilDate) =>
      skyDay({ latitude: 64.1466, longitude: -21.9426 }, date, clockOf('Atlantic/Reykjavik'));
    const dates = Array.from({ length: 40 }, (_, index) =>
      daysLater({ year: 2026, month: 6, day: 1 }, index),
    );
    const without = dates.filter((date) => dayOf(date).event('sunset').kind === 'never');
    expect(without).toHaveLength(1);
    expect(dayOf(without[0] as CivilDate).event('sunset')).toMatchObject({
      reason: 'the sun rises on this date but does not set',
      facts: { stays: 'crosses' },
    });
    const twice = dates.filter((date) => timesOf(dayOf(date).event('sunset')).length === 2);
    expect(twice).toHaveLength(1);
  });

  it('gives the altitudes and their instants as facts', () => {
    const day = skyDay(
      { latitude: 63, longitude: 10.4 },
      { year: 2026, month: 12, day: 21 },
      clockOf('Europe/Oslo'),
    );
    const golden = day.event('morning golden hour end');
    if (golden.kind !== 'never') throw new Error('the sun does not reach 6° there');
    expect(golden.facts).toMatchObject({ body: 'sun', thresholdDegrees: 6, direction: 'up', stays: 'below' });
    // 90° - 63° - 23.44° = 3.56° at noon, from the definition of latitude and obliquity.
    expect(golden.facts.highestDegrees).toBeCloseTo(3.56, 1);
    const noon = timesOf(day.event('solar noon'))[0] as number;
    expect(seconds(golden.facts.highestAtMs as number, noon)).toBeLessThan(60);
    // Low light from sunrise 09:55 to sunset 14:38.
    expect(
      seconds(timesOf(day.event('sunrise'))[0] as number, Date.parse('2026-12-21T10:02:00+01:00')),
    ).toBeLessThan(480);
  });

  it('knows between which dates there is no astronomical night at 52.5° N', () => {
    const dayOf = (date: CivilDate) =>
      skyDay({ latitude: 52.5, longitude: 13.4 }, date, clockOf('Europe/Berlin'));
    const spell = spellWithout('astronomical dusk', { year: 2026, month: 6, day: 21 }, dayOf);
    // The sun's declination must stay above 90° - 52.5° - 18° = 19.5°: about 19 May to 25 July (Astronomical Almanac, from memory).
    expect(spell?.first?.month).toBe(5);
    expect(spell?.last?.month).toBe(7);
    const before = dayOf(daysLater(spell?.first as CivilDate, -1)).event('astronomical dusk');
    const after = dayOf(daysLater(spell?.last as CivilDate, 1)).event('astronomical dusk');
    expect([before.kind, after.kind]).toEqual(['at', 'at']);
    expect(spellWithout('sunset', { year: 2026, month: 6, day: 21 }, dayOf)).toBeUndefined();
  });

  it('names the next moonrise on a day without one', () => {
    const dayOf = (date: CivilDate) =>
      skyDay({ latitude: 55.9533, longitude: -3.1883 }, date, clockOf('Europe/London'));
    const date = { year: 2026, month: 10, day: 5 };
    const next = nextOccurrence('moonrise', date, dayOf, 3);
    expect(next?.date).toEqual({ year: 2026, month: 10, day: 6 });
    expect(next?.instantMs).toBe(timesOf(dayOf({ year: 2026, month: 10, day: 6 }).event('moonrise'))[0]);
    expect(nextOccurrence('high water', date, dayOf, 3)).toBeUndefined();
  });
});

describe('morning and evening', () => {
  it('are told by whether the sun rises or falls, not by the clock', () => {
    // Reykjavik at midsummer: the sun sets shortly after midnight and rises three hours later.
    const day = skyDay(
      { latitude: 64.1466, longitude: -21.9426 },
      { year: 2026, month: 6, day: 22 },
      clockOf('Atlantic/Reykjavik'),
    );
    const sunset = timesOf(day.event('sunset'))[0] as number;
    const sunrise = timesOf(day.event('sunrise'))[0] as number;
    expect(sunset).toBeLessThan(sunrise);
    expect(seconds(sunset, Date.parse('2026-06-22T00:03:58Z'))).toBeLessThan(19);
    expect(timesOf(day.event('evening golden hour start'))[0]).toBeGreaterThan(sunrise);
  });

  it('have their hours in order on an ordinary day', () => {
    const day = skyDay(
      { latitude: 54.43, longitude: -2.61 },
      { year: 2027, month: 3, day: 20 },
      clockOf('Europe/London'),
    );
    const sunEvents = events.filter(({ body, name }) => body === 'sun' && !name.includes('skyline'));
    const times = sunEvents.map(({ name }) => timesOf(day.event(name))[0] as number);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(times).toHaveLength(17);
    const at = (name: EventName) => timesOf(day.event(name))[0];
    expect(at('morning blue hour start')).toBe(at('civil dawn'));
    expect(at('morning blue hour end')).toBe(at('morning golden hour start'));
    expect(at('evening golden hour end')).toBe(at('evening blue hour start'));
  });
});

describe('high and low water', () => {
  it('come from the given list, within the civil date', () => {
    const at = (text: string) => Date.parse(`2027-03-${text}Z`);
    const tides = [
      { kind: 'high', instantMs: at('20T18:50') },
      { kind: 'low', instantMs: at('20T00:10') },
      { kind: 'high', instantMs: at('20T06:24') },
      { kind: 'low', instantMs: at('21T00:40') },
    ] as const;
    const day = skyDay(
      { latitude: 54, longitude: -3 },
      { year: 2027, month: 3, day: 20 },
      clockOf('Europe/London'),
      { tides },
    );
    expect(day.event('high water')).toEqual({
      kind: 'at',
      instantMs: at('20T06:24'),
      others: [at('20T18:50')],
    });
    expect(day.event('low water')).toEqual({ kind: 'at', instantMs: at('20T00:10'), others: [] });
  });
});

describe('the range of altitudes', () => {
  it('has its ends where the latitude puts them', () => {
    const day = skyDay({ latitude: 50, longitude: 0 }, { year: 2026, month: 6, day: 21 }, clockOf('UTC'));
    const range = day.sunRange();
    expect(range.highestDegrees).toBeCloseTo(90 - 50 + 23.44, 1);
    expect(range.lowestDegrees).toBeCloseTo(23.44 - 40, 1);
    const noon = timesOf(day.event('solar noon'))[0] as number;
    expect(seconds(range.highestAtMs, noon)).toBeLessThan(5);
    const moon = day.moonRange();
    expect(moon.highestDegrees).toBeGreaterThan(moon.lowestDegrees);
    expect(amountOf(moon.highestAtMs)).toBeGreaterThanOrEqual(day.startMs);
  });
});
