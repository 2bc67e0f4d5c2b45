import { type MarkupContent, MarkupKind } from 'vscode-languageserver';

/** Markdown for a client that shows it, else the same words without the marks. */
export function markup(markdown: string, isShown: boolean): MarkupContent {
  return isShown
    ? { kind: MarkupKind.Markdown, value: markdown }
    : { kind: MarkupKind.PlainText, value: withoutMarkdown(markdown) };
}

/** The words of our own markdown: tables, code spans, emphasis, links, pictures and escapes are all that it uses. */
export function withoutMarkdown(markdown: string): string {
  return markdown
    .split('\n')
    .flatMap((line) => {
      const trimmed = line.trim();
      if (!trimmed.startsWith('|')) return [words(line)];
      // The rule below the head of a table, and a head without words, say nothing.
      if (/^[|\s:-]*$/.test(trimmed)) return [];
      return [words(cells(trimmed).join('  '))];
    })
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .trim();
}

/** The cells of a table's line; `\|` is a bar within a cell. */
function cells(line: string): readonly string[] {
  return line
    .replace(/^\||\|$/g, '')
    .split(/(?<!\\)\|/)
    .map((cell) => cell.replace(/&ensp; *$/, '').trim());
}

function words(line: string): string {
  return line
    .replace(/^#{1,6} /, '')
    .replace(/!\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/(?<!\\)\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/(?<!\\)(`+) ?(.*?) ?\1/g, '$2')
    .replace(/(?<!\\)(\*\*|__|\*|_)(?=\S)(.*?\S)\1/g, '$2')
    .replace(/\\([!-/:-@[-`{-~])/g, '$1');
}
