import type { Span } from '../text/span.ts';
import { ADVICE, type Axis, type Letter, type Token, tokenise, type Unit } from './coordinateTokens.ts';
import { asSuggestions } from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { replaced, shortened } from './scan.ts';
import { beginning } from './suggest.ts';

/** A place on the Earth, WGS 84: degrees, latitude north positive, longitude east positive. */
export interface Coordinates {
  readonly latitude: number;
  readonly longitude: number;
}

/** Decimals of a degree that are kept: 1e-9 degrees is 0.1 mm, so nothing that a map knows is lost. */
const KEPT_DECIMALS = 9;

/** Any pair of coordinates is shorter; the bound keeps the work for a hostile text small. */
const LONGEST_TEXT = 200;

const examples = [
  '54.4301, -2.6102',
  '54.4301 N, 2.6102 W',
  '54°25\'48.4"N 2°36\'36.7"W',
  "54° 25.807' N, 2° 36.612' W",
  'geo:54.4301,-2.6102',
];

/**
 * Where a spot is: decimal degrees, degrees and decimal minutes, or degrees, minutes and seconds, with any of
 * the usual quote marks; signs or hemisphere letters; or a `geo:` URI (RFC 5870). Latitude comes first unless
 * letters say otherwise. A sign belongs to the whole angle, so `-0° 30'` is -0.5. Read in one pass.
 */
