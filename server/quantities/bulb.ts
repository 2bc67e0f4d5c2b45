import { duration } from './duration.ts';
import { asSuggestions } from './measure.ts';
import { type Quantity, read, refused } from './quantity.ts';
import { inside } from './scan.ts';
import { beginning } from './suggest.ts';

/** How long a body can hold its shutter open beyond the slowest position of its dial. */
export interface Bulb {
  /** In seconds; null without a stated limit; 0 when there is no bulb. */
  readonly longestSeconds: number | null;
}

const examples = ['up to 30 min', 'unlimited', 'none', 'up to 15 min', 'up to 1 h'];

const WORDS: ReadonlyMap<string, number | null> = new Map([
  ['unlimited', null],
  ['yes', null],
  ['on', null],
  ['true', null],
  ['none', 0],
  ['no', 0],
  ['off', 0],
  ['false', 0],
]);

/** Whether, and for how long, a body can expose on bulb. */
export const bulb: Quantity<Bulb> = {
  name: 'bulb',
  documentation:
    'How long the shutter can be held open beyond the dial.\n\n`up to 30 min`, `30 min`, `unlimited`, `yes`, `none`, `no`.',
  examples,
  recognise: (text) =>
    WORDS.has(word(text)) || /^\s*up\s+to\b/i.test(text.slice(0, 40)) || duration.recognise(text),
  parse(text) {
    const longestSeconds = WORDS.get(word(text));
    if (longestSeconds !== undefined) return read({ longestSeconds });
    const opening = /^\s*up\s+to\b\s*/i.exec(text.slice(0, 40))?.[0] ?? '';
    if (opening === '' && !/^\s*[\d½¼¾+−-]/u.test(text.slice(0, 40))) {
      return refused(
        text,
        'Write how long the shutter can be held open, as in up to 30 min, or unlimited, or none.',
      );
    }
    const limit = { start: opening.length, end: text.length };
    const reading = duration.parse(text.slice(limit.start));
    const problems = inside(text, limit, reading.problems);
    return reading.value === undefined ? { problems } : read({ longestSeconds: reading.value }, problems);
  },
  format: ({ longestSeconds }) => {
    if (longestSeconds === null) return 'unlimited';
    return longestSeconds === 0 ? 'none' : `up to ${duration.format(longestSeconds)}`;
  },
  complete: (typed) => beginning(typed, asSuggestions(examples)),
};

function word(text: string): string {
  return text.length > 40 ? '' : text.trim().toLowerCase();
}
