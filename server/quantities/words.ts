import { asSuggestions, kept, leftover, plain, takeNumber } from './measure.ts';
import { nearest } from './nearest.ts';
import { type Quantity, type Reading, read, refused, type Suggestion } from './quantity.ts';
import { characterName, Scanner, shortened } from './scan.ts';
import { beginning } from './suggest.ts';

/** One word of a closed list, and what it means. */
export interface Choice {
  readonly value: string;
  readonly doc: string;
}

const LONGEST_ID = 100;

/**
 * The id of a spot, a shot, a body, a lens or a filter: a letter, then letters, digits, `-` and `_`. It begins with a
 * letter so that it can never be taken for a time or a focal length.
 */
export const identifier: Quantity<string> = {
  name: 'id',
  documentation:
    'A short name without blanks, by which other lines refer to this: letters, digits, `-` and `_`.\n\n`north-steps`, `nd6`.',
  examples: ['north-steps', 'cascade', 'nd6'],
  recognise: (text) => /^\s*\p{L}[\p{L}\p{M}\p{N}_-]*\s*$/u.test(text.slice(0, 200)),
  parse(text) {
    const name = text.trim();
    if (name === '') return refused(text, 'An id is missing. Write a short name such as north-steps.');
    if (name.length > LONGEST_ID) {
      return refused(text, `An id is a short name, at most ${LONGEST_ID} characters.`);
    }
    const odd = /[^\p{L}\p{M}\p{N}_-]/u.exec(name)?.[0];
    const rewrite = odd === undefined ? undefined : joined(name);
    if (odd !== undefined) {
      const what = odd.trim() === '' ? 'a blank' : characterName(odd);
      const advice = rewrite === undefined ? '' : ` Write ${shortened(rewrite)}.`;
      return refused(
        text,
        `An id cannot have ${what} in it.${advice}`,
        rewrite === undefined ? {} : { rewrite },
      );
    }
    if (!/^\p{L}/u.test(name))
      return refused(text, `An id begins with a letter: “${shortened(name)}” does not.`);
    return read(name);
  },
  format: (id) => id,
  complete: () => [],
};

/** The words of a would-be id joined by hyphens, when that makes an id. */
function joined(name: string): string | undefined {
  const parts = name.split(/[^\p{L}\p{M}\p{N}_-]/u).filter((part) => part !== '');
  const id = parts.join('-');
  return /^\p{L}/u.test(id) ? id : undefined;
}

/** Free text, kept but for the blanks around it. */
export function text(
  name: string,
  documentation: string,
  examples: readonly string[] = [],
): Quantity<string> {
  return {
    name,
    documentation,
    examples,
    recognise: (written) => written.trim() !== '',
    parse(written) {
      const value = written.trim();
      return value === '' ? refused(written, `The ${name} is empty.`) : read(value);
    },
    format: (value) => value,
    complete: (typed) => beginning(typed, asSuggestions(examples)),
  };
}

const FLAGS: ReadonlyMap<string, boolean> = new Map([
  ['yes', true],
  ['on', true],
  ['true', true],
  ['no', false],
  ['off', false],
  ['false', false],
]);

/** Yes or no. */
export const flag: Quantity<boolean> = {
  name: 'yes or no',
  documentation: 'Yes or no.\n\n`yes`, `no`, `on`, `off`, `true`, `false`.',
  examples: ['yes', 'no', 'on', 'off', 'true', 'false'],
  recognise: (written) => FLAGS.has(word(written)),
  parse(written) {
    const value = FLAGS.get(word(written));
    return value === undefined ? unknownWord(written, [...FLAGS.keys()]) : read(value);
  },
  format: (value) => (value ? 'yes' : 'no'),
  complete: (typed) => beginning(typed, asSuggestions([...FLAGS.keys()])),
};

/** What a plain number has to be. */
export interface NumberRange {
  readonly name: string;
  readonly documentation: string;
  readonly examples: readonly string[];
  readonly min: number;
  readonly max: number;
  /** Only whole numbers. */
  readonly whole?: boolean;
}

