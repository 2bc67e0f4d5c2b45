/** How a scalar stands in the text: what quotes are around it. */
export type Quote = '' | '"' | "'";

/** The text of a scalar as it is written without more quotes than it needs; `inFlow`: between brackets or braces. */
export function scalarText(value: string, inFlow: boolean): string {
  return needsQuotes(value, inFlow) ? `"${inQuotes(value, '"')}"` : value;
}

/** The value as it stands between quotes of that sort. */
export function inQuotes(value: string, quote: Quote): string {
  if (quote === '"') return value.replaceAll('\\', '\\\\').replaceAll('"', '\\"');
  return quote === "'" ? value.replaceAll("'", "''") : value;
}

/** Whether YAML would read something else, or nothing, if the value stood without quotes. */
export function needsQuotes(value: string, inFlow: boolean): boolean {
  if (value === '' || value.includes(': ') || value.includes(' #') || value.endsWith(':')) return true;
  if (/^[&*!|>%@`"'#,[\]{}]/.test(value) || /^[-?:](?:\s|$)/.test(value)) return true;
  return inFlow && /[,[\]{}]/.test(value);
}

/** The text with the characters that a snippet would take for its own. */
export function snippetText(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}
