import {
  asSuggestions,
  faithful,
  fits,
  impossible,
  isRefusal,
  kept,
  leftover,
  looksLike,
  type Measure,
  plain,
  takeMeasure,
  takeNumber,
} from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { Scanner, shortened } from './scan.ts';
import { beginning, withUnits } from './suggest.ts';

/** In metres. Foot, inch, yard and mile: international yard and pound agreement, 1959; nautical mile: ISO 80000-3. */
const LENGTH_UNITS: ReadonlyMap<string, number> = new Map([
  ['mm', 1e-3],
  ['cm', 1e-2],
  ['m', 1],
  ['metre', 1],
  ['metres', 1],
  ['meter', 1],
  ['meters', 1],
  ['km', 1e3],
  ['in', 0.0254],
  ['inch', 0.0254],
  ['inches', 0.0254],
  ['"', 0.0254],
  ['”', 0.0254],
  ['″', 0.0254],
  ['ft', 0.3048],
  ['foot', 0.3048],
  ['feet', 0.3048],
  ["'", 0.3048],
  ['’', 0.3048],
  ['′', 0.3048],
  ['yd', 0.9144],
  ['yard', 0.9144],
  ['yards', 0.9144],
  ['mi', 1609.344],
  ['mile', 1609.344],
  ['miles', 1609.344],
  ['nmi', 1852],
]);
const FOOT = 0.3048;
const INCH = 0.0254;

/** A bare number is hardly meant in kilometres or miles where a camera is focused, or how high a place lies. */
const LENGTH: Measure = {
  what: 'length',
  units: LENGTH_UNITS,
  usual: ['m', 'km', 'ft'],
  meant: () => ['m', 'ft'],
};

/** Ways are told in kilometres and miles up to about thirty, in metres and feet beyond. */
const DISTANCE: Measure = { ...LENGTH, meant: (size) => (size < 30 ? ['km', 'mi'] : ['m', 'ft']) };

/** Two and a half times round the Earth: no distance in a plan is longer. */
const LONGEST_METRES = 1e8;

/** Metres and feet with an eye on two traps: `nm` is the nanometre, and `M` could be metres, miles or nautical miles. */
function readLength(text: string, measure = LENGTH): Reading<number> {
  const scanner = new Scanner(text);
  const first = takeMeasure(scanner, measure);
  if (isRefusal(first)) return first;
  if (first.unit === 'M') {
    return refused(text, '“M” can be metres or miles. Write m, mi or nmi.', { code: 'plan/ambiguous-value' });
  }
  let metres = first.value;
  if (LENGTH_UNITS.get(first.unit) === FOOT && !scanner.done) {
    const inches = takeMeasure(scanner, { what: 'length', units: LENGTH_UNITS, usual: ['in'] });
    if (isRefusal(inches)) return inches;
    const fits = LENGTH_UNITS.get(inches.unit) === INCH && inches.number.sign === undefined;
    if (!fits || !(inches.value < FOOT) || first.number.form !== 'whole') {
      return refused(text, 'Feet and inches are written 5 ft 11 in: whole feet, and fewer than 12 inches.');
    }
    metres += first.number.sign === '-' ? -inches.value : inches.value;
  }
  const rest = leftover(scanner, 'the length');
  if (rest !== undefined) return rest;
  if (!(Math.abs(metres) <= LONGEST_METRES)) {
    return impossible(text, `${shortened(text)} is farther than anywhere on Earth.`);
  }
  return read(kept(metres));
}

const lengthSuggestions = [
  { text: ' m', detail: 'metres' },
  { text: ' km', detail: 'kilometres' },
  { text: ' ft', detail: 'feet' },
  { text: ' mi', detail: 'miles' },
  { text: ' cm', detail: 'centimetres' },
  { text: ' mm', detail: 'millimetres' },
  { text: ' nmi', detail: 'nautical miles' },
];

const lengthExamples = ['600 m', '1.2 km', '34 ft', '2 mi', '85 mm', '30 cm', '0.5 nmi', '5 ft 11 in'];

