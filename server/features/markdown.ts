/**
 * Text for hovers and tooltips. What a plan says appears in them literally: never as markup, a link, a command or HTML.
 * Everything that goes into markdown passes through `code` or `plain` unless this program wrote it itself.
 */

const longestShown = 80;

/** Line ends, tabs and other controls become one blank; marks that turn the direction of writing are shown as �. */
export function oneLine(text: string, longest = longestShown): string {
  const line = text
    .slice(0, 10 * longest)
    .replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(/[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, '\ufffd')
    .trim();
  const characters = [...line];
  return characters.length > longest ? `${characters.slice(0, longest - 1).join('')}…` : line;
}

/** The text in a code span, shortened; it may stand in a cell of a table too, since bars are escaped there. */
export function code(text: string, options: { readonly inTable?: boolean } = {}): string {
  const line = oneLine(text);
  if (line === '') return '(empty)';
  const longestRun = Math.max(0, ...[...line.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longestRun + 1);
  const pad = line.startsWith('`') || line.endsWith('`') ? ' ' : '';
  // In a table a bar ends the cell, code span or not.
  const shown = options.inTable === true ? line.replaceAll('|', '\\|') : line;
  return `${fence}${pad}${shown}${pad}${fence}`;
}

/** The text as running words: every ASCII punctuation mark escaped, so that no markup, link or HTML can come of it. */
export function plain(text: string, longest = longestShown): string {
  return oneLine(text, longest).replace(/[!-/:-@[-`{-~]/g, '\\$&');
}

/** A table of two columns: what, and how much. Cells are markdown already; rows without a second cell are left out. */
export function figures(rows: readonly (readonly [string, string | undefined])[]): string {
  const shown = rows.flatMap(([what, much]) =>
    // What it is stays on one line, however long the other cell.
    much === undefined ? [] : [[`${what.replaceAll(' ', '\u00a0')}:`, much]],
  );
  return shown.length === 0 ? '' : ruled(['', ''], shown);
}

/** On which side the cells of a column stand, and its head with them. */
export type Side = 'left' | 'right';

/** A table; cells are markdown already. Columns whose side is not given stand on the left. */
export function table(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  sides: readonly Side[] = [],
): string {
  // Editors leave hardly a gap between columns.
  const spaced = (cells: readonly string[]) =>
    cells.map((cell, column) => (column === cells.length - 1 ? cell : `${cell}&ensp;`));
  return ruled(spaced(head), rows.map(spaced), sides);
}

function ruled(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  sides: readonly Side[] = [],
): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  // Without a side, editors put the head of a column in its middle.
  const marks = head.map((_, column) => (sides[column] === 'right' ? '---:' : ':---'));
  return [line(head), line(marks), ...rows.map(line)].join('\n');
}

/** The parts that there are, as paragraphs. */
export function paragraphs(...parts: readonly (string | undefined | false)[]): string {
  return parts.filter((part): part is string => typeof part === 'string' && part !== '').join('\n\n');
}
