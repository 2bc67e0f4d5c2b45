/** What a range is often written with, instead of `..`. */
const otherSeparators = [' to ', ' until ', '\u2013', '\u2014', '\u2026', ' - ', '-', '~'];

/**
 * The range with `..` between its ends, when it is written with something else there and both ends are understood.
 * Undefined for everything else.
 */
export function withDots(text: string, understands: (end: string) => boolean): string | undefined {
  if (text.includes('..')) return undefined;
  const separator = otherSeparators.find((candidate) => text.includes(candidate));
  if (separator === undefined) return undefined;
  const at = text.indexOf(separator);
  const [from, to] = [text.slice(0, at).trim(), text.slice(at + separator.length).trim()];
  return understands(from) && understands(to) ? `${from} .. ${to}` : undefined;
}
