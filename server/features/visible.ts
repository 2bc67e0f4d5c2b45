/**
 * Plain text from a plan, for a terminal, a log or a sheet: controls, line ends and the marks that turn the direction of
 * writing are shown as `\u{1B}`, so that a text can neither steer a terminal nor look like another one.
 */
export function visible(text: string): string {
  return text.replace(
    /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/gu,
    (character) => `\\u{${(character.codePointAt(0) ?? 0).toString(16).toUpperCase()}}`,
  );
}
