import { isBreak } from '../../plan/rows.ts';
import { inQuotes, scalarText, snippetText } from '../scalarText.ts';
import type { Cursor } from './cursor.ts';
import type { CompletionItem } from './item.ts';

type Placed = Pick<CompletionItem, 'span' | 'text' | 'filter' | 'snippet'>;

/**
 * A text that replaces the token at the cursor, with what the place needs around it: a dash, a blank behind a colon or
 * in front of a comment, the indentation of the neighbours where the cursor stands at another column.
 */
export function placed(
  cursor: Cursor,
  inserted: string,
  options: { readonly dash?: boolean; readonly snippet?: boolean; readonly label?: string } = {},
): Placed {
  const { text, token, place, row } = cursor;
  const snippet = options.snippet === true ? { snippet: true as const } : {};
  const written = options.dash === true ? `- ${inserted}` : inserted;
  if (
    place === 'line' &&
    token.start - row.start !== cursor.column &&
    text.slice(row.start, token.start).trim() === ''
  ) {
    const blanks = text.slice(row.start, token.start);
    const span = { start: row.start, end: token.end };
    return { span, text: ' '.repeat(cursor.column) + written, filter: blanks + written, ...snippet };
  }
  const before = text.charCodeAt(token.start - 1);
  const glued =
    (place === 'value' || place === 'item') && cursor.quote === '' && !isBreak(before) && before > 0;
  const lead = glued || (place === 'flow item' && text[token.start - 1] === ',') ? ' ' : '';
  const tail = text[token.end] === '#' ? ' ' : '';
  return { span: token, text: `${lead}${written}${tail}`, ...snippet };
}

/**
 * A key that replaces the token at the cursor, in the quotes that stand there; `behind` is its colon and what follows.
 * Where the colon stands already, only the key is replaced.
 */
export function placedKey(
  cursor: Cursor,
  name: string,
  behind: string,
  options: { readonly dash?: boolean; readonly snippet?: boolean } = {},
): Placed {
  const { quote, quoteClosed, colonFollows, token } = cursor;
  const tail = colonFollows ? '' : behind;
  if (quote === '') return placed(cursor, name + tail, colonFollows ? {} : options);
  const written = inQuotes(name, quote);
  if (colonFollows) return { span: token, text: written + (quoteClosed ? '' : quote), filter: name };
  const whole = { start: token.start - 1, end: token.end + (quoteClosed ? 1 : 0) };
  const shifted = { ...cursor, token: whole, quote: '' as const };
  const key = quote + written + quote;
  return { filter: quote + name, ...placed(shifted, key + tail, options) };
}

/** A scalar that replaces the token at the cursor, in the quotes that stand there or in those that it needs. */
export function placedScalar(
  cursor: Cursor,
  value: string,
  options: { readonly dash?: boolean } = {},
): Placed {
  const { quote, quoteClosed, inFlow } = cursor;
  if (quote !== '' && options.dash === true) {
    const token = { start: cursor.token.start - 1, end: cursor.token.end + (quoteClosed ? 1 : 0) };
    const text = quote + inQuotes(value, quote) + quote;
    return { filter: quote + value, ...placed({ ...cursor, token, quote: '' }, text, options) };
  }
  if (quote !== '') {
    const text = inQuotes(value, quote) + (quoteClosed ? '' : quote);
    return { span: cursor.token, text, filter: value };
  }
  const text = scalarText(value, inFlow);
  if (text !== value && value.endsWith(' ')) {
    return {
      ...placed(cursor, `${snippetText(text.slice(0, -1))}$1"`, { ...options, snippet: true }),
      filter: value,
    };
  }
  return { ...placed(cursor, text, options), ...(text === value ? {} : { filter: value }) };
}
