import { nearest } from './nearest.ts';

/** Every event that a moment can name. The words are the language's own; the list is closed. */
export type EventName =
  | 'astronomical dawn'
  | 'nautical dawn'
  | 'civil dawn'
  | 'sunrise'
  | 'sun clears skyline'
  | 'sun leaves skyline'
  | 'morning blue hour start'
  | 'morning blue hour end'
  | 'morning golden hour start'
  | 'morning golden hour end'
  | 'solar noon'
  | 'evening golden hour start'
  | 'evening golden hour end'
  | 'evening blue hour start'
  | 'evening blue hour end'
  | 'sunset'
  | 'civil dusk'
  | 'nautical dusk'
  | 'astronomical dusk'
  | 'moonrise'
  | 'moonset'
  | 'moon transit'
  | 'moon clears skyline'
  | 'moon leaves skyline'
  | 'high water'
  | 'low water';

/** Which of the times is meant when an event comes more than once that day. */
export type Occurrence = 1 | 2 | 3;

const ordinals = ['first', 'second', 'third'] as const;

/** The words for them: `second` high water. */
export const occurrences: ReadonlyMap<string, Occurrence> = new Map(
  ordinals.map((word, index) => [word, (index + 1) as Occurrence]),
);

/** An event as a plan names it: `high water`, `second high water`. */
export function eventText(event: EventName, occurrence?: Occurrence): string {
  return occurrence === undefined ? event : `${ordinals[occurrence - 1]} ${event}`;
}

/** What an event is. */
export interface EventInfo {
  readonly name: EventName;
  /** One or two plain sentences. */
  readonly doc: string;
  readonly body: 'sun' | 'moon' | 'tide';
  /** The altitude of the body's centre, in degrees above the level horizon and without refraction, that defines the event. */
  readonly altitudeDegrees?: number;
  /** Whether the body passes that altitude, or the skyline, upward or downward. */
  readonly direction?: 'up' | 'down';
}

/**
 * Rise and set: upper limb on the level horizon, 34′ of refraction and 16′ of semidiameter; twilights 6°, 12° and 18°
 * below (U.S. Naval Observatory, "Rise, Set, and Twilight Definitions").
 */
const sunRiseDegrees = -50 / 60;
/** Moonrise and moonset: the same definition; the apparent radius and the parallax of the hour are taken where it is computed. */
const moonRiseDegrees = -50 / 60;
/** The blue hour: sun from 6° to 4° below the horizon. Common practice, no source. */
const blueDegrees = { low: -6, high: -4 };
/** The golden hour: sun from 4° below to 6° above the horizon. Common practice, no source. */
const goldenDegrees = { low: -4, high: 6 };