/** A distance or a size, never negative. The value is in metres. */
export const length: Quantity<number> = {
  name: 'length',
  documentation: [
    'A distance or a size, in metric or imperial units.',
    '',
    '`600 m`, `1.2 km`, `34 ft`, `2 mi`, `85 mm`, `30 cm`, `0.5 nmi`, `5 ft 11 in`, `5\'11"`.',
  ].join('\n'),
  examples: lengthExamples,
  recognise: (text) => looksLike(text, LENGTH_UNITS),
  parse: (text) => notNegative(text, readLength(text)),
  format(metres) {
    if (metres >= 1000)
      return faithful(length, metres, [`${plain(kept(metres / 1000))} km`, `${plain(metres)} m`]);
    if (metres > 0 && metres < 0.1) {
      return faithful(length, metres, [`${plain(kept(metres * 1000))} mm`, `${plain(metres)} m`]);
    }
    return `${plain(metres)} m`;
  },
  complete: (typed) =>
    typed.trim() === '' ? asSuggestions(lengthExamples) : withUnits(typed, lengthSuggestions),
};

function notNegative(text: string, reading: Reading<number>): Reading<number> {
  if (reading.value === undefined || reading.value >= 0) return reading;
  return impossible(text, `A length cannot be negative: ${shortened(text)}.`);
}

const distanceExamples = ['600 m', '1.2 km', '0.5 mi', '400 yd', '1500 ft'];

/** The length of a way, or how far off something is. The value is in metres. */
export const distance: Quantity<number> = {
  ...length,
  name: 'distance',
  documentation:
    'How far it is, in metric or imperial units.\n\n`600 m`, `1.2 km`, `0.5 mi`, `400 yd`, `1500 ft`, `0.5 nmi`.',
  examples: distanceExamples,
  parse: (text) => notNegative(text, readLength(text, DISTANCE)),
  complete: (typed) =>
    typed.trim() === '' ? asSuggestions(distanceExamples) : withUnits(typed, lengthSuggestions.slice(0, 4)),
};

const heightExamples = ['212 m', '695 ft', '0.9 m', '-0.2 m'];

/** A height above or, when negative, below a level: the sea, or the chart datum of a tide. The value is in metres. */
export const height: Quantity<number> = {
  name: 'height',
  documentation: [
    'A height above a level, the sea or the chart datum; below it with a minus.',
    '',
    '`212 m`, `695 ft`, `0.9 m`, `-0.2 m`.',
  ].join('\n'),
  examples: heightExamples,
  recognise: (text) => looksLike(text, LENGTH_UNITS),
  parse: (text) => readLength(text),
  format: (metres) => `${plain(metres)} m`,
  complete: (typed) =>
    typed.trim() === '' ? asSuggestions(heightExamples) : withUnits(typed, lengthSuggestions.slice(0, 3)),
};

// --- Width and height ----------------------------------------------------------------------------------------

const TIMES = 'x×X✕*';

const pixelExamples = ['8256 x 5504', '6000 x 4000', '6048 x 4024', '4000 x 3000'];

/** How many pixels a body's sensor has, width by height. */
export const pixelSize: Quantity<{ readonly width: number; readonly height: number }> = {
  name: 'pixels',
  documentation: 'The pixels of the sensor, width by height.\n\n`8256 x 5504`, `8256 × 5504`.',
  examples: pixelExamples,
  recognise: (text) => fits(text, /^\s*\d+\s*[x×X✕*]\s*\d+\s*(px|pixels)?\s*$/u),
  parse(text) {
    const scanner = new Scanner(text);
    const width = takePixels(scanner);
    if (isRefusal(width)) return width;
    if (scanner.takeAny(TIMES) === undefined)
      return scanner.unexpected('x and the height, as in 8256 x 5504');
    const height = takePixels(scanner);
    if (isRefusal(height)) return height;
    if (!scanner.take('px')) scanner.take('pixels');
    return leftover(scanner, 'width and height') ?? read({ width: width.value, height: height.value });
  },
  format: ({ width, height }) => `${width} x ${height}`,
  complete: (typed) => beginning(typed, asSuggestions(pixelExamples)),
};

function takePixels(scanner: Scanner): { readonly value: number } | Reading<never> {
  const number = takeNumber(scanner, 'width x height in pixels, as in 8256 x 5504');
  if (isRefusal(number)) return number;
  if (number.form === 'whole' && number.value >= 1 && number.value <= 1_000_000) return number;
  return refused(scanner.text, 'Pixels are counted in whole numbers from 1 to 1000000.', {
    code: 'plan/impossible-value',
    ...number.span,
  });
}

const sensorExamples = [
  '36 x 24 mm',
  '23.5 x 15.6 mm',
  '17.3 x 13 mm',
  '44 x 33 mm',
  '56 x 56 mm',
  '127 x 102 mm',
];

