import type { Analysis } from '../analysis.ts';
import type { Target } from '../plan/table.ts';
import { identifier } from '../quantities/words.ts';
import type { Edit } from '../text/edit.ts';
import type { Finding, Fix } from '../text/finding.ts';
import { lineEnd } from '../text/lines.ts';
import { capitalized } from '../text/sentence.ts';

/** Things that have ids which others refer to. */
const targets: ReadonlySet<string> = new Set<Target>(['spot', 'shot', 'body', 'film', 'lens', 'filter']);

/**
 * The key is written where the first keys of its kind stand. An id is made from the name, or counted; a title from the
 * name of the file. Everything else is for the author to fill in: the key waits without a value.
 */
export function missingKeyFixes({ uri, facts }: Finding, analysis: Analysis): readonly Fix[] {
  const { section, key, at, before, column, flow, named } = facts;
  if (typeof section !== 'string' || typeof key !== 'string' || typeof at !== 'number') return [];
  const value = valueFor(key, section, typeof named === 'string' ? named : '', analysis);
  const entry = `${key}: ${value}`;
  const edit =
    flow === true
      ? inBraces(analysis.text, entry, at, before === true)
      : inBlock(analysis.text, entry, at, before === true, typeof column === 'number' ? column : 0);
  const title = value === '' ? `Insert ${key}, to be filled in` : `Insert ${entry}`;
  return [{ title, edits: [{ uri, ...edit }], ...(value === '' ? {} : { preferred: true }) }];
}

function inBraces(text: string, entry: string, at: number, before: boolean): Edit {
  const span = { start: at, end: at };
  if (!before) return { span, text: `, ${entry}` };
  // Between `{` and `}` alone nothing follows that a comma would part it from.
  return { span, text: text[at] === '}' ? `${entry} ` : `${entry}, ` };
}

function inBlock(text: string, entry: string, at: number, before: boolean, column: number): Edit {
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  const indent = ' '.repeat(column);
  if (before) return { span: { start: at, end: at }, text: `${entry}${lineBreak}${indent}` };
  const end = lineEnd(text, at);
  return { span: { start: end, end }, text: `${lineBreak}${indent}${entry}` };
}

function valueFor(key: string, section: string, named: string, analysis: Analysis): string {
  if (key === 'id' && targets.has(section)) return freshId(section, named, analysis);
  return (key === 'plan' && section === 'plan') || (key === 'kit' && section === 'kit')
    ? titleOf(analysis.uri)
    : '';
}

/** `north-steps` for “North steps”, else `spot-3`: the first that nothing else has. */
function freshId(section: string, named: string, { declarations }: Analysis): string {
  const taken = new Set(declarations.filter(({ target }) => target === section).map(({ id }) => id));
  const made = words(named).join('-').toLowerCase();
  if (/^\p{L}/u.test(made) && identifier.parse(made).value === made && !taken.has(made)) return made;
  let count = 1;
  while (taken.has(`${section}-${count}`)) count += 1;
  return `${section}-${count}`;
}

/** `Dawn to noon` for a file named `dawn-to-noon.shootplan.yaml`. */
function titleOf(uri: string): string {
  const file = /^([^%]{1,80})\.shoot(?:plan|kit)\.ya?ml$/i.exec(uri.slice(uri.lastIndexOf('/') + 1));
  const title = words(file?.[1] ?? '').join(' ');
  return /^\p{L}/u.test(title) ? capitalized(title) : '';
}

/** At most eight. */
function words(text: string): readonly string[] {
  return (text.slice(0, 80).match(/[\p{L}\p{N}]+/gu) ?? []).slice(0, 8);
}
