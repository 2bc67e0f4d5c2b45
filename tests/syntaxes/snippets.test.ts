import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isMap, isScalar, isSeq, type Node, parseDocument } from 'yaml';
import { angle } from '../../server/quantities/angle.ts';
import { aperture, apertureRange } from '../../server/quantities/aperture.ts';
import { bearing } from '../../server/quantities/bearing.ts';
import { bulb } from '../../server/quantities/bulb.ts';
import { clock } from '../../server/quantities/clock.ts';
import { condition } from '../../server/quantities/condition.ts';
import { coordinates } from '../../server/quantities/coordinates.ts';
import { date } from '../../server/quantities/date.ts';
import { duration } from '../../server/quantities/duration.ts';
import { focalLength, lensChoice } from '../../server/quantities/focal.ts';
import { instant } from '../../server/quantities/instant.ts';
import { height, length, pixelSize, sensorSize, threadSize } from '../../server/quantities/length.ts';
import { metered } from '../../server/quantities/metered.ts';
import { moment } from '../../server/quantities/moment.ts';
import { momentRange } from '../../server/quantities/momentRange.ts';
import type { Quantity } from '../../server/quantities/quantity.ts';
import { sensitivity } from '../../server/quantities/sensitivity.ts';
import { share } from '../../server/quantities/share.ts';
import { shutterRange } from '../../server/quantities/shutterRange.ts';
import { speed } from '../../server/quantities/speed.ts';
import { stopStep, stops } from '../../server/quantities/stops.ts';
import { filterStrength } from '../../server/quantities/strength.ts';
import { temperature } from '../../server/quantities/temperature.ts';
import { count, flag, identifier } from '../../server/quantities/words.ts';

interface Snippet {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}

const text = readFileSync(new URL('../../syntaxes/snippets.json', import.meta.url), 'utf8');
const snippets = new Map(Object.entries(JSON.parse(text) as Record<string, Snippet>));

/** The text that a snippet inserts when nothing is typed over: the text of each place, or its choice number `pick`. */
function filled(snippet: Snippet, pick = 0): string {
  return snippet.body
    .join('\n')
    .replace(/\$\{\d+\|([^|]*)\|\}/g, (_, options: string) => {
      const choices = options.split(',');
      return choices[Math.min(pick, choices.length - 1)] ?? '';
    })
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '');
}

// The keys of the language that snippets use, and what their values are. `word`: a word or a free text.

const word = 'word';
type Shape = typeof word | Quantity<unknown> | { readonly list: Shape } | { readonly keys: Keys };
type Keys = ReadonlyMap<string, Shape>;
const section = (keys: Record<string, Shape>): { readonly keys: Keys } => ({
  keys: new Map(Object.entries(keys)),
});
const listOf = (list: Shape): { readonly list: Shape } => ({ list });

const shot = section({
  id: identifier,
  effect: word,
  subject: section({ at: coordinates, height: length }),
  facing: bearing,
  tilt: angle,
  lens: lensChoice,
  aperture,
  iso: sensitivity,
  metered,
  filters: listOf(identifier),
  start: moment,
  frames: count,
});
const spot = section({
  id: identifier,
  name: word,
  at: coordinates,
  elevation: height,
  skyline: section({ E: angle, SE: angle, S: angle }),
  drive: duration,
  walk: section({ distance: length, climb: length }),
  arrive: moment,
  setup: duration,
  open: momentRange,
  permission: word,
  stance: section({ on: word, 'height-needed': length }),
  hazards: listOf(word),
  water: section({ state: word, level: word }),
  needs: listOf(condition),
  shots: listOf(shot),
});
const forecastHour = section({
  at: clock,
  cloud: share,
  wind: speed,
  air: temperature,
  'dew-point': temperature,
});
const forecast = section({ issued: instant, hours: listOf(forecastHour) });
const tides = listOf(section({ low: clock, high: clock, height }));
const body = section({
  id: identifier,
  sensor: sensorSize,
  pixels: pixelSize,
  shutter: shutterRange,
  dial: stopStep,
  bulb,
  range: stops,
  finder: word,
  'noise-reduction': flag,
  battery: duration,
});
const film = section({
  id: identifier,
  iso: sensitivity,
  reciprocity: section({ exponent: word, beyond: duration }),
});
const lens = section({ id: identifier, focal: focalLength, aperture: apertureRange, thread: threadSize });
const filter = section({
  id: identifier,
  kind: word,
  strength: filterStrength,
  measured: stops,
  edge: word,
  loss: stops,
  thread: threadSize,
  slot: length,
});
const kit = {
  kit: word,
  bodies: listOf(body),
  lenses: listOf(lens),
  filters: listOf(filter),
  holder: section({ slots: count, slot: length, rings: listOf(threadSize) }),
  tripod: section({ height: length }),
  carried: listOf(word),
} as const;
const plan = section({
  plan: word,
  date,
  party: section({ contact: word, 'back-by': clock }),
  start: section({ from: coordinates, leave: moment }),
  forecast,
  tides,
  spots: listOf(spot),
  ...kit,
});