/** All events, in the order of a usual day: sun, moon, tide. */
export const events: readonly EventInfo[] = [
  sun(
    'astronomical dawn',
    -18,
    'up',
    'The sun comes up to 18° below the horizon: the first trace of daylight.',
  ),
  sun(
    'nautical dawn',
    -12,
    'up',
    'The sun comes up to 12° below the horizon: the horizon at sea can be made out.',
  ),
  sun(
    'civil dawn',
    -6,
    'up',
    'The sun comes up to 6° below the horizon: outlines can be seen without a lamp.',
  ),
  sun(
    'morning blue hour start',
    blueDegrees.low,
    'up',
    'The sun comes up to 6° below the horizon. Common practice, no source.',
  ),
  sun(
    'morning blue hour end',
    blueDegrees.high,
    'up',
    'The sun comes up to 4° below the horizon. Common practice, no source.',
  ),
  sun(
    'morning golden hour start',
    goldenDegrees.low,
    'up',
    'The sun comes up to 4° below the horizon. Common practice, no source.',
  ),
  sun(
    'sunrise',
    sunRiseDegrees,
    'up',
    'The upper edge of the sun comes up over the level horizon, with mean refraction.',
  ),
  skyline('sun', 'clears', 'The sun comes up over the skyline of the spot.'),
  sun(
    'morning golden hour end',
    goldenDegrees.high,
    'up',
    'The sun comes up to 6° above the horizon. Common practice, no source.',
  ),
  { name: 'solar noon', doc: 'The sun stands on the meridian, about its highest.', body: 'sun' },
  sun(
    'evening golden hour start',
    goldenDegrees.high,
    'down',
    'The sun goes down to 6° above the horizon. Common practice, no source.',
  ),
  skyline('sun', 'leaves', 'The sun goes down behind the skyline of the spot.'),
  sun(
    'sunset',
    sunRiseDegrees,
    'down',
    'The upper edge of the sun goes down under the level horizon, with mean refraction.',
  ),
  sun(
    'evening golden hour end',
    goldenDegrees.low,
    'down',
    'The sun goes down to 4° below the horizon. Common practice, no source.',
  ),
  sun(
    'evening blue hour start',
    blueDegrees.high,
    'down',
    'The sun goes down to 4° below the horizon. Common practice, no source.',
  ),
  sun(
    'evening blue hour end',
    blueDegrees.low,
    'down',
    'The sun goes down to 6° below the horizon. Common practice, no source.',
  ),
  sun('civil dusk', -6, 'down', 'The sun goes down to 6° below the horizon: a lamp is needed from now on.'),
  sun(
    'nautical dusk',
    -12,
    'down',
    'The sun goes down to 12° below the horizon: the horizon at sea is lost.',
  ),
  sun('astronomical dusk', -18, 'down', 'The sun goes down to 18° below the horizon: the sky is dark.'),
  {
    ...{ name: 'moonrise', body: 'moon', altitudeDegrees: moonRiseDegrees, direction: 'up' },
    doc: 'The upper edge of the moon comes up over the level horizon, with mean refraction. Some days have none.',
  },
  skyline('moon', 'clears', 'The moon comes up over the skyline of the spot.'),
  { name: 'moon transit', doc: 'The moon stands on the meridian, about its highest.', body: 'moon' },
  skyline('moon', 'leaves', 'The moon goes down behind the skyline of the spot.'),
  {
    ...{ name: 'moonset', body: 'moon', altitudeDegrees: moonRiseDegrees, direction: 'down' },
    doc: 'The upper edge of the moon goes down under the level horizon, with mean refraction. Some days have none.',
  },
  {
    name: 'high water',
    doc: 'The first high water of the day, from the plan’s `tides`; `second high water` is the other.',
    body: 'tide',
  },
  {
    name: 'low water',
    doc: 'The first low water of the day, from the plan’s `tides`; `second low water` is the other.',
    body: 'tide',
  },
];

const byKey: ReadonlyMap<string, EventInfo> = new Map(events.map((event) => [key(event.name), event]));

/** The event of this name, without regard to case, blanks and hyphens: `Sun rise` is `sunrise`. */
export function eventNamed(text: string): EventInfo | undefined {
  return text.length > 60 ? undefined : byKey.get(key(text));
}

/**
 * The events that an unknown name may stand for: those with all its words (`golden hour` has four), or else the one that
 * is nearest by spelling; none for a word unlike any.
 */
export function eventsLike(text: string): readonly EventName[] {
  if (text.length > 60) return [];
  const words = text.toLowerCase().match(/\p{L}+/gu) ?? [];
  const names = events.map((event) => event.name);
  const containing = names.filter((name) => words.every((word) => name.split(' ').includes(word)));
  if (words.length > 0 && containing.length > 0) return containing;
  const near = nearest(words.join(' '), names);
  return names.filter((name) => name === near);
}

function key(text: string): string {
  return text.toLowerCase().replace(/[\s_-]+/g, '');
}

function sun(name: EventName, altitudeDegrees: number, direction: 'up' | 'down', doc: string): EventInfo {
  return { name, doc, body: 'sun', altitudeDegrees, direction };
}

function skyline(body: 'sun' | 'moon', verb: 'clears' | 'leaves', doc: string): EventInfo {
  return { name: `${body} ${verb} skyline`, doc, body, direction: verb === 'clears' ? 'up' : 'down' };
}
