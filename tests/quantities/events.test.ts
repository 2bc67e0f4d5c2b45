import { describe, expect, test } from 'vitest';
import { type EventName, eventNamed, events, eventsLike } from '../../server/quantities/events.ts';

test('every event stands once', () => {
  expect(events.map((event) => event.name).sort()).toEqual([
    'astronomical dawn',
    'astronomical dusk',
    'civil dawn',
    'civil dusk',
    'evening blue hour end',
    'evening blue hour start',
    'evening golden hour end',
    'evening golden hour start',
    'high water',
    'low water',
    'moon clears skyline',
    'moon leaves skyline',
    'moon transit',
    'moonrise',
    'moonset',
    'morning blue hour end',
    'morning blue hour start',
    'morning golden hour end',
    'morning golden hour start',
    'nautical dawn',
    'nautical dusk',
    'solar noon',
    'sun clears skyline',
    'sun leaves skyline',
    'sunrise',
    'sunset',
  ]);
});

describe('altitudes', () => {
  // U.S. Naval Observatory, "Rise, Set, and Twilight Definitions": 90°50′ from the zenith, and 6°, 12°, 18° below the
  // horizon. Blue and golden hour: common practice, no source.
  const defined: [EventName, number][] = [
    ['sunrise', -0.8333],
    ['sunset', -0.8333],
    ['civil dawn', -6],
    ['civil dusk', -6],
    ['nautical dawn', -12],
    ['nautical dusk', -12],
    ['astronomical dawn', -18],
    ['astronomical dusk', -18],
    ['morning blue hour start', -6],
    ['morning blue hour end', -4],
    ['morning golden hour start', -4],
    ['morning golden hour end', 6],
    ['evening golden hour start', 6],
    ['evening golden hour end', -4],
    ['evening blue hour start', -4],
    ['evening blue hour end', -6],
  ];

  test.each(defined)('%s', (name, degrees) => {
    const event = eventNamed(name);
    expect(event?.altitudeDegrees).toBeCloseTo(degrees, 4);
    const rising = /dawn|morning|sunrise/.test(name);
    expect(event?.direction).toBe(rising ? 'up' : 'down');
  });

  test('rising and setting come in the order of a day', () => {
    const altitudes = (direction: string) =>
      events
        .filter((event) => event.body === 'sun' && event.direction === direction)
        .flatMap((event) => event.altitudeDegrees ?? []);
    expect(altitudes('up')).toEqual([...altitudes('up')].sort((a, b) => a - b));
    expect(altitudes('down')).toEqual([...altitudes('down')].sort((a, b) => b - a));
  });

  test('the skyline, the meridian and the tide have no altitude', () => {
    const without = events.filter((event) => event.altitudeDegrees === undefined).map((event) => event.name);
    expect(without).toHaveLength(8);
    expect(without.every((name) => /skyline|noon|transit|water/.test(name))).toBe(true);
  });
});

describe('names', () => {
  test.each([
    ['Sunrise', 'sunrise'],
    ['sun rise', 'sunrise'],
    ['moon-set', 'moonset'],
    ['SUN  CLEARS\tSKYLINE', 'sun clears skyline'],
    ['morning_blue_hour_start', 'morning blue hour start'],
    ['sunup', undefined],
    ['constructor', undefined],
    ['', undefined],
    ['sunrise '.repeat(20_000), undefined],
  ])('%s', (text, name) => {
    expect(eventNamed(text)?.name).toBe(name);
  });

  test('unknown ones', () => {
    expect(eventsLike('sunrsie')).toEqual(['sunrise']);
    expect(eventsLike('civil dwan')).toEqual(['civil dawn']);
    expect(eventsLike('dawn')).toEqual(['astronomical dawn', 'nautical dawn', 'civil dawn']);
    expect(eventsLike('noon')).toEqual(['solar noon']);
    expect(eventsLike('golden hour')).toHaveLength(4);
    expect(eventsLike('golden hour start')).toEqual([
      'morning golden hour start',
      'evening golden hour start',
    ]);
    expect(eventsLike('breakfast')).toEqual([]);
    expect(eventsLike('')).toEqual([]);
    expect(eventsLike('x'.repeat(100_000))).toEqual([]);
  });
});
