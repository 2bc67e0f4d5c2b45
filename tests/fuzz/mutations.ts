import fc from 'fast-check';

/** One change of a text, at a place that is given as a share of its length. */
type Mutation =
  | { readonly kind: 'delete' | 'duplicate' | 'swap'; readonly of: 'line' | 'character'; readonly at: number }
  | { readonly kind: 'insert'; readonly at: number; readonly text: string }
  | { readonly kind: 'cut'; readonly from: number; readonly length: number };

/** What YAML, the language or a sloppy program reacts to. */
const pieces = [
  ...':{}[]"\'&*!|>%@#-?,~`\\/=<',
  ...' \t\n\r',
  '\r\n',
  '\0',
  '\uFEFF',
  '\u2028',
  '\uD800',
  'é',
  '😀',
  '½',
  '°',
  '---\n',
  '...\n',
  '%YAML 1.1\n',
  '<<: *a',
  '&a ',
  '*a',
  '!!int ',
  '!!binary |\n',
  ': ',
  '- ',
  '? ',
  'sunrise',
  'after ',
  'after mirror',
  'earlier of ',
  'next day',
  '99999999999999999999',
  '1/0 s',
  '0',
  '-1',
  'NaN',
  '1e309',
  '__proto__: 1\n',
  'constructor: 1\n',
  'spots:\n',
  '  - id: mirror\n',
  'timezone: Antarctica/Troll\n',
  'date: 0001-01-01\n',
  'date: 9999-12-31\n',
];

const share = fc.double({ min: 0, max: 1, noNaN: true });

const mutation: fc.Arbitrary<Mutation> = fc.oneof(
  fc.record({
    kind: fc.constantFrom('delete', 'duplicate', 'swap'),
    of: fc.constantFrom('line', 'character'),
    at: share,
  }),
  fc.record({
    kind: fc.constant('insert' as const),
    at: share,
    text: fc.oneof(fc.constantFrom(...pieces), fc.string({ unit: 'binary', maxLength: 4 })),
  }),
  fc.record({ kind: fc.constant('cut' as const), from: share, length: fc.nat({ max: 60 }) }),
);

/** A few changes in a row. */
export const mutations = fc.array(mutation, { minLength: 1, maxLength: 6 });

export function mutated(text: string, changes: readonly Mutation[]): string {
  return changes.reduce(change, text);
}

function change(text: string, mutation: Mutation): string {
  if (mutation.kind === 'cut') {
    const start = Math.floor(mutation.from * text.length);
    return text.slice(0, start) + text.slice(start + mutation.length);
  }
  if (mutation.kind === 'insert') {
    const at = Math.floor(mutation.at * text.length);
    return text.slice(0, at) + mutation.text + text.slice(at);
  }
  const parts = mutation.of === 'line' ? text.split(/(?<=\n)/) : [...text];
  const at = Math.floor(mutation.at * Math.max(parts.length - 1, 0));
  const part = parts[at] ?? '';
  if (mutation.kind === 'delete') parts.splice(at, 1);
  else if (mutation.kind === 'duplicate') parts.splice(at, 0, part);
  else {
    const other = parts[at + 1] ?? '';
    parts.splice(at, 2, other, part);
  }
  return parts.join('');
}
