import type { Facts } from '../text/finding.ts';
import type { SyntaxCode } from './syntax.ts';

/** What the parser complains about, in our words. */
export interface Complaint {
  readonly code: SyntaxCode;
  readonly message: string;
  readonly facts?: Facts;
  /** Whether what was read can be used all the same. */
  readonly harmless: boolean;
}

/**
 * The parser's complaint in plain words. `code` and `message` are the parser's own; the message is only looked at to
 * tell apart what shares a code, and never shown. `source` is the text at the place.
 */
export function complaint(code: string, message: string, source: string): Complaint {
  switch (code) {
    case 'BAD_DQ_ESCAPE':
      return harmless(
        'syntax/quoted-text',
        `${source} means nothing inside double quotes. Write \\\\ for a backslash, or use single quotes.`,
      );
    case 'TAG_RESOLVE_FAILED':
    case 'BAD_COLLECTION_TYPE':
    case 'MULTIPLE_TAGS':
      return harmless(
        'syntax/tag',
        'Tags that begin with ! mean nothing here. Remove it; the value is read as it is written.',
      );
    case 'ALIAS_PROPS':
      return harmless(
        'syntax/anchor',
        'An alias (*name) can have no anchor or tag of its own. Remove what stands before the *.',
      );
    case 'MULTIPLE_ANCHORS':
      return harmless('syntax/anchor', 'Two anchors (&name) for one value. Keep one.');
    case 'BAD_ALIAS':
      return message.includes('empty')
        ? fatal(
            'syntax/anchor',
            'A name must follow right after & or *. To write the sign itself, put the value in quotes.',
          )
        : harmless(
            'syntax/anchor',
            'The name of an anchor or alias should not end with a colon. Put a space before the colon.',
          );
    case 'BAD_PROP_ORDER':
      return fatal('syntax/anchor', 'An anchor (&name) stands behind the dash or colon, not before it.');
    case 'KEY_OVER_1024_CHARS':
      return harmless('syntax/key', 'This key is longer than 1024 characters. Shorten it.');
    case 'NON_STRING_KEY':
      return harmless('syntax/key', 'A key must be a word.');
    case 'TAB_AS_INDENT':
      return fatal('syntax/tab', 'A tab stands where only spaces may. Replace it with spaces.');
    case 'BAD_SCALAR_START':
      return fatal(
        'syntax/reserved-character',
        `A value cannot begin with ${source.charAt(0)}. Put it in quotes.`,
      );
    case 'RESOURCE_EXHAUSTION':
      return fatal('syntax/too-deep', 'This is nested too deeply to be read.');
    case 'BLOCK_AS_IMPLICIT_KEY':
      return message.startsWith('Nested')
        ? fatal(
            'syntax/colon-in-value',
            'Two colons in one line. Put the value in quotes, or write the second key on a line of its own.',
          )
        : fatal('syntax/key', 'A list cannot be a key.');
    case 'BLOCK_IN_FLOW':
      return fatal(
        'syntax/bracket',
        'Inside brackets, items are separated by commas, not written with dashes or on lines of their own.',
      );
    case 'MULTILINE_IMPLICIT_KEY':
      return fatal(
        'syntax/half-written-line',
        'This line is no `key: value`. Write a colon and a space behind the key, or remove the line.',
      );
    case 'BAD_INDENT':
      return badIndent(message);
    case 'MISSING_CHAR':
      return missing(message);
    case 'UNEXPECTED_TOKEN':
      return unexpected(message);
    default:
      return fatal('syntax/unreadable', 'This line cannot be read. Write it as `key: value`.');
  }
}

function badIndent(message: string): Complaint {
  if (message.startsWith('Flow')) {
    return fatal(
      'syntax/unclosed-bracket',
      'This bracket is not closed. Close it, and indent the lines up to there further than the key.',
    );
  }
  if (message.startsWith('Block scalar')) {
    return fatal(
      'syntax/block-text',
      'The lines of a text after | or > must all be indented, at least as far as its first line.',
    );
  }
  return fatal(
    'syntax/indentation',
    'This line starts at a column where no line of its block starts. Align it with its neighbours.',
  );
}

function missing(message: string): Complaint {
  if (message.startsWith('Missing closing')) {
    return fatal('syntax/unclosed-quote', 'This quote is not closed. Close it on the same line.');
  }
  if (message.startsWith('Implicit map keys')) {
    return fatal(
      'syntax/half-written-line',
      'This line is no `key: value`. Write a colon and a space behind the key, or remove the line.',
    );
  }
  if (message.startsWith('Flow'))
    return fatal('syntax/unclosed-bracket', 'This bracket is not closed. Close it.');
  if (message.startsWith('Missing space after :')) {
    return fatal('syntax/space-missing', 'A space must follow the colon.');
  }
  if (message.startsWith('Missing ,')) {
    return fatal('syntax/bracket', 'A comma is missing between two items inside brackets.');
  }
  if (message.startsWith('Comments must')) {
    return harmless('syntax/after-value', 'A space must stand before the # of a comment.');
  }
  if (message.startsWith('Tags and anchors')) {
    return fatal('syntax/anchor', 'A space must follow the name of an anchor (&name) or a tag.');
  }
  if (message.startsWith('Sequence item')) {
    return fatal(
      'syntax/indentation',
      'This line stands among items of a list, but does not begin with a dash and a space.',
    );
  }
  if (message.startsWith('Block scalars')) {
    return fatal(
      'syntax/block-text',
      'The blank lines before this text are indented further than the text. Remove their spaces.',
    );
  }
  return fatal('syntax/unreadable', 'This line cannot be read. Write it as `key: value`.');
}

function unexpected(message: string): Complaint {
  if (/^Unexpected (, in|empty item)/.test(message)) {
    return harmless('syntax/bracket', 'There is a comma too many. Remove it.');
  }
  if (message.includes('flow-map-end') || message.includes('flow-seq-end')) {
    return fatal('syntax/bracket', 'This bracket closes nothing. Remove it, or put the value in quotes.');
  }
  if (message.startsWith('Block scalar header') || message.startsWith('Unexpected token in block scalar')) {
    return fatal(
      'syntax/reserved-character',
      'A value that begins with | or > must be quoted, unless a text follows on the lines below.',
    );
  }
  if (message.includes('block-seq-ind') || message.includes('seq-item-ind')) {
    return fatal(
      'syntax/reserved-character',
      'A value cannot begin with a dash and a space. Put it in quotes, or begin the list on the next line.',
    );
  }
  if (message.includes('at node end')) {
    return fatal(
      'syntax/after-value',
      'Nothing may follow here: the value has already ended. Remove the rest, or put the whole value in quotes.',
    );
  }
  return fatal(
    'syntax/unreadable',
    'This cannot be read here. Put the value in quotes if it is meant as text.',
  );
}

function fatal(code: SyntaxCode, message: string): Complaint {
  return { code, message, harmless: false };
}

function harmless(code: SyntaxCode, message: string): Complaint {
  return { code, message, harmless: true };
}
