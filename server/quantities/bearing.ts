import { takeDegrees } from './angle.ts';
import { asSuggestions, fits, impossible, isRefusal, kept, plain } from './measure.ts';
import { nearest } from './nearest.ts';
import { type Quantity, type Reading, read, refused, type Suggestion } from './quantity.ts';
import { Scanner, shortened } from './scan.ts';
import { beginning, withUnits } from './suggest.ts';

/** What a bearing counts from; `unstated` leaves it to the plan's `bearings:`. */
export type NorthReference = 'true' | 'magnetic' | 'unstated';

export interface Bearing {
  /** Clockwise from north, at least 0 and below 360. */
  readonly degrees: number;
  readonly reference: NorthReference;
}

/** Each 22.5° from the one before it. */
const POINTS = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(' ');

const pointDegrees: ReadonlyMap<string, number> = new Map(POINTS.map((point, i) => [point, i * 22.5]));

const references: ReadonlyMap<string, NorthReference> = new Map([
  ['mag', 'magnetic'],
  ['magnetic', 'magnetic'],
  ['m', 'magnetic'],
  ['true', 'true'],
  ['t', 'true'],
]);

const examples = ['118°', '118', 'SE', 'ESE', 'S20E', '118° mag', '118° true'];

/** A direction, in degrees clockwise from north, as a point of the compass, or from north or south by quadrant. */
export const bearing: Quantity<Bearing> = {
  name: 'bearing',
  documentation: [
    'A direction, clockwise from north in degrees.',
    '',
    '`118`, `118°`, `SE`, `ESE`, `south-east`, `S20E` (20° east of south), `118° mag`, `118° true`.',
  ].join('\n'),
  examples,
  recognise: (text) =>
    fits(text, /^\s*\d[\d.]*\s*([°º˚]|deg|mag|true|[MT]\s*$|$)/iu) ||
    fits(text, /^\s*[NS]\s*\d[\d.]*\s*°?\s*[EW]\b/iu) ||
    namedPoint(text) !== undefined,
  parse(text) {
    const scanner = new Scanner(text);
    if (/^[\d.+\-−–½]/u.test(scanner.next)) return inDegrees(scanner);
    return byQuadrant(text) ?? byPoint(text);
  },
  format: ({ degrees, reference }) => `${plain(degrees)}°${suffixFor(reference)}`,
  complete: (typed) => [
    ...withUnits(typed, asSuggestions(['°', '° mag', '° true'])),
    ...beginning(typed, typed.trim() === '' ? asSuggestions(examples) : points()),
  ],
};

function suffixFor(reference: NorthReference): string {
  if (reference === 'unstated') return '';
  return reference === 'magnetic' ? ' mag' : ' true';
}

function points(): readonly Suggestion[] {
  return POINTS.map((text, i) => ({ text, detail: `${i * 22.5}°` }));
}

/** `118`, `118°`, `118 deg`, `118° mag`, `118°T`. */
function inDegrees(scanner: Scanner): Reading<Bearing> {
  const { text } = scanner;
  const degrees = takeDegrees(scanner, 'a bearing, as in 118°');
  if (isRefusal(degrees)) return degrees;
  const reference = takeReference(scanner);
  if (typeof reference !== 'string') return reference;
  const { value } = degrees;
  if (value >= 0 && value <= 360) return read({ degrees: value === 360 ? 0 : value, reference });
  if (!(Math.abs(value) <= 3600))
    return impossible(text, 'A bearing goes from 0° to 360°, clockwise from north.');
  const turned = kept(((value % 360) + 360) % 360);
  const rewrite = bearing.format({ degrees: turned, reference });
  return impossible(text, `A bearing goes from 0° to 360°, clockwise from north. Write ${rewrite}.`, rewrite);
}

/** What north is meant, from the words at the end. */
function takeReference(scanner: Scanner): NorthReference | Reading<never> {
  if (scanner.done) return 'unstated';
  const word = scanner.word();
  const reference = word === undefined ? undefined : references.get(word.text.slice(0, 20).toLowerCase());
  if (reference !== undefined && scanner.done) return reference;
  if (word !== undefined) scanner.at = reference === undefined ? word.span.start : scanner.at;
  return scanner.unexpected('nothing more, true or mag');
}

/** `S20E`: from south, 20° towards east; up to 90°. Undefined when the text is not of this form. */
function byQuadrant(text: string): Reading<Bearing> | undefined {
  const scanner = new Scanner(text);
  const from = scanner.takeAny('NSns')?.toUpperCase();
  if (from === undefined || !/^[\d.]/.test(scanner.next)) return undefined;
  const size = takeDegrees(scanner, 'degrees, as in S20E');
  if (isRefusal(size)) return size;
  const towards = scanner.takeAny('EWew')?.toUpperCase();
  if (towards === undefined) return scanner.unexpected('E or W, as in S20E');
  const reference = takeReference(scanner);
  if (typeof reference !== 'string') return reference;
  if (!(size.value <= 90)) return impossible(text, `From ${from} towards ${towards} there are at most 90°.`);
  const eastward = towards === 'E' ? size.value : -size.value;
  const degrees = from === 'N' ? eastward : 180 - eastward;
  return read({ degrees: kept((degrees + 360) % 360), reference });
}

/** `SE`, `south-east`, `SE mag`. Undefined when the text is no point of the compass. */
function namedPoint(text: string): Bearing | undefined {
  if (text.length > 60) return undefined;
  const { name, reference } = withoutReference(text);
  const degrees = pointNamed(name);
  return degrees === undefined ? undefined : { degrees, reference };
}

/** The text without a last word that says which north is meant. */
function withoutReference(text: string): { readonly name: string; readonly reference: NorthReference } {
  const words = text.trim().split(/\s+/);
  const reference = words.length > 1 ? references.get(words.at(-1)?.toLowerCase() ?? '') : undefined;
  if (reference === undefined) return { name: words.join(' '), reference: 'unstated' };
  return { name: words.slice(0, -1).join(' '), reference };
}

function byPoint(text: string): Reading<Bearing> {
  const point = namedPoint(text);
  if (point !== undefined) return read(point);
  if (text.trim() === '') return new Scanner(text).unexpected('a bearing, as in 118° or SE');
  const { name, reference } = withoutReference(text.slice(0, 60));
  const near = nearest(joined(name), NAMES.keys());
  const hint = near === undefined ? 'Write 118°, SE or S20E.' : `Is ${near} meant?`;
  return refused(text, `“${shortened(text)}” is no bearing. ${hint}`, {
    code: 'plan/unknown-word',
    ...(near === undefined ? {} : { rewrite: near + suffixFor(reference) }),
  });
}

/** The written-out points: `southeast`, `southsoutheast`. */
const NAMES: ReadonlyMap<string, string> = new Map(
  POINTS.map((point) => [
    point.replace(/N/g, 'north').replace(/S/g, 'south').replace(/E/g, 'east').replace(/W/g, 'west'),
    point,
  ]),
);

/** The degrees of a point of the compass by its letters or its name, with or without hyphens and blanks. */
function pointNamed(name: string): number | undefined {
  const plainName = joined(name);
  return pointDegrees.get(NAMES.get(plainName) ?? plainName.toUpperCase());
}

function joined(name: string): string {
  return name.replace(/[\s-]+/g, '').toLowerCase();
}
