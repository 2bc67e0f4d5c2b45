/** Texts with marks in them, so that tests say what they mean without counting columns. */

/** The text without its caret `‸`, and where that stood. */
export function caret(marked: string): { readonly text: string; readonly offset: number } {
  const offset = marked.indexOf('‸');
  if (offset < 0 || marked.indexOf('‸', offset + 1) >= 0) throw new Error('Mark one place with ‸.');
  return { text: marked.slice(0, offset) + marked.slice(offset + 1), offset };
}

/** The text with each label between « and » at its offset. Labels must come in the order of the text. */
export function spliced(
  text: string,
  labels: readonly { readonly offset: number; readonly label: string }[],
): string {
  let result = '';
  let from = 0;
  for (const { offset, label } of labels) {
    if (offset < from || offset > text.length) throw new Error(`The label “${label}” is out of order.`);
    result += `${text.slice(from, offset)}«${label}»`;
    from = offset;
  }
  return result + text.slice(from);
}

/** The lines of a text that hold a «label», trimmed. */
export function linesWithLabels(splicedText: string): string {
  return splicedText
    .split(/\r\n|\r|\n/)
    .filter((line) => line.includes('«'))
    .map((line) => line.trim())
    .join('\n');
}
