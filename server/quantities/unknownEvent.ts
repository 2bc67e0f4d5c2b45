import { scanDay } from './clock.ts';
import { eventsLike } from './events.ts';
import { nearest } from './nearest.ts';
import { type Reading, refused } from './quantity.ts';
import { replaced, type ScannedText, type Scanner, shortened } from './scan.ts';
import { secondsIn } from './spanOfTime.ts';

/** What a moment begins with. */
export const expectedMoment =
  'a clock time, an event such as sunrise, arrive, ready or after with the id of a shot';

/** The refusal of a name, behind an ordinal perhaps, that no event has. The scanner stands behind it. */
export function unknownEvent(scanner: Scanner, start: number, name: ScannedText): Reading<never> {
  const { text } = scanner;
  const id = start === name.span.start ? shotId(scanner, name) : undefined;
  const written = id ?? name;
  const candidates = [...meantBy(scanner, start, written), ...(id === undefined ? [] : [`after ${id.text}`])];
  const whole = otherwiseCalled(text.slice(start, name.span.end)).length > 0;
  const span = whole ? { start, end: name.span.end } : written.span;
  const options = { code: 'plan/unknown-event', ...span };
  const message = `“${shortened(text.slice(span.start, span.end))}” is no event`;
  const [only] = candidates;
  if (only === undefined) {
    return refused(text, `${message}: expected ${expectedMoment}.`, options);
  }
  const facts = { readings: candidates };
  if (candidates.length > 1) {
    return refused(text, `${message}: write which of ${candidates.map(shortened).join(', ')}.`, {
      ...options,
      facts,
    });
  }
  return refused(text, `${message}: ${shortened(only)}?`, {
    ...options,
    facts,
    rewrite: replaced(text, span, only),
  });
}

/** The moments that a name may stand for: by its meaning, its words or its spelling. */
function meantBy(scanner: Scanner, start: number, name: ScannedText): readonly string[] {
  const origin = scanner.at;
  const dayFollows = scanDay(scanner) !== 0;
  scanner.at = origin;
  const called = otherwiseCalled(scanner.text.slice(start, name.span.end));
  if (called.length > 0) return called.filter((meant) => !(dayFollows && meant.endsWith(' day')));
  const like = [...otherwiseCalled(name.text), ...eventsLike(name.text)];
  const mark = like.length === 0 ? nearest(name.text, ['arrive', 'ready']) : undefined;
  return mark === undefined ? like : [mark];
}

/** The id of a shot that lacks its `after`: a name that goes on with digits, as `s9` and `north-2` do. */
function shotId(scanner: Scanner, name: ScannedText): ScannedText | undefined {
  const origin = scanner.at;
  scanner.at = name.span.start;
  const id = scanner.id();
  const unit = scanner.unit();
  scanner.at = origin;
  if (id === undefined || id.span.end <= name.span.end) return undefined;
  const rest = id.text.slice(name.text.length);
  // In `sunrsie-30 min` an offset is meant.
  const isOffset = /^-\d/.test(rest) && unit !== undefined && secondsIn(unit.text) !== undefined;
  return isOffset || /^-\d{1,6}\p{L}/u.test(rest) ? undefined : id;
}

/** How the language says what people also call otherwise; several readings where the word leaves it open. */
const meanings: ReadonlyMap<string, readonly string[]> = new Map([
  ['hightide', ['high water']],
  ['lowtide', ['low water']],
  ['sunup', ['sunrise']],
  ['sundown', ['sunset']],
  ['midnight', ['00:00', '00:00 next day']],
  ['noon', ['solar noon', '12:00']],
  ['midday', ['solar noon', '12:00']],
  ['firstlight', ['nautical dawn', 'civil dawn']],
  ['lastlight', ['civil dusk', 'nautical dusk']],
  ['twilight', ['civil dawn', 'civil dusk']],
]);

/** The moments that another word for them may stand for, without regard to case, blanks and hyphens; none for an unknown word. */
function otherwiseCalled(text: string): readonly string[] {
  return text.length > 60 ? [] : (meanings.get(text.toLowerCase().replace(/[\s_-]/g, '')) ?? []);
}
