import type { Analysis, Rule } from '../analysis.ts';
import { formatDate } from '../quantities/date.ts';
import { type EventInfo, type EventName, eventNamed, events, eventText } from '../quantities/events.ts';
import type { Moment } from '../quantities/moment.ts';
import type { StatedMoment } from '../schedule/day.ts';
import { spellWithout } from '../sky/absence.ts';
import { civilMs, daysLater } from '../sky/civil.ts';
import type { Finding, Fix } from '../text/finding.ts';
import { failuresOf } from './stated.ts';
import { timeAt } from './wording.ts';

/** How many other events are offered. */
const offered = 2;
/** Events that people plan by, one for each altitude; the blue and golden hours share theirs. */
const usual: ReadonlySet<EventName> = new Set<EventName>([
  'astronomical dawn',
  'nautical dawn',
  'civil dawn',
  'sunrise',
  'sunset',
  'civil dusk',
  'nautical dusk',
  'astronomical dusk',
]);

const dayMs = 86_400_000;

const solarNoon: EventName = 'solar noon';

/**
 * An event that does not happen on that date and place is never given a time: no sunrise in the polar night, no moonrise
 * on the day between two, no astronomical dawn in a bright summer night. The reason comes from the scan of the sky.
 */
export const noSuchEvent: Rule = {
  code: 'time/no-such-event',
  severity: 'error',
  doc: 'The event does not happen that day at that place: polar day or night, a day without moonrise, a night that does not get dark. Write a clock time, another event, or `earlier of` and `later of` with a second choice.',
  check(analysis, report) {
    for (const { moment, failure } of failuresOf(analysis, 'no-such-event')) {
      const { event, occurrence, reason } = failure;
      report(
        moment.value,
        `There is no ${eventText(event, occurrence)} here ${spellText(event, moment)}: ${reason.replace(/\.$/, '')}${lowLight(event, moment)}. Write a clock time or another event.`,
        { facts: { event, ...failure.facts } },
      );
    }
  },
  fixes: otherEvents,
};

/** From when to when the event does not happen; for the sun, whose ways change slowly. */
function spellText(event: EventName, moment: StatedMoment): string {
  const { at } = moment;
  const found = statedEvent(event, moment);
  const onDate = 'on this date';
  if (at === undefined || found === undefined) return onDate;
  const { info, stated } = found;
  if (info.body !== 'sun' || info.altitudeDegrees === undefined) return onDate;
  const date = daysLater(at.date, stated.dayOffset);
  const spell = spellWithout(info.name, date, (day) =>
    at.sky(Math.round((civilMs(day) - civilMs(at.date)) / dayMs)),
  );
  if (spell?.first === undefined || spell.last === undefined) return onDate;
  const first = formatDate(spell.first);
  const last = formatDate(spell.last);
  return first === last ? onDate : `from ${first} to ${last}`;
}

/** A sun that never climbs out of the golden hour leaves low light all day long. */
function lowLight(event: EventName, moment: StatedMoment): string {
  const { at } = moment;
  const found = statedEvent(event, moment);
  if (at === undefined || found === undefined || (found.info.altitudeDegrees ?? 0) <= 0) return '';
  const sky = at.sky(found.stated.dayOffset);
  const [rise, set] = [sky.event('sunrise'), sky.event('sunset')];
  if (rise.kind !== 'at' || set.kind !== 'at' || set.instantMs < rise.instantMs) return '';
  return `; low light from sunrise ${timeAt(rise.instantMs, at)} to sunset ${timeAt(set.instantMs, at)}`;
}

/** In the place of the event, the nearest ones that do happen; or the same one on the next day. */
function otherEvents(finding: Finding, analysis: Analysis): readonly Fix[] {
  const moment = analysis.day?.moments.find(
    ({ value }) => value.uri === finding.uri && value.span.start === finding.span.start,
  );
  const found = moment === undefined ? undefined : statedEvent(String(finding.facts.event), moment);
  if (moment === undefined || found === undefined) return [];
  const { info: event, stated } = found;
  const { span, text } = moment.value;
  const name = new RegExp(event.name.split(' ').join('\\s+'), 'i').exec(text);
  if (name === null || analysis.text.slice(span.start, span.end) !== text) return [];
  const start = span.start + name.index;
  const end = start + name[0].length;
  return instead(event, stated, moment).map((written) => ({
    title: `Write ${written}`,
    edits: [{ uri: finding.uri, span: { start, end }, text: written }],
  }));
}

/** What is known of an event, and where a moment names it. */
function statedEvent(
  name: string,
  { value }: StatedMoment,
): { readonly info: EventInfo; readonly stated: EventMoment } | undefined {
  const info = eventNamed(name);
  const stated = info === undefined ? undefined : eventIn(value.value, info.name);
  return info === undefined || stated === undefined ? undefined : { info, stated };
}

type EventMoment = Extract<Moment, { kind: 'event' }>;

/** The first place of an event in a moment; undefined where one of several on a day is meant. */
function eventIn(moment: Moment, event: EventName): EventMoment | undefined {
  if (moment.kind === 'offset') return eventIn(moment.base, event);
  if (moment.kind === 'earlier' || moment.kind === 'later') {
    return moment.of.map((part) => eventIn(part, event)).find((found) => found !== undefined);
  }
  return moment.kind === 'event' && moment.event === event && !('occurrence' in moment) ? moment : undefined;
}

function instead(event: EventInfo, { dayOffset }: EventMoment, { at }: StatedMoment): readonly string[] {
  if (at === undefined) return [];
  const happens = (name: EventName, offset = dayOffset) => at.sky(offset).event(name).kind === 'at';
  const place = (name: EventName) => events.findIndex((other) => other.name === name);
  const others = events
    .filter(
      ({ name, body, direction }) => body === event.body && direction === event.direction && usual.has(name),
    )
    .filter(({ name }) => name !== event.name && happens(name))
    .map(({ name }) => name)
    .sort((a, b) => Math.abs(place(a) - place(event.name)) - Math.abs(place(b) - place(event.name)));
  if (event.body !== 'sun')
    return dayOffset === 0 && happens(event.name, 1) ? [`${event.name} next day`] : [];
  // The sun passes the meridian every day, however high it stands.
  return others.length > 0 ? others.slice(0, offered) : [solarNoon];
}
