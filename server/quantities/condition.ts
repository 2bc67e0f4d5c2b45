import { height } from './length.ts';
import { nearest } from './nearest.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { inside, replaced, type ScannedText, Scanner, shortened } from './scan.ts';
import { share } from './share.ts';
import { speed } from './speed.ts';
import { beginning } from './suggest.ts';
import { temperature } from './temperature.ts';

/** What a forecast or a tide table gives and a condition can compare. */
export type ConditionQuantity = 'wind' | 'gusts' | 'cloud' | 'rain' | 'air' | 'dew-point' | 'tide';

export type Comparison = '<' | '<=' | '>' | '>=';

/** How the water has to be; only a look on the spot can tell. */
export type WaterState = 'running' | 'calm' | 'full' | 'low';

/** What a spot needs so that it is worth going. */
export type Condition =
  | {
      readonly quantity: ConditionQuantity;
      readonly comparison: Comparison;
      /** wind and gusts in m/s; cloud and rain (its probability) as a share from 0 to 1; air and dew point in °C; tide in m above chart datum. */
      readonly value: number;
    }
  | { readonly quantity: 'water'; readonly state: WaterState };

const kinds: ReadonlyMap<ConditionQuantity, Quantity<number>> = new Map([
  ['wind', speed],
  ['gusts', speed],
  ['cloud', share],
  ['rain', share],
  ['air', temperature],
  ['dew-point', temperature],
  ['tide', height],
]);
const waterStates: readonly WaterState[] = ['running', 'calm', 'full', 'low'];

/** The longest first, so that `<=` is not taken for `<`. */
const comparisons: ReadonlyMap<string, Comparison> = new Map([
  ['<=', '<='],
  ['>=', '>='],
  ['=<', '<='],
  ['=>', '>='],
  ['≤', '<='],
  ['≥', '>='],
  ['<', '<'],
  ['>', '>'],
]);

/** Words that mean a comparison: understood well enough to offer the rewrite. */
const comparisonWords: ReadonlyMap<string, Comparison> = new Map([
  ['below', '<'],
  ['under', '<'],
  ['above', '>'],
  ['over', '>'],
]);

/** Names that are often written instead. */
const otherNames: ReadonlyMap<string, ConditionQuantity> = new Map([
  ['temperature', 'air'],
  ['clouds', 'cloud'],
  ['gust', 'gusts'],
  ['dewpoint', 'dew-point'],
]);

const examples = [
  'wind < 5 km/h',
  'gusts < 8 m/s',
  'cloud < 95 %',
  'cloud >= 3/8',
  'rain < 30 %',
  'air > -5 °C',
  'dew-point < 3 °C',
  'tide < 1.5 m',
  'water running',
];

/** Something that must hold: a forecast value against a limit, or the state of the water. */
export const condition: Quantity<Condition> = {
  name: 'condition',
  documentation: [
    'What must hold for the spot to be worth it: a value of the forecast (rain is its probability), the height of the tide, or how the water is.',
    '',
    examples.map((example) => `\`${example}\``).join(', '),
  ].join('\n'),
  examples,
  recognise: (text) => {
    const name = scanName(new Scanner(text));
    return name !== undefined && (name.text === 'water' || quantityNamed(name.text) !== undefined);
  },
  parse: parseCondition,
  format(value) {
    if (value.quantity === 'water') return `water ${value.state}`;
    return `${value.quantity} ${value.comparison} ${kinds.get(value.quantity)?.format(value.value) ?? value.value}`;
  },
  complete: (typed) =>
    beginning(
      typed,
      [...examples, ...waterStates.map((state) => `water ${state}`).slice(1)].map((text) => ({ text })),
    ),
};

function parseCondition(text: string): Reading<Condition> {
  const scanner = new Scanner(text);
  const name = scanName(scanner);
  if (name === undefined) return scanner.unexpected('a condition such as wind < 5 km/h');
  if (name.text === 'water') return parseWater(scanner);
  const quantity = quantityNamed(name.text);
  const kind = quantity === undefined ? undefined : kinds.get(quantity);
  if (quantity === undefined || kind === undefined) return unknownName(text, name);
  const comparison = scanComparison(scanner);
  if (typeof comparison === 'object') return comparison;
  const span = scanner.rest;
  if (span.start >= text.length)
    return scanner.unexpected(`a limit, as in ${name.text} < ${kind.examples[0]}`);
  const reading = kind.parse(text.slice(span.start, span.end));
  const problems = inside(text, span, reading.problems);
  return reading.value === undefined
    ? { problems }
    : read({ quantity, comparison, value: reading.value }, problems);
}

function parseWater(scanner: Scanner): Reading<Condition> {
  const { text } = scanner;
  const word = scanner.word();
  const wanted = word?.text.toLowerCase();
  const state = waterStates.find((known) => known === wanted);
  if (word === undefined) return scanner.unexpected(`how the water is: ${waterStates.join(', ')}`);
  if (state !== undefined) {
    return scanner.done ? read({ quantity: 'water', state }) : scanner.unexpected('the end of the condition');
  }
  const near = nearest(word.text, waterStates);
  return refused(text, `“${shortened(word.text)}” is no state of the water: use ${waterStates.join(', ')}.`, {
    ...word.span,
    ...(near === undefined ? {} : { rewrite: replaced(text, word.span, near) }),
  });
}

/** Takes one word, or two that are joined by a hyphen or are `dew point`; in lower case. */
function scanName(scanner: Scanner): ScannedText | undefined {
  const first = scanner.word();
  if (first === undefined) return undefined;
  const start = first.span.start;
  const origin = scanner.at;
  const joined = scanner.text[origin] === '-';
  if (joined) scanner.at += 1;
  if (joined || first.text.toLowerCase() === 'dew') {
    const second = scanner.word();
    if (second !== undefined) {
      const text = `${first.text}-${second.text}`.toLowerCase();
      return { text, span: { start, end: scanner.at } };
    }
  }
  scanner.at = origin;
  return { text: first.text.toLowerCase(), span: first.span };
}

function quantityNamed(name: string): ConditionQuantity | undefined {
  for (const quantity of kinds.keys()) if (quantity === name) return quantity;
  return undefined;
}

function unknownName(text: string, name: ScannedText): Reading<never> {
  const names = [...kinds.keys(), 'water'];
  const meant = otherNames.get(name.text) ?? nearest(name.text, names);
  const advice = meant === undefined ? `use ${names.join(', ')}` : `write ${meant}`;
  return refused(text, `“${shortened(name.text)}” is nothing a forecast gives: ${advice}.`, {
    ...name.span,
    ...(meant === undefined ? {} : { rewrite: replaced(text, name.span, meant) }),
  });
}

function scanComparison(scanner: Scanner): Comparison | Reading<never> {
  for (const [mark, comparison] of comparisons) if (scanner.take(mark)) return comparison;
  const { text } = scanner;
  const origin = scanner.at;
  const word = scanner.word();
  const meant = comparisonWords.get(word?.text.toLowerCase() ?? '');
  if (word !== undefined && meant !== undefined) {
    const rewrite = replaced(text, word.span, meant);
    return refused(text, `Write ${meant} instead of “${word.text}”.`, { ...word.span, rewrite });
  }
  scanner.at = origin;
  return scanner.unexpected('one of < <= > >=');
}