/** What each snippet is a piece of. */
const pieces: ReadonlyMap<string, Shape> = new Map<string, Shape>([
  ['Plan', plan],
  ['Spot', listOf(spot)],
  ['Shot', listOf(shot)],
  ['Bracket', listOf(shot)],
  ['Night shot', listOf(shot)],
  ['Tides', section({ tides })],
  ['Forecast', section({ forecast })],
  ['Forecast hour', listOf(forecastHour)],
  ['Kit', section(kit)],
  ['Body', listOf(body)],
  ['Film', listOf(film)],
  ['Lens', listOf(lens)],
  ['Neutral density filter', listOf(filter)],
  ['Graduated filter', listOf(filter)],
  ['Polarizer', listOf(filter)],
]);

/** Walks a node along its shape and tells what does not belong: unknown keys, values that are not read or not without remarks. */
function faults(node: unknown, shape: Shape, path: string): string[] {
  if (shape === word) return isScalar(node) && String(node.source) !== '' ? [] : [`${path}: no text`];
  if ('list' in shape) {
    if (!isSeq(node) || node.items.length === 0) return [`${path}: no list`];
    return node.items.flatMap((item, index) => faults(item, shape.list, `${path}[${index}]`));
  }
  if ('keys' in shape) {
    if (!isMap(node)) return [`${path}: no mapping`];
    return node.items.flatMap(({ key, value }) => {
      const name = isScalar(key) ? String(key.source) : '?';
      const inner = shape.keys.get(name);
      return inner === undefined ? [`${path}.${name}: unknown`] : faults(value, inner, `${path}.${name}`);
    });
  }
  if (!isScalar(node)) return [`${path}: no scalar`];
  const { value, problems } = shape.parse(String(node.source));
  return value === undefined || problems.length > 0
    ? [`${path}: ${problems.map(({ message }) => message).join(' ')}`]
    : [];
}

/** The filled snippet, read as YAML 1.2 without an error or a warning. */
function parsed(snippet: Snippet, pick = 0): Node | null {
  const document = parseDocument(filled(snippet, pick), { version: '1.2', schema: 'core' });
  expect(document.errors).toEqual([]);
  expect(document.warnings).toEqual([]);
  return document.contents;
}

describe('snippets', () => {
  test('each is a piece of the language, and each has its own prefix', () => {
    expect([...snippets.keys()].sort()).toEqual([...pieces.keys()].sort());
    const prefixes = [...snippets.values()].map(({ prefix }) => prefix);
    expect(new Set(prefixes).size).toBe(prefixes.length);
  });

  test.each([...snippets])('%s: known keys, and values that are read without a remark', (name, snippet) => {
    const shape = pieces.get(name);
    if (shape === undefined) throw new Error(`${name} is no known piece.`);
    for (const pick of [0, 1, 99]) expect(faults(parsed(snippet, pick), shape, name)).toEqual([]);
  });

  test.each([...snippets])(
    '%s: places are numbered in order, without gaps, and nothing is left over',
    (_, snippet) => {
      const written = snippet.body.join('\n');
      const numbers = [...written.matchAll(/\$\{?(\d+)/g)].map(([, number]) => Number(number));
      expect(numbers).toEqual([...numbers.slice(0, -1).map((_number, index) => index + 1), 0]);
      expect(filled(snippet)).not.toMatch(/[$|\t]/);
      expect(snippet.description).toMatch(/^[A-Z].{10,}[^.]$/);
    },
  );

  test('where work can hurt someone the caution stands', () => {
    expect(filled(snippets.get('Tides') as Snippet)).toContain('ask locally');
    expect(filled(snippets.get('Neutral density filter') as Snippet)).toContain('do not look at the sun');
  });
});
