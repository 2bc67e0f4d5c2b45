import { eventNamed, events, eventText, occurrences } from './events.ts';
import type { Suggestion } from './quantity.ts';
import { Scanner } from './scan.ts';
import { beginning, withUnits } from './suggest.ts';

const words: readonly Suggestion[] = [
  ...events.map((event) => ({ text: event.name, detail: event.doc })),
  { text: 'second ', detail: 'The second of an event that comes twice that day, such as high water' },
  { text: 'arrive', detail: 'When you arrive at the spot' },
  { text: 'ready', detail: 'When you have set up' },
  { text: 'after ', detail: 'The end of another shot, by its id' },
  { text: 'earlier of ', detail: 'Whichever of several moments comes first' },
  { text: 'later of ', detail: 'Whichever of several moments comes last' },
  { text: '06:00', detail: 'Local time' },
];
const seconds: readonly Suggestion[] = events.map(({ name }) => ({
  text: eventText(name, 2),
  detail: `The second ${name} of the day`,
}));
const units: readonly Suggestion[] = [{ text: ' min' }, { text: ' h' }, { text: ' s' }];

/** Whole moments for what has been typed: names, then offsets, then their units; in a list, for its last moment. */
export function completeMoment(typed: string): readonly Suggestion[] {
  const typing = typed.slice(0, 500);
  const listed = Math.max(listStart(typing), typing.lastIndexOf(',') + 1);
  const tail = typing.slice(listed).trimStart();
  const head = typing.slice(0, typing.length - tail.length);
  const lead = head === '' || /\s$/.test(head) ? head : `${head} `;
  const isFirstOfList = listed > 0 && !head.includes(',');
  return simple(tail)
    .filter(({ text }) => lead === '' || !/ of $/.test(text))
    .map((suggestion) => ({ ...suggestion, text: `${lead}${suggestion.text}${isFirstOfList ? ', ' : ''}` }));
}

function listStart(typed: string): number {
  const scanner = new Scanner(typed);
  const word = scanner.word()?.text.toLowerCase();
  const isList = (word === 'earlier' || word === 'later') && scanner.word()?.text.toLowerCase() === 'of';
  return isList ? scanner.at : 0;
}

function simple(typed: string): readonly Suggestion[] {
  const sign = offsetSign(typed);
  if (sign !== undefined) {
    const head = typed.slice(0, sign + 1);
    const length = typed.slice(sign + 1).trim();
    const lengths = length === '' ? [{ text: '30 min' }, { text: '1 h' }] : withUnits(length, units);
    return lengths.map(({ text }) => ({ text: `${head} ${text}` }));
  }
  const base = typed.trim();
  const isEvent = isEventText(base);
  const offered = beginning(typed, /^sec/i.test(base) ? seconds : words);
  if (!isEvent && base !== 'arrive' && base !== 'ready') return offered;
  const texts = [`${base} - 30 min`, `${base} + 30 min`];
  if (isEvent) texts.push(`${base} next day`, `${base} previous day`);
  return [...offered, ...texts.map((text) => ({ text }))];
}

/** An event, or one of those that come several times: `second high water`. */
function isEventText(text: string): boolean {
  const [first = '', ...rest] = text.slice(0, 60).split(/\s+/);
  return eventNamed(occurrences.has(first.toLowerCase()) ? rest.join(' ') : text) !== undefined;
}

/** Where the sign of an offset stands: a plus or minus behind a blank. */
function offsetSign(typed: string): number | undefined {
  for (let at = typed.length - 1; at > 0; at -= 1) {
    if ('+-\u2212\u2013'.includes(typed.charAt(at)) && /\s/.test(typed.charAt(at - 1))) return at;
  }
  return undefined;
}
