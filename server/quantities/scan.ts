import type { Problem } from '../text/finding.ts';
import { type Span, shifted } from '../text/span.ts';
import { type Reading, refused } from './quantity.ts';

/** A number as it stands in a text. */
export interface ScannedNumber {
  /** Sign applied. Not finite for `1/0` or absurdly many digits: test ranges as `!(value > low && value < high)`. */
  readonly value: number;
  /** From its sign to its last digit. */
  readonly span: Span;
  readonly sign?: '+' | '-';
  /** `30`; `0.5`; `1/250` or `½`; `1 1/3` or `1⅓`. */
  readonly form: 'whole' | 'decimal' | 'fraction' | 'mixed';
  /** `1,5` was read as 1.5. No kind accepts that: see `commaRefused`. */
  readonly decimalComma: boolean;
}

/** A run of letters, digits or marks as it stands in a text. */
export interface ScannedText {
  readonly text: string;
  readonly span: Span;
}

const vulgarFractions: ReadonlyMap<string, number> = new Map([
  ['½', 1 / 2],
  ['⅓', 1 / 3],
  ['⅔', 2 / 3],
  ['¼', 1 / 4],
  ['¾', 3 / 4],
  ['⅕', 1 / 5],
  ['⅖', 2 / 5],
  ['⅗', 3 / 5],
  ['⅘', 4 / 5],
  ['⅙', 1 / 6],
  ['⅚', 5 / 6],
  ['⅛', 1 / 8],
  ['⅜', 3 / 8],
  ['⅝', 5 / 8],
  ['⅞', 7 / 8],
]);

const idCharacter = /[\p{L}\p{M}\p{N}_-]/u;
/** Solidus, fraction slash, division slash. */
const slashes = '/\u2044\u2215';
/** Signs that stand for minutes, seconds, degrees and shares; they may be part of a unit. */
const unitMarks = '°º˚%‰\'"′″’”';

export function isDigit(character: string): boolean {
  return character.length === 1 && character >= '0' && character <= '9';
}

/** White space of every width, line ends too; not the zero-width characters, which nobody types on purpose. */
export function isBlank(character: string): boolean {
  if (character === '' || character === '\ufeff') return false;
  return character <= ' '
    ? ' \n\r\t\v\f'.includes(character)
    : character >= '\u00a0' && /^\s/.test(character);
}

function isLetter(character: string): boolean {
  return (
    (character >= 'a' && character <= 'z') ||
    (character >= 'A' && character <= 'Z') ||
    /^\p{L}/u.test(character)
  );
}

/**
 * Walks once over the text of a scalar. Every method that takes something skips blanks first (no-break and thin
 * spaces too), moves `at` behind what it took, and leaves `at` alone when it takes nothing. To look ahead, keep `at`
 * and put it back. Nothing throws; each character is looked at a bounded number of times.
 */
export class Scanner {
  readonly text: string;
  /** Where the next character stands. */
  at: number;
  private blanksFrom = -1;
  private blanksTo = -1;

  constructor(text: string, at = 0) {
    this.text = text;
    this.at = at;
  }

  /** Whether nothing but blanks is left. */
  get done(): boolean {
    return this.afterBlanks() >= this.text.length;
  }

  /** The next character that is not blank (a whole code point), or '' at the end. */
  get next(): string {
    return characterAt(this.text, this.afterBlanks());
  }

  /** From the next character that is not blank to the end of the text without its last blanks. */
  get rest(): Span {
    const start = this.afterBlanks();
    return { start, end: Math.max(start, this.text.trimEnd().length) };
  }

  skipBlanks(): void {
    this.at = this.afterBlanks();
  }

  /** Takes exactly this mark or word: `@`, `..`, `<=`. Case counts. */
  take(mark: string): boolean {
    const start = this.afterBlanks();
    if (!this.text.startsWith(mark, start)) return false;
    this.at = start + mark.length;
    return true;
  }

  /** Takes one of these characters and returns it. */
  takeAny(characters: string): string | undefined {
    const character = this.next;
    if (character === '' || !characters.includes(character)) return undefined;
    this.at = this.afterBlanks() + character.length;
    return character;
  }

  /** Takes `+`, `-`, `−` (U+2212) or the dash `–` (U+2013), which some programs make of a minus between blanks. */
  sign(): '+' | '-' | undefined {
    const character = this.takeAny('+-\u2212\u2013');
    if (character === undefined) return undefined;
    return character === '+' ? '+' : '-';
  }

  /** Takes a slash, U+2044 and U+2215 too. */
  slash(): boolean {
    return this.takeAny(slashes) !== undefined;
  }

