/** The text with a capital at its start. */
export function capitalized(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The text with a small letter at its start, to stand within a sentence. */
export function uncapitalized(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