export const coordinates: Quantity<Coordinates> = {
  name: 'coordinates',
  documentation: [
    'A place: latitude and longitude in degrees (WGS 84), north and east positive.',
    '',
    "`54.4301, -2.6102`; `54.4301 N, 2.6102 W`; `54°25'48.4\"N 2°36'36.7\"W`; `54° 25.81' N, 2° 36.61' W`;",
    '`geo:54.4301,-2.6102`. Latitude comes first unless the letters say otherwise.',
  ].join('\n'),
  examples,

  recognise(text) {
    if (isUri(text)) return true;
    if (text.length > LONGEST_TEXT) return false;
    const written = text.replace(/deg|north|south|east|west/gi, '°');
    return (
      /^[\d\s.,;+\-−–°º˚'’‘ʼ´′"”“″ʺNSEWnsew]+$/u.test(written) &&
      /[,;\s°º˚NSEWnsew]\s*[NSEWnsew]?\s*[-+−–]?\.?\d/u.test(written)
    );
  },

  parse(text) {
    if (isUri(text)) return readUri(text);
    if (text.length > LONGEST_TEXT) return refused(text, `This is too long for coordinates. ${ADVICE}`);
    return readPair(text);
  },

  format({ latitude, longitude }) {
    return `${decimal(latitude)}, ${decimal(longitude)}`;
  },

  complete: (typed) => beginning(typed, asSuggestions(examples, 'latitude, longitude')),
};

function isUri(text: string): boolean {
  return /^\s*geo:/i.test(text);
}

/** Plain decimal notation without an exponent or needless zeros. */
function decimal(degrees: number): string {
  return degrees.toFixed(KEPT_DECIMALS).replace(/\.?0+$/, '');
}

/** To the decimals that are kept, and never negative zero. */
function rounded(degrees: number): number {
  return Number(degrees.toFixed(KEPT_DECIMALS)) + 0;
}

// --- geo: URIs ---------------------------------------------------------------------------------------------

/** RFC 5870: `geo:lat,lon[,altitude][;crs=wgs84][;u=metres][;...]`. Altitude and parameters are passed over. */
function readUri(text: string): Reading<Coordinates> {
  const trimmed = text.trim();
  const [path = '', ...parameters] = trimmed.slice('geo:'.length).split(';');
  const numbers = path.split(',');
  const badNumber = numbers.some((number) => !/^-?\d+(\.\d+)?$/.test(number));
  if (badNumber || numbers.length < 2 || numbers.length > 3) {
    return refused(text, 'This geo: URI cannot be read. Write geo:54.4301,-2.6102.');
  }
  const system = parameters.find((parameter) => /^crs=/i.test(parameter));
  if (system !== undefined && system.toLowerCase() !== 'crs=wgs84') {
    return refused(text, `Only WGS 84 coordinates can be read, not “${shortened(system)}”.`);
  }
  const whole = { start: 0, end: text.length };
  const [latitude = '', longitude = ''] = numbers;
  return checked(
    text,
    { degrees: Number(latitude), axis: undefined, span: whole, text: latitude },
    { degrees: Number(longitude), axis: undefined, span: whole, text: longitude },
  );
}

function readPair(text: string): Reading<Coordinates> {
  const tokens = tokenise(text);
  if ('problems' in tokens) return tokens;
  return decimalCommas(text, tokens) ?? hyphenatedFields(text, tokens) ?? readTokens(text, tokens);
}

function readTokens(text: string, tokens: readonly Token[]): Reading<Coordinates> {
  const halves = split(text, tokens);
  if ('problems' in halves) return halves;
  const first = readHalf(text, halves[0]);
  if ('problems' in first) return first;
  const second = readHalf(text, halves[1]);
  if ('problems' in second) return second;
  if (first.axis !== undefined && first.axis === second.axis) {
    return refused(text, `Both coordinates are given as ${first.axis}. One needs N or S, the other E or W.`);
  }
  const lettersSwap = first.axis === 'longitude' || second.axis === 'latitude';
  return lettersSwap ? checked(text, second, first) : checked(text, first, second);
}

/** The commas with a digit on either side, where neither number has a decimal point. */
function tightCommas(text: string, tokens: readonly Token[]): readonly Token[] {
  return tokens.filter((token, i) => {
    const [before, after] = [tokens[i - 1], tokens[i + 1]];
    const tight = text[token.start] === ',' && before?.end === token.start && after?.start === token.end;
    return tight && [before, after].every((side) => side.kind === 'number' && !side.digits.includes('.'));
  });
}

/** `52,37` is never taken for latitude 52, longitude 37. */
function decimalCommas(text: string, tokens: readonly Token[]): Reading<never> | undefined {
  const commas = tightCommas(text, tokens);
  if (commas.length === 0) return undefined;
  const numbers = tokens.filter((token) => token.kind === 'number').length;
  const [firstComma] = commas;
  if (numbers === 2 && firstComma !== undefined) {
    const one = shortened(replaced(text, firstComma, '.'));
    const two = shortened(replaced(text, firstComma, ', '));
    return refused(
      text,
      `“${shortened(text)}” may be the one number ${one} with a decimal comma, or latitude and longitude. Write a decimal point, or a space after the comma: ${two}.`,
      { code: 'plan/decimal-comma' },
    );
  }
  // Four numbers in a row, `52,37,4,90`: the middle comma parts the pair.
  const parting = commas.length === 3 && numbers === 4 ? commas[1] : undefined;
  let rewrite = '';
  let copied = 0;
  for (const comma of commas) {
    rewrite += text.slice(copied, comma.start) + (comma === parting ? ', ' : '.');
    copied = comma.end;
  }
  rewrite += text.slice(copied);
  const readable = isReadable(rewrite);
  const advice = readable ? shortened(rewrite) : '54.4301, -2.6102';
  return refused(text, `Use a decimal point, not a decimal comma: ${advice}.`, {
    code: 'plan/decimal-comma',
    ...(parting === undefined && firstComma ? { start: firstComma.start, end: firstComma.end } : {}),
    ...(readable ? { rewrite } : {}),
  });
}

function hyphenAfterNumber(tokens: readonly Token[]): Token | undefined {
  return tokens.find((token, i) => {
    const before = tokens[i - 1];
    return token.kind === 'sign' && before?.kind === 'number' && before.end === token.start;
  });
}

/** `54-25-48N`: a hyphen behind a number can be a minus or join degrees to minutes, so it is not guessed. */
function hyphenatedFields(text: string, tokens: readonly Token[]): Reading<never> | undefined {
  const hyphen = hyphenAfterNumber(tokens);
  if (hyphen === undefined) return undefined;
  const rewrite = text.replace(
    /(\d+)[-−–](\d+(?:\.\d+)?)(?:[-−–](\d+(?:\.\d+)?))?/gu,
    (_all, degrees: string, minutes: string, seconds: string | undefined) =>
      `${degrees}°${minutes}'${seconds === undefined ? '' : `${seconds}"`}`,
  );
  const certain = /[NSEW]/i.test(text) && isReadable(rewrite);
  return refused(
    text,
    `A hyphen after a number can be read as a minus. Write a comma between latitude and longitude, and 54°25'48" for degrees, minutes and seconds.`,
    { code: 'plan/ambiguous-value', start: hyphen.start, end: hyphen.end, ...(certain ? { rewrite } : {}) },
  );
}

/** Whether a mended text is free of what was to be mended, and reads as coordinates. */
function isReadable(text: string): boolean {
  const tokens = tokenise(text);
  if ('problems' in tokens) return false;
  if (tightCommas(text, tokens).length > 0 || hyphenAfterNumber(tokens) !== undefined) return false;
  return readTokens(text, tokens).value !== undefined;
}

type Half = readonly Token[];

/** The tokens of the first coordinate and those of the second. */
function split(text: string, tokens: readonly Token[]): readonly [Half, Half] | Reading<never> {
  if (tokens.length === 0) return refused(text, `Coordinates are missing. ${ADVICE}`);
  const separators = tokens.filter((token) => token.kind === 'separator');
  const [separator, extra] = separators;
  if (extra !== undefined)
    return refused(text, `Two numbers are enough: latitude and longitude. ${ADVICE}`, extra);
  const at = separator === undefined ? secondStart(tokens) : tokens.indexOf(separator);
  if (at === undefined) {
    const numbers = tokens.filter((token) => token.kind === 'number').length;
    return numbers > 1
      ? refused(text, 'Put a comma between latitude and longitude.', { code: 'plan/ambiguous-value' })
      : refused(text, `There is only one coordinate here. ${ADVICE}`);
  }
  const halves = [tokens.slice(0, at), tokens.slice(separator === undefined ? at : at + 1)] as const;
  if (halves.some((half) => half.length === 0)) {
    return refused(text, `There is only one coordinate here. ${ADVICE}`);
  }
  return halves;
}

/** Where the second coordinate begins when no comma parts them: by letters, else by a sign or a degree mark. */
function secondStart(tokens: readonly Token[]): number | undefined {
  const letters = tokens.flatMap((token, i) => (token.kind === 'letter' ? [i] : []));
  if (letters[0] === 0) {
    if (letters[1] !== undefined) return letters[1];
  } else if (letters[0] !== undefined && letters[0] < tokens.length - 1) {
    return letters[0] + 1;
  }
  const numbers = tokens.flatMap((token, i) => (token.kind === 'number' ? [i] : []));
  const signed = (i: number) => tokens[i - 1]?.kind === 'sign';
  const inDegrees = (i: number) => {
    const next = tokens[i + 1];
    return next?.kind === 'mark' && next.unit === 'degree';
  };
  const later = numbers.slice(1);
  const begins = numbers.length === 2 ? later[0] : later.find((i) => signed(i) || inDegrees(i));
  if (begins === undefined) return undefined;
  return signed(begins) ? begins - 1 : begins;
}

// --- One coordinate ----------------------------------------------------------------------------------------

interface Coordinate {
  readonly degrees: number;
  /** As its letter says; undefined without one. */
  readonly axis: Axis | undefined;
  readonly span: Span;
  /** As written. */
  readonly text: string;
}

const UNITS: readonly Unit[] = ['degree', 'minute', 'second'];
const PER_DEGREE = { degree: 1, minute: 60, second: 3600 } as const;

/** One coordinate: `[letter] [sign] degrees [minutes [seconds]] [letter]`; only the last number has decimals. */
function readHalf(text: string, half: Half): Coordinate | Reading<never> {
  const span = { start: half[0]?.start ?? 0, end: half.at(-1)?.end ?? text.length };
  const written = text.slice(span.start, span.end);
  const tokens = [...half];
  const letters: Letter[] = [];
  const takeLetter = (token: Token | undefined) => {
    if (token?.kind !== 'letter') return false;
    letters.push(token.letter);
    return true;
  };
  if (takeLetter(tokens[0])) tokens.shift();
  if (takeLetter(tokens.at(-1))) tokens.pop();
  const [letter, secondLetter] = letters;
  if (secondLetter !== undefined) {
    return refused(text, `“${shortened(written)}” has two letters. One says the direction.`, span);
  }
  const sign = tokens[0]?.kind === 'sign' ? tokens[0] : undefined;
  if (sign !== undefined) tokens.shift();
  const contradiction = signAgainstLetter(text, written, span, sign?.negative, letter);
  if (contradiction !== undefined) return contradiction;
  const size = readFields(text, span, tokens);
  if (typeof size !== 'number') return size;
  const negative = sign?.negative === true || letter === 'S' || letter === 'W';
  const axis = letter === undefined ? undefined : letter === 'N' || letter === 'S' ? 'latitude' : 'longitude';
  return { degrees: negative ? -size : size, axis, span, text: written };
}

function signAgainstLetter(
  text: string,
  written: string,
  span: Span,
  negative: boolean | undefined,
  letter: Letter | undefined,
): Reading<never> | undefined {
  if (negative === undefined || letter === undefined) return undefined;
  const southOrWest = letter === 'S' || letter === 'W';
  if (!negative && !southOrWest) return undefined;
  const message =
    negative === southOrWest
      ? `“${shortened(written)}” has both a minus and ${letter}. Keep one of them.`
      : `In “${shortened(written)}” the sign says one side and ${letter} the other. Keep the one that is right.`;
  return refused(text, message, { code: 'plan/ambiguous-value', ...span });
}

/** The size of the angle in degrees from its degrees, minutes and seconds. */
function readFields(text: string, span: Span, tokens: readonly Token[]): number | Reading<never> {
  let size = 0;
  let last: { readonly unit: Unit; readonly digits: string; readonly end: number } | undefined;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i];
    if (token?.kind !== 'number') {
      const here = token ?? span;
      return refused(
        text,
        `“${shortened(text.slice(here.start, here.end))}” stands in the wrong place. ${ADVICE}`,
        here,
      );
    }
    if (last?.digits.includes('.')) {
      return refused(text, 'Only the last of degrees, minutes and seconds may have decimals.', span);
    }
    if (last?.end === token.start) {
      return refused(text, `Two numbers run into each other here. ${ADVICE}`, token);
    }
    const mark = tokens[i + 1];
    const following = last === undefined ? 'degree' : UNITS[UNITS.indexOf(last.unit) + 1];
    const unit = mark?.kind === 'mark' ? mark.unit : following;
    if (unit === undefined || unit !== following) {
      return refused(text, 'Write degrees, then minutes, then seconds: 54°25\'48.4".', span);
    }
    const value = Number(token.digits);
    if (unit !== 'degree' && value >= 60) {
      const message = `${shortened(token.digits)} ${unit}s is too many: there are 60 in a ${unit === 'minute' ? 'degree' : 'minute'}.`;
      return refused(text, message, { code: 'plan/impossible-value', start: token.start, end: token.end });
    }
    size += value / PER_DEGREE[unit];
    if (mark?.kind === 'mark') i++;
    last = { unit, digits: token.digits, end: token.end };
  }
  return last === undefined ? refused(text, `A number of degrees is missing. ${ADVICE}`, span) : size;
}