  /** Takes a run of letters: `min`, `sunrise`. Letters of every script, no digits. */
  word(): ScannedText | undefined {
    return this.run(isLetter);
  }

  /** Takes an id: letters, digits, `_` and `-`, not with a `-` first. */
  id(): ScannedText | undefined {
    if (this.next === '-') return undefined;
    return this.run((character) => idCharacter.test(character));
  }

  /** Takes a run of digits, kept as written: `07`. */
  digits(): ScannedText | undefined {
    return this.run(isDigit);
  }

  /** Takes a unit: letters and unit marks with at most one slash between letters: `s`, `"`, `°C`, `%`, `km/h`. */
  unit(): ScannedText | undefined {
    const first = this.run((character) => isLetter(character) || unitMarks.includes(character));
    if (first === undefined) return undefined;
    const { text } = this;
    if (slashes.includes(text[this.at] ?? 'x') && isLetter(characterAt(text, this.at + 1))) {
      this.at += 1;
      this.word();
    }
    return this.since(first.span.start);
  }

  /**
   * Takes a number: `30`, `0.5`, `.5`, `1/250`, `½`, `1 1/3`, `1⅓`, and `1,5` (marked `decimalComma`).
   * A sign belongs to it unless `signed` is false. With `comma: false` a comma always ends the number, for
   * lists of numbers; with `fractions: false` a slash does.
   */
  number(
    options: { signed?: boolean; comma?: boolean; fractions?: boolean } = {},
  ): ScannedNumber | undefined {
    const { signed = true, comma = true, fractions = true } = options;
    const origin = this.at;
    const start = this.afterBlanks();
    const sign = signed ? this.sign() : undefined;
    const size = this.unsigned(comma, fractions);
    if (size === undefined) {
      this.at = origin;
      return undefined;
    }
    return {
      value: sign === '-' ? -size.value : size.value,
      span: { start, end: this.at },
      ...(sign === undefined ? {} : { sign }),
      form: size.form,
      decimalComma: size.decimalComma,
    };
  }

  /** The text from `start` to the present place. */
  since(start: number): ScannedText {
    return { text: this.text.slice(start, this.at), span: { start, end: this.at } };
  }

  /**
   * The refusal of what stands at the present place, for a text that should have ended or gone on otherwise.
   * An unknown character is named by its code point. `expected` completes "expected ...".
   */
  unexpected(expected: string, options: { code?: string; rewrite?: string } = {}): Reading<never> {
    const span = this.rest;
    if (span.start >= this.text.length) {
      const last = this.text.trimEnd().length;
      return refused(this.text, `Something is missing at the end: expected ${expected}.`, {
        ...options,
        start: Math.max(0, last - 1),
      });
    }
    const character = this.next;
    const known = isLetter(character) || (character >= ' ' && character <= '~');
    const what = known
      ? `“${shortened(this.text.slice(span.start, span.end))}”`
      : `The character ${characterName(character)}`;
    return refused(this.text, `${what} is not understood here: expected ${expected}.`, {
      ...options,
      start: span.start,
      end: known ? span.end : span.start + character.length,
    });
  }

  /** Behind the blanks at the present place. The last answer is kept, so that long runs of blanks are walked once. */
  private afterBlanks(): number {
    if (this.at !== this.blanksFrom) {
      let end = this.at;
      while (isBlank(this.text.charAt(end))) end += 1;
      this.blanksFrom = this.at;
      this.blanksTo = end;
    }
    return this.blanksTo;
  }

  private run(belongs: (character: string) => boolean): ScannedText | undefined {
    const start = this.afterBlanks();
    let end = start;
    for (;;) {
      const character = characterAt(this.text, end);
      if (character === '' || !belongs(character)) break;
      end += character.length;
    }
    if (end === start) return undefined;
    this.at = end;
    return this.since(start);
  }

  private unsigned(
    comma: boolean,
    fractions: boolean,
  ): Pick<ScannedNumber, 'value' | 'form' | 'decimalComma'> | undefined {
    const first = this.decimal(comma);
    if (first === undefined || (first.form === 'whole' && fractions)) {
      const vulgar = fractions ? this.vulgar() : undefined;
      if (vulgar !== undefined) {
        return {
          value: (first?.value ?? 0) + vulgar,
          form: first ? 'mixed' : 'fraction',
          decimalComma: false,
        };
      }
    }
    if (first === undefined || !fractions) return first;
    const denominator = this.denominator(comma);
    if (denominator !== undefined) {
      const decimalComma = first.decimalComma || denominator.decimalComma;
      return { value: first.value / denominator.value, form: 'fraction', decimalComma };
    }
    if (first.form !== 'whole' || !isBlank(this.text.charAt(this.at))) return first;
    const part = this.properFraction();
    return part === undefined ? first : { value: first.value + part, form: 'mixed', decimalComma: false };
  }

