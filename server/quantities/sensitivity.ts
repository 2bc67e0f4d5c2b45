import { fits } from './measure.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { isDigit, replaced, Scanner, shortened } from './scan.ts';
import { beginning } from './suggest.ts';

const highest = 1_000_000;
const usual = [
  50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 3200, 6400, 12800,
];

/** The ISO speed to which the exposure is set: arithmetic scale, a whole number. */
export const sensitivity: Quantity<number> = {
  name: 'ISO',
  documentation: 'The ISO speed of the exposure.\n\n`64`, `ISO 64`, `ISO 100/21°`',
  examples: ['64', '100', '400', 'ISO 64', 'ISO 100/21°'],
  recognise: (text) => {
    const scanner = new Scanner(text);
    if (scanner.word()?.text.toLowerCase() === 'iso') return true;
    return fits(text, /^\s*\d+\s*(\/\s*\d+\s*[°º˚]?)?\s*$/u);
  },
  parse: parseSensitivity,
  format: (iso) => String(iso),
  complete: (typed) => {
    const texts = usual.flatMap((iso) => (/^\s*i/i.test(typed) ? [`ISO ${iso}`] : [`${iso}`]));
    return beginning(
      typed,
      texts.map((text) => ({ text })),
    );
  },
};

function parseSensitivity(text: string): Reading<number> {
  const scanner = new Scanner(text);
  const word = scanner.word();
  const scale = word?.text.toLowerCase();
  if (word !== undefined && scale === 'asa') {
    return refused(text, 'Write ISO instead of ASA.', {
      ...word.span,
      rewrite: replaced(text, word.span, 'ISO'),
    });
  }
  if (word !== undefined && scale !== 'iso')
    return new Scanner(text).unexpected('an ISO speed such as 64 or ISO 64');
  const number = scanner.number({ fractions: false });
  if (number === undefined) return scanner.unexpected('an ISO speed such as 64');
  const thousands = /^(\d{1,3})[,.](\d{3})$/.exec(text.slice(number.span.start, number.span.end).slice(0, 8));
  if (thousands !== null) {
    const meant = `${thousands[1]}${thousands[2]}`;
    const rewrite = replaced(text, number.span, meant);
    return refused(text, `An ISO speed has no comma or point: ${meant}.`, { ...number.span, rewrite });
  }
  if (number.decimalComma || !Number.isInteger(number.value) || number.value < 1 || number.value > highest) {
    const written = shortened(text.slice(number.span.start, number.span.end));
    return refused(text, `An ISO speed is a whole number from 1 to ${highest}, not ${written}.`, {
      code: 'plan/impossible-value',
      ...number.span,
    });
  }
  return (
    degreesRefused(scanner, number.value) ??
    (scanner.done ? read(number.value) : scanner.unexpected('the end'))
  );
}

/**
 * `ISO 100/21°` gives the logarithmic speed too: S° = 1 + 10 lg S, to the nearest degree (ISO 5800; formula from memory).
 * The two must agree.
 */
function degreesRefused(scanner: Scanner, iso: number): Reading<never> | undefined {
  if (!scanner.slash()) return undefined;
  const start = scanner.at;
  const degrees = isDigit(scanner.next) ? scanner.digits() : undefined;
  if (degrees === undefined) return scanner.unexpected('the speed in degrees, as in ISO 100/21°');
  scanner.takeAny('°º˚');
  const meant = Math.round(1 + 10 * Math.log10(iso));
  if (Number(degrees.text) === meant) return undefined;
  return refused(
    scanner.text,
    `ISO ${iso} is ${meant}°, not ${shortened(degrees.text)}°: the two do not fit.`,
    {
      code: 'plan/impossible-value',
      start,
      end: scanner.at,
    },
  );
}
