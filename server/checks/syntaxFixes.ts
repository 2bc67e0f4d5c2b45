import type { Analysis } from '../analysis.ts';
import type { Finding, Fix } from '../text/finding.ts';

/**
 * The mends of broken YAML: what the reader supplied in order to read on is written into the text. The facts say what
 * and where; a place outside the line that the finding marks is not trusted.
 */
export function syntaxFixes(finding: Finding, analysis: Analysis): readonly Fix[] {
  const { facts, span, uri } = finding;
  const line = analysis.text.slice(span.start, span.end);
  const within = (fact: unknown): fact is number =>
    typeof fact === 'number' && fact >= span.start && fact <= span.end;
  const insert = (title: string, ...places: readonly (readonly [at: number, text: string])[]): Fix => ({
    title,
    edits: places.map(([at, text]) => ({ uri, span: { start: at, end: at }, text })),
    preferred: true,
  });
  const { at, insert: inserted, close, quote, start, end } = facts;
  if (typeof inserted === 'string' && within(at) && !/\s/.test(line.slice(0, at - span.start).trim())) {
    const follows = /^\s|^$/.test(line.slice(at - span.start));
    const text = inserted === ':' && !follows ? ': ' : inserted;
    return [
      insert(inserted === ' ' ? 'Put a space after the colon' : 'Put a colon after the key', [at, text]),
    ];
  }
  if (typeof close === 'string' && within(at) && isRest(line.slice(at - span.start))) {
    return [insert(`Close with ${close}`, [at, close])];
  }
  if (typeof quote === 'string' && within(start) && within(end) && isRest(line.slice(end - span.start))) {
    return [insert('Put the value in quotes', [start, quote], [end, quote])];
  }
  return [];
}

/** Whether nothing but blanks and a comment is left. */
function isRest(text: string): boolean {
  return /^\s*(?:#.*)?$/.test(text);
}