  /** Digits with a decimal point or comma between or a point before them. */
  private decimal(comma: boolean): Pick<ScannedNumber, 'value' | 'form' | 'decimalComma'> | undefined {
    const { text } = this;
    const start = this.afterBlanks();
    let end = digitsEnd(text, start);
    const mark = text.charAt(end);
    const divided =
      (mark === '.' && !isDigit(text.charAt(start - 1))) || (mark === ',' && comma && end > start);
    const whole = !(divided && isDigit(text.charAt(end + 1)));
    if (!whole) end = digitsEnd(text, end + 1);
    if (end === start) return undefined;
    this.at = end;
    const decimalComma = !whole && mark === ',';
    const written = text.slice(start, end);
    return {
      value: Number(decimalComma ? written.replace(',', '.') : written),
      form: whole ? 'whole' : 'decimal',
      decimalComma,
    };
  }

  private vulgar(): number | undefined {
    const value = vulgarFractions.get(this.next);
    if (value !== undefined) this.at = this.afterBlanks() + 1;
    return value;
  }

  private denominator(comma: boolean): Pick<ScannedNumber, 'value' | 'decimalComma'> | undefined {
    const origin = this.at;
    const denominator = this.slash() ? this.decimal(comma) : undefined;
    if (denominator === undefined) this.at = origin;
    return denominator;
  }

  /** The `1/3` of `1 1/3`: whole numbers, below 1. */
  private properFraction(): number | undefined {
    const origin = this.at;
    const numerator = this.digits();
    const denominator = numerator !== undefined && this.slash() ? this.digits() : undefined;
    if (numerator !== undefined && denominator !== undefined) {
      const value = Number(numerator.text) / Number(denominator.text);
      if (value < 1) return value;
    }
    this.at = origin;
    return undefined;
  }
}

/** The refusal of a number with a decimal comma, with the rewrite of the whole text; undefined when it has none. */
export function commaRefused(text: string, number: ScannedNumber): Reading<never> | undefined {
  if (!number.decimalComma) return undefined;
  const { start, end } = number.span;
  const written = text.slice(start, end);
  const comma = written.indexOf(',');
  const fixed = `${written.slice(0, comma)}.${written.slice(comma + 1)}`;
  const options = { code: 'plan/decimal-comma', start, end };
  if (/,\d{3}(?!\d)/.test(written)) {
    const joined = written.slice(0, comma) + written.slice(comma + 1);
    const message = `“${shortened(written)}” has a comma: write ${shortened(fixed)} with a decimal point, or ${shortened(joined)} if that is meant.`;
    return refused(text, message, options);
  }
  return refused(text, `Use a decimal point: ${shortened(fixed)}.`, {
    ...options,
    rewrite: replaced(text, number.span, fixed),
  });
}

/** The text with one span replaced. */
export function replaced(text: string, span: Span, replacement: string): string {
  return text.slice(0, span.start) + replacement + text.slice(span.end);
}

/** What was said about a part of a text, said about the text: spans moved, rewrites put in their place. */
export function inside(text: string, span: Span, problems: readonly Problem[]): readonly Problem[] {
  return problems.map((problem) => ({
    ...problem,
    span: shifted(problem.span, span.start),
    ...(problem.rewrite === undefined ? {} : { rewrite: replaced(text, span, problem.rewrite) }),
  }));
}

/** A character for a message: itself where it can be seen, and its code point: `“‽” (U+203D)`. */
export function characterName(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  const name = `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
  return /[\p{L}\p{N}\p{P}\p{S}]/u.test(character) ? `“${character}” (${name})` : name;
}

/** Text of the author for a message: on one line, and cut when long. */
export function shortened(text: string): string {
  const head = text
    .slice(0, 60)
    .replace(/[\ud800-\udbff]$/, '')
    .replace(/\s+/g, ' ')
    .trim();
  return text.length > 60 ? `${head}…` : head;
}

/** The whole code point at an offset, '' behind the end. */
function characterAt(text: string, at: number): string {
  const code = text.codePointAt(at);
  if (code === undefined) return '';
  return code > 0xffff ? text.slice(at, at + 2) : text.charAt(at);
}

function digitsEnd(text: string, start: number): number {
  let end = start;
  while (isDigit(text.charAt(end))) end += 1;
  return end;
}
