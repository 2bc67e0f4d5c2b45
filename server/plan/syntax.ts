import type { Facts, Severity } from '../text/finding.ts';
import type { Span } from '../text/span.ts';

/** A finding about the text itself, before anything is known about plans. The document is the caller's to add. */
export interface TextFinding {
  readonly code: SyntaxCode;
  readonly severity: Severity;
  readonly message: string;
  readonly span: Span;
  readonly related: readonly { readonly span: Span; readonly message: string }[];
  /**
   * What fixes read. Where one change would mend the text, it stands in `edits`: a list of `{ start, end, text }` in
   * offsets of the text, like `span`. No other fact is an offset.
   */
  readonly facts: Facts;
}

/** Every code of the family `syntax`, with its usual severity and what it means. */
export const syntaxCodes = [
  [
    'half-written-line',
    'error',
    'A line that is no `key: value`, no `- item` and no continuation of the value above it.',
  ],
  ['colon-missing', 'error', 'A key without the colon behind it.'],
  [
    'space-missing',
    'error',
    'A colon behind a key, or a dash before an item, without the space that must follow.',
  ],
  ['dash-missing', 'error', 'An item of a list that lacks the dash in front of its first key.'],
  [
    'colon-in-value',
    'error',
    'A value without quotes that holds a colon and a space; it is read as if it were quoted.',
  ],
  ['reserved-character', 'error', 'A value that begins with a character that must be quoted there.'],
  [
    'unclosed-bracket',
    'error',
    'An opening bracket or brace that nothing closes; it is read as closed at the end of its line.',
  ],
  [
    'unclosed-quote',
    'error',
    'An opening quote that nothing closes; it is read as closed at the end of its line.',
  ],
  ['bracket', 'error', 'Brackets, braces or commas that do not pair up.'],
  ['after-value', 'error', 'Text behind a value that has already ended.'],
  [
    'value-above-block',
    'error',
    'A value behind a key that has a list or keys below it as well; it is left out.',
  ],
  ['indentation', 'error', 'A line that starts at a column where no line of its block starts.'],
  ['tab', 'error', 'A tab in front of a line, where only spaces may stand.'],
  ['quoted-text', 'error', 'Quoted text that cannot be decoded, such as an unknown backslash sequence.'],
  [
    'block-text',
    'error',
    'A text after `|` or `>` whose lines cannot be told apart from what surrounds them.',
  ],
  [
    'anchor',
    'error',
    'An anchor (`&name`) or alias (`*name`) that is not well formed or stands in a wrong place.',
  ],
  [
    'tag',
    'warning',
    'A tag such as `!!int`: every value is read as it is written, so tags mean nothing here.',
  ],
  ['key', 'error', 'A key that is missing, or that is not one plain or quoted word.'],
  [
    'duplicate-key',
    'error',
    'A key that stands twice in one map; the first one is read and the later one is ignored.',
  ],
  ['byte-order-mark', 'warning', 'An invisible byte order mark inside the text.'],
  [
    'yaml-version',
    'warning',
    'A `%YAML` line that asks for another version; the file is read as YAML 1.2 all the same.',
  ],
  ['directive', 'warning', 'A line with `%` that means nothing here.'],
  [
    'second-document',
    'warning',
    'A line `---` or `...` with more below it: a file is one document, and the rest is ignored.',
  ],
  ['too-large', 'error', 'A file beyond the limit of size; nothing of it is read.'],
  ['too-deep', 'error', 'Blocks or brackets nested beyond the limit; what lies deeper is ignored.'],
  ['unreadable', 'error', 'Lines that cannot be read, for no reason that could be told.'],
  ['unknown-alias', 'error', 'An alias (`*name`) for which no anchor (`&name`) stands further above.'],
  ['alias-cycle', 'error', 'An alias inside the very block that it stands for.'],
  [
    'alias-budget',
    'error',
    'Aliases that stand for more than the limit when written out; those beyond it are ignored.',
  ],
  ['merge', 'error', 'A `<<` whose value is no map, and no list of maps.'],
].map(([name, severity, doc]) => ({ code: `syntax/${name}`, severity, doc })) as readonly {
  readonly code: SyntaxCode;
  readonly severity: Severity;
  readonly doc: string;
}[];

export type SyntaxCode = `syntax/${string}`;

const severities: ReadonlyMap<string, Severity> = new Map(
  syntaxCodes.map(({ code, severity }) => [code, severity]),
);

/** A finding with the severity of its code. */
export function textFinding(
  code: SyntaxCode,
  span: Span,
  message: string,
  more: { facts?: Facts; related?: TextFinding['related'] } = {},
): TextFinding {
  const severity = severities.get(code) ?? 'error';
  return { code, severity, message, span, related: more.related ?? [], facts: more.facts ?? {} };
}