/** The pair, when both lie on the Earth; a latitude that can only be a longitude is said to be swapped. */
function checked(text: string, latitude: Coordinate, longitude: Coordinate): Reading<Coordinates> {
  const impossible = 'plan/impossible-value';
  if (Math.abs(latitude.degrees) > 90) {
    const lettered = latitude.axis !== undefined || longitude.axis !== undefined;
    if (!lettered && Math.abs(latitude.degrees) <= 180 && Math.abs(longitude.degrees) <= 90) {
      const rewrite = isUri(text)
        ? `geo:${longitude.text},${latitude.text}`
        : `${longitude.text}, ${latitude.text}`;
      const message = `Latitude ${shortened(latitude.text)} is beyond 90°: the two are swapped. Write ${shortened(rewrite)}.`;
      return refused(text, message, { code: 'plan/swapped-coordinates', rewrite });
    }
    const message = `Latitude ${shortened(latitude.text)} is beyond 90°, farther than a pole.`;
    return refused(text, message, { code: impossible, ...latitude.span });
  }
  if (Math.abs(longitude.degrees) > 180) {
    const message = `Longitude ${shortened(longitude.text)} is beyond 180°. It goes from -180° to 180°.`;
    return refused(text, message, { code: impossible, ...longitude.span });
  }
  return read({ latitude: rounded(latitude.degrees), longitude: rounded(longitude.degrees) });
}
