import type { Rule } from '../analysis.ts';

/** The codes of findings as a Markdown table: code, usual severity, and in one sentence what it says. */
export function findingsTable(rules: readonly Rule[]): string {
  const rows = [...rules]
    .sort((a, b) => (a.code < b.code ? -1 : 1))
    .map(({ code, severity, doc }) => `| \`${code}\` | ${severity} | ${firstSentence(doc)} |`);
  return ['| Code | Usually | Says |', '| --- | --- | --- |', ...rows].join('\n');
}

/** Up to the first full stop that ends a sentence, with bars escaped for the table. */
function firstSentence(doc: string): string {
  const end = /[.!?](?=\s+[\p{Lu}`“])/u.exec(doc);
  const sentence = end === null ? doc : doc.slice(0, end.index + 1);
  return sentence.replace(/\s+/g, ' ').replaceAll('|', '\\|').trim();
}