/** A number without a unit, between two limits. Fractions are read, `1/3`; a decimal comma is refused. */
export function plainNumber(range: NumberRange): Quantity<number> {
  const { name, documentation, examples, min, max, whole = false } = range;
  const limits = `${whole ? 'a whole number' : 'a number'} from ${plain(min)} to ${plain(max)}`;
  return {
    name,
    documentation,
    examples,
    recognise: (written) => {
      const scanner = new Scanner(written);
      return scanner.number() !== undefined && scanner.done;
    },
    parse(written) {
      const scanner = new Scanner(written);
      const number = takeNumber(scanner, limits);
      if ('problems' in number) return number;
      const rest = leftover(scanner, 'the number');
      if (rest !== undefined) return rest;
      const value = kept(number.value);
      if (value >= min && value <= max && (!whole || Number.isInteger(value))) return read(value);
      return refused(written, `“${shortened(written)}” cannot be: write ${limits}.`, {
        code: 'plan/impossible-value',
      });
    },
    format: plain,
    complete: (typed) => beginning(typed, asSuggestions(examples)),
  };
}

/** How many of something: 1 or more. */
export const count: Quantity<number> = plainNumber({
  name: 'count',
  documentation: 'How many: a whole number, 1 or more.\n\n`2`.',
  examples: ['1', '2', '3', '5'],
  min: 1,
  max: 100_000,
  whole: true,
});

/** One word of a closed list. Case does not count, and a blank, a hyphen and an underscore are the same. */
export function choice(name: string, options: readonly Choice[], documentation = ''): Quantity<string> {
  const words = options.map(({ value }) => value);
  const byWord = new Map(words.map((value) => [word(value), value]));
  return {
    name,
    documentation: [documentation, options.map(({ value, doc }) => `\`${value}\` ${doc}`).join(' ')]
      .filter((part) => part !== '')
      .join('\n\n'),
    examples: words,
    recognise: (written) => byWord.has(word(written)),
    parse(written) {
      const value = byWord.get(word(written));
      return value === undefined ? unknownWord(written, words) : read(value);
    },
    format: (value) => value,
    complete: (typed) => beginning(typed, asOptions(options)),
  };
}

/**
 * A list of usual words that the author may leave for their own: hazards, things carried. The value is the usual word,
 * or the text as written. What looks like a usual word misspelt is read as written, with a hint.
 */
export function choiceWithText(
  name: string,
  options: readonly Choice[],
  documentation = '',
): Quantity<string> {
  const closed = choice(name, options, documentation);
  return {
    ...closed,
    recognise: (written) => written.trim() !== '',
    parse(written): Reading<string> {
      const known = closed.parse(written);
      if (known.value !== undefined) return known;
      const own = written.trim();
      if (own === '') return refused(written, `The ${name} is empty.`);
      const near = nearest(own, closed.examples);
      if (near === undefined) return read(own);
      return read(own, [
        {
          code: 'plan/unknown-word',
          severity: 'hint',
          message: `“${shortened(own)}” is not one of the usual words. Is “${near}” meant?`,
          span: { start: 0, end: written.length },
          rewrite: near,
        },
      ]);
    },
  };
}

function asOptions(options: readonly Choice[]): readonly Suggestion[] {
  return options.map(({ value, doc }) => ({ text: value, detail: doc }));
}

/** The form in which words are compared. Long texts are no words. */
function word(written: string): string {
  return written.length > 100
    ? ''
    : written
        .trim()
        .replace(/[\s_-]+/g, ' ')
        .toLowerCase();
}

/** A list of words for a message: the first twelve, and how many more there are. */
export function firstOf(words: readonly string[]): string {
  const more = words.length - 12;
  return words.slice(0, 12).join(', ') + (more > 0 ? ` and ${more} more` : '');
}

function unknownWord(written: string, words: readonly string[]): Reading<never> {
  const near = nearest(written, words);
  const advice = near === undefined ? `Write ${firstOf(words)}.` : `Is “${near}” meant?`;
  const what = written.trim() === '' ? 'A word is missing.' : `“${shortened(written)}” is not known here.`;
  return refused(written, `${what} ${advice}`, {
    code: 'plan/unknown-word',
    ...(near === undefined ? {} : { rewrite: near }),
  });
}
