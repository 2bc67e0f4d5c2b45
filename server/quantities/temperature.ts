import { asSuggestions, fits, impossible, isRefusal, kept, leftover, plain, takeNumber } from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { Scanner, shortened } from './scan.ts';
import { beginning, distinct, withUnits } from './suggest.ts';

type Scale = 'celsius' | 'fahrenheit';

const SCALES: ReadonlyMap<string, Scale> = new Map([
  ...['C', '°C', 'ºC', '˚C', 'c', '°c', 'celsius', 'Celsius', '℃'].map((unit) => [unit, 'celsius'] as const),
  ...['F', '°F', 'ºF', '˚F', 'f', '°f', 'fahrenheit', 'Fahrenheit', '℉'].map(
    (unit) => [unit, 'fahrenheit'] as const,
  ),
]);

const ABSOLUTE_ZERO = -273.15;
const HOTTEST = 100;

const examples = ['4 °C', '-3 °C', '39 °F', '4 C'];

/** The temperature of air or water, or a dew point, in °C. Fahrenheit: (F - 32) / 1.8. */
export const temperature: Quantity<number> = {
  name: 'temperature',
  documentation: 'A temperature of air or water.\n\n`4 °C`, `-3°C`, `39 °F`, `4 C`.',
  examples,
  recognise: (text) => fits(text, /^\s*[-+−–]?\s*[\d.]+\s*([°º˚]?\s*[CF]|℃|℉)\s*$/iu),
  parse(text) {
    const scanner = new Scanner(text);
    const number = takeNumber(scanner, 'a temperature, as in 4 °C');
    if (isRefusal(number)) return number;
    const scale = takeScale(scanner, text.slice(number.span.start, number.span.end));
    if (typeof scale !== 'string') return scale;
    const rest = leftover(scanner, 'the temperature');
    if (rest !== undefined) return rest;
    const celsius = kept(scale === 'celsius' ? number.value : (number.value - 32) / 1.8);
    if (!(celsius >= ABSOLUTE_ZERO)) {
      return impossible(text, 'Nothing is colder than -273.15 °C (-459.67 °F), absolute zero.');
    }
    if (!(celsius <= HOTTEST))
      return impossible(text, `Air and water are not hotter than ${HOTTEST} °C here.`);
    return read(celsius);
  },
  format: (celsius) => `${plain(celsius)} °C`,
  complete: (typed) =>
    typed.trim() === ''
      ? asSuggestions(examples)
      : distinct([
          ...withUnits(typed, asSuggestions([' °C', ' °F'])),
          ...beginning(typed, asSuggestions(examples)),
        ]),
};

function takeScale(scanner: Scanner, written: string): Scale | Reading<never> {
  const { text } = scanner;
  const sign = scanner.takeAny('℃℉');
  if (sign !== undefined) return sign === '℃' ? 'celsius' : 'fahrenheit';
  const unit = scanner.unit();
  if (unit === undefined && !scanner.done) return scanner.unexpected('°C or °F');
  const isMark = unit !== undefined && /^[°º˚]$/u.test(unit.text);
  const letter = isMark ? scanner.word() : undefined;
  const spelling = (unit?.text ?? '') + (letter?.text ?? '');
  const scale = SCALES.get(spelling);
  if (scale !== undefined) return scale;
  if (spelling === '' || (isMark && letter === undefined)) {
    return refused(text, `Which degrees? Write ${shortened(written)} °C or ${shortened(written)} °F.`, {
      code: 'plan/missing-unit',
    });
  }
  return refused(text, `“${shortened(spelling)}” is not a unit of temperature. Use °C or °F.`, {
    code: 'plan/unknown-unit',
    start: unit?.span.start ?? 0,
    end: scanner.at,
  });
}
