import type { Problem } from '../text/finding.ts';
import type { Span } from '../text/span.ts';
import { aperture } from './aperture.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { inside, Scanner, shortened } from './scan.ts';
import { sensitivity } from './sensitivity.ts';
import { scanShutter, shutter } from './shutter.ts';
import { exposureValue } from './stops.ts';
import { beginning, distinct } from './suggest.ts';

/** What the meter says, without filters. */
export type Metered =
  /** The time; aperture (f-number) and ISO where they differ from the shot's own. */
  | { readonly kind: 'time'; readonly seconds: number; readonly aperture?: number; readonly iso?: number }
  /** An exposure value at ISO 100. */
  | { readonly kind: 'ev'; readonly ev100: number };

const examples = ['1/2 s', '1/2 s @ f/8', '1/2 s @ f/8, ISO 100', '1/2 s, ISO 100', 'EV 12'];

/** A meter reading: a shutter time, with the aperture and ISO it holds for; or an exposure value at ISO 100. */
export const metered: Quantity<Metered> = {
  name: 'meter reading',
  documentation: [
    'What the meter says without filters: for the aperture and ISO of the shot, unless others are given.',
    '',
    '`1/2 s`, `1/2 s @ f/8`, `1/2 s @ f/8, ISO 100`, `1/2 s, ISO 100`, `EV 12` (at ISO 100)',
  ].join('\n'),
  examples,
  recognise: (text) => isEv(text) || shutter.recognise(text.slice(0, partEnd(text, 0))),
  parse: (text) => (isEv(text) ? parseEv(text) : parseTime(text)),
  format(value) {
    if (value.kind === 'ev') return exposureValue.format(value.ev100);
    const at = value.aperture === undefined ? '' : ` @ ${aperture.format(value.aperture)}`;
    const iso = value.iso === undefined ? '' : `, ISO ${value.iso}`;
    return shutter.format(value.seconds) + at + iso;
  },
  complete: (typed) => {
    const time = typed.slice(0, partEnd(typed, 0));
    const rest = typed.slice(time.length);
    if (rest === '' || shutter.parse(time).value === undefined) {
      return distinct([
        ...shutter.complete(typed),
        ...beginning(
          typed,
          examples.map((text) => ({ text })),
        ),
      ]);
    }
    const tails = [' @ f/8', ' @ f/11', ' @ f/8, ISO 100', ', ISO 100'];
    return beginning(
      typed,
      tails.map((tail) => ({ text: time.trimEnd() + tail })),
    );
  },
};

function parseEv(text: string): Reading<Metered> {
  const iso = /,\s?ISO/i.exec(text);
  if (iso !== null) {
    return refused(
      text,
      'An EV is taken at ISO 100: leave the ISO out, or write the time that was metered.',
      {
        start: iso.index,
      },
    );
  }
  const { value, problems } = exposureValue.parse(text);
  return value === undefined ? { problems } : read({ kind: 'ev', ev100: value }, problems);
}

function parseTime(text: string): Reading<Metered> {
  const scanner = new Scanner(text);
  const time = scanShutter(scanner);
  if (time === undefined) return scanner.unexpected('a shutter time, as in 1/2 s @ f/8, or EV 12');
  if ('refusal' in time) return time.refusal;
  const problems: Problem[] = [];
  let fNumber: number | undefined;
  let iso: number | undefined;
  if (scanner.take('@')) {
    const part = { start: scanner.rest.start, end: partEnd(text, scanner.at) };
    const missing = isoWithoutComma(text, part);
    if (missing !== undefined) return missing;
    const reading = readPart(text, part, aperture);
    if (reading.value === undefined) return { problems: reading.problems };
    problems.push(...reading.problems);
    fNumber = reading.value;
    scanner.at = part.end;
  }
  if (scanner.take(',')) {
    const part = { start: scanner.rest.start, end: text.length };
    if (!/^iso/i.test(text.slice(part.start, part.start + 3)))
      return scanner.unexpected('the ISO behind the comma, as in 1/2 s, ISO 100');
    const reading = readPart(text, part, sensitivity);
    if (reading.value === undefined) return { problems: reading.problems };
    problems.push(...reading.problems);
    iso = reading.value;
    scanner.at = part.end;
  }
  if (!scanner.done) return leftBehind(scanner, time.span, fNumber !== undefined);
  const value: Metered = {
    kind: 'time',
    seconds: time.seconds,
    ...(fNumber === undefined ? {} : { aperture: fNumber }),
    ...(iso === undefined ? {} : { iso }),
  };
  return read(value, problems);
}

/** `1/2 s f/8` and `1/2 s @ f/8 ISO 100` lack their marks only. */
function leftBehind(scanner: Scanner, time: Span, hasAperture: boolean): Reading<never> {
  const { text } = scanner;
  const span = scanner.rest;
  const mark = /^iso/i.test(text.slice(span.start, span.end)) ? ',' : hasAperture ? undefined : ' @';
  const meant =
    mark === undefined ? '' : `${text.slice(0, span.start).trimEnd()}${mark} ${text.slice(span.start)}`;
  const mended = mark === undefined ? undefined : readableOrMended(meant);
  if (mended !== undefined) {
    return refused(text, `A mark is missing: ${shortened(mended)}.`, { ...span, rewrite: mended });
  }
  return scanner.unexpected(
    time.end === span.start ? 'a unit of time' : '@ and an aperture, or a comma and the ISO',
  );
}

/** `f/8 ISO 100` behind the @ lacks the comma. */
function isoWithoutComma(text: string, part: Span): Reading<never> | undefined {
  const at = text.slice(part.start, part.end).search(/iso/i);
  if (at <= 0) return undefined;
  const start = part.start + at;
  const rewrite = `${text.slice(0, start).trimEnd()}, ${text.slice(start)}`;
  if (metered.parse(rewrite).value === undefined) return undefined;
  return refused(text, `A comma is missing: ${shortened(rewrite)}.`, { start, end: part.end, rewrite });
}

/** The text where it can be read, or what its own refusal offers in its place. */
function readableOrMended(text: string): string | undefined {
  const { value, problems } = metered.parse(text);
  return value === undefined ? problems[0]?.rewrite : text;
}

function readPart(text: string, span: Span, kind: Quantity<number>): Reading<number> {
  const reading = kind.parse(text.slice(span.start, span.end));
  return { ...reading, problems: inside(text, span, reading.problems) };
}

/** Where a part ends: at `@`, or at a comma that is not inside a number. */
function partEnd(text: string, from: number): number {
  for (let at = from; at < text.length; at += 1) {
    const character = text.charAt(at);
    if (character === '@' || (character === ',' && !/\d/.test(text.charAt(at + 1)))) return at;
  }
  return text.length;
}

/** `EV 12`, `12 EV`, with whatever stands behind a comma. */
function isEv(text: string): boolean {
  return (
    /^\s?ev/i.test(text.trimStart().slice(0, 3)) || exposureValue.recognise(text.slice(0, partEnd(text, 0)))
  );
}