const SENSOR_UNITS: ReadonlyMap<string, number> = new Map([
  ['mm', 1],
  ['cm', 10],
  ['in', 25.4],
]);
const SENSOR: Measure = { what: 'length', units: SENSOR_UNITS, usual: ['mm'] };

/** The light-sensitive area of a body, width by height in millimetres. */
export const sensorSize: Quantity<{ readonly widthMillimetres: number; readonly heightMillimetres: number }> =
  {
    name: 'sensor size',
    documentation:
      'The size of the sensor or the film frame, width by height.\n\n`36 x 24 mm`, `36 × 24 mm`, `36 mm x 24 mm`.',
    examples: sensorExamples,
    recognise: (text) => fits(text, /^\s*[\d.]+\s*(mm|cm|in)?\s*[x×X✕*]\s*[\d.]+\s*(mm|cm|in)\s*$/u),
    parse(text) {
      const scanner = new Scanner(text);
      const width = takeNumber(scanner, 'width x height, as in 36 x 24 mm');
      if (isRefusal(width)) return width;
      const firstUnit = ['mm', 'cm', 'in'].find((unit) => scanner.take(unit));
      if (scanner.takeAny(TIMES) === undefined)
        return scanner.unexpected('x and the height, as in 36 x 24 mm');
      const height = takeMeasure(scanner, SENSOR);
      if (isRefusal(height)) return withWholeRewrite(text, height);
      const rest = leftover(scanner, 'width and height');
      if (rest !== undefined) return rest;
      const widthMillimetres = kept(
        width.value * (SENSOR_UNITS.get(firstUnit ?? height.unit.toLowerCase()) ?? 1),
      );
      const heightMillimetres = kept(height.value);
      const possible = (side: number) => side >= 1 && side <= 1000;
      if (!possible(widthMillimetres) || !possible(heightMillimetres)) {
        return impossible(text, 'Each side of a sensor or a film frame is between 1 mm and 1000 mm.');
      }
      return read({ widthMillimetres, heightMillimetres });
    },
    format: ({ widthMillimetres, heightMillimetres }) =>
      `${plain(widthMillimetres)} x ${plain(heightMillimetres)} mm`,
    complete: (typed) => beginning(typed, asSuggestions(sensorExamples)),
  };

/** A missing unit behind the height: the rewrite is of the whole text. */
function withWholeRewrite(text: string, refusal: Reading<never>): Reading<never> {
  const [problem] = refusal.problems;
  if (problem?.code !== 'plan/missing-unit') return refusal;
  const rewrite = `${text.trim()} mm`;
  return refused(text, `The unit is missing. Write ${shortened(rewrite)}.`, { code: problem.code, rewrite });
}

// --- Filter threads ------------------------------------------------------------------------------------------

const threadExamples = ['77 mm', '82 mm', '67 mm', '72 mm', '62 mm', '95 mm', '100 mm'];
const THREAD: Measure = { what: 'diameter', units: new Map([['mm', 1]]), usual: ['mm'] };

/** The diameter of a filter thread, or the width of a holder's slot, in millimetres: always given in mm in the trade. */
export const threadSize: Quantity<number> = {
  name: 'thread',
  documentation:
    'The diameter of a filter thread in mm, as printed behind ⌀ on the lens.\n\n`77 mm`, `ø77`, `77`.',
  examples: threadExamples,
  recognise: (text) => fits(text, /^\s*[øØ⌀]?\s*\d+(\.\d+)?\s*(mm)?\s*$/u),
  parse(text) {
    const scanner = new Scanner(text);
    scanner.takeAny('øØ⌀');
    const start = scanner.at;
    const number = takeNumber(scanner, 'a diameter, like 77 mm');
    if (isRefusal(number)) return number;
    if (!scanner.done) {
      scanner.at = start;
      const measured = takeMeasure(scanner, THREAD);
      if (isRefusal(measured)) return measured;
    }
    const rest = leftover(scanner, 'the diameter');
    if (rest !== undefined) return rest;
    if (!(number.value >= 10 && number.value <= 400)) {
      return impossible(text, 'Filter threads and slots are between 10 mm and 400 mm wide.');
    }
    return read(number.value);
  },
  format: (millimetres) => `${plain(millimetres)} mm`,
  complete: (typed) => beginning(typed, asSuggestions(threadExamples)),
};
