import type { Checkable } from '../analysis.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { Value } from '../plan/table.ts';
import type { Edit } from '../text/edit.ts';
import type { Fact } from '../text/finding.ts';
import { mendAll } from './mends.ts';

/** The keys of a shot that mends set, and after which other keys a new one is put: the first that is written. */
const putAfter: { readonly [key in ShotKey]: readonly (keyof Shot)[] } = {
  shutter: ['metered', 'iso', 'aperture', 'lens', 'id'],
  aperture: ['lens', 'metered', 'iso', 'id'],
  iso: ['aperture', 'metered', 'lens', 'id'],
  filters: ['metered', 'shutter', 'iso', 'aperture', 'lens', 'id'],
  bracket: ['start', 'metered', 'shutter', 'iso', 'aperture', 'id'],
  facing: ['lens', 'effect', 'id'],
  focus: ['start', 'metered', 'shutter', 'aperture', 'id'],
};

export type ShotKey = 'shutter' | 'aperture' | 'iso' | 'filters' | 'bracket' | 'facing' | 'focus';

/** A mend that writes keys of a shot, in the order given; undefined when one of them cannot be written in place. */
export function mendShot(
  analysis: Checkable,
  shot: Shot,
  title: string,
  wanted: { readonly [key in ShotKey]?: string },
): Fact | undefined {
  const edits: Edit[] = [];
  for (const [key, text] of Object.entries(wanted) as [ShotKey, string][]) {
    const edit = setKey(analysis, shot, key, text);
    if (edit === undefined) return undefined;
    // New keys that go to one place go there together.
    const same = edits.findIndex(
      ({ span }) => span.start === edit.span.start && span.start === span.end && edit.span.end === span.end,
    );
    if (same >= 0) edits[same] = { span: edit.span, text: (edits[same] as Edit).text + edit.text };
    else edits.push(edit);
  }
  return mendAll(
    title,
    edits.map((edit) => ({ uri: analysis.uri, ...edit })),
  );
}

/** The mends that could be written. */
export function written(mends: readonly (Fact | undefined)[]): readonly Fact[] {
  return mends.filter((mend): mend is Fact => mend !== undefined);
}

function setKey(analysis: Checkable, shot: Shot, key: ShotKey, value: string): Edit | undefined {
  if (shot.self.uri !== analysis.uri) return undefined;
  const at = shot.self.keys.get(key);
  return at === undefined
    ? insertKey(analysis.text, shot, key, value)
    : replaceKey(analysis.text, shot, key, at.end, value);
}

/** Puts another value in the place of what stands behind a key. */
function replaceKey(text: string, shot: Shot, key: ShotKey, keyEnd: number, value: string): Edit | undefined {
  const behind = /^[ \t]*:[ \t]*/.exec(text.slice(keyEnd, keyEnd + 200));
  if (behind === null) return undefined;
  const start = keyEnd + behind[0].length;
  const brackets = /^(?:\[[^[\]{}\n]*\]|\{[^[\]{}\n]*\})/.exec(text.slice(start, start + 2000));
  if (brackets !== null) return { span: { start, end: start + brackets[0].length }, text: value };
  const field = shot[key];
  const values = (Array.isArray(field) ? field : field === undefined ? [] : [field]) as Value<unknown>[];
  const first = values[0];
  const last = values.at(-1);
  // What stands elsewhere, behind an alias, is left alone; so is a mapping in lines of its own.
  if (first === undefined || last === undefined || key === 'bracket') return undefined;
  if (first.span.start < start || first.span.start > start + 500) return undefined;
  const end = afterQuote(text, last.span.end, first.span.start, start);
  const listed = first.span.start > start + 1;
  return listed
    ? { span: { start: keyEnd, end }, text: `: ${value}` }
    : { span: { start, end }, text: value };
}

/** The end of a scalar with its quote, where it has one. */
function afterQuote(text: string, end: number, contentStart: number, start: number): number {
  const quote = contentStart > start ? text[contentStart - 1] : undefined;
  return (quote === '"' || quote === "'") && text[end] === quote ? end + 1 : end;
}

/** Puts a new key behind another one: on a line of its own, or in the braces. */
function insertKey(text: string, shot: Shot, key: ShotKey, value: string): Edit | undefined {
  for (const name of putAfter[key]) {
    const neighbour = shot[name] as Value<unknown> | undefined;
    if (neighbour === undefined || neighbour.uri !== shot.self.uri) continue;
    const { span, key: before } = neighbour;
    if (before.start < shot.self.span.start || span.end > shot.self.span.end) continue;
    const lineStart = startOfLine(text, before.start);
    const lead = text.slice(lineStart, before.start);
    const quote = text[span.start - 1];
    const end = (quote === '"' || quote === "'") && text[span.end] === quote ? span.end + 1 : span.end;
    if (!/^[ -]*$/.test(lead)) return { span: { start: end, end }, text: `, ${key}: ${value}` };
    const rest = /[^\r\n]*/.exec(text.slice(end))?.[0].length ?? 0;
    const lineEnd = text.slice(end + rest, end + rest + 2) === '\r\n' ? '\r\n' : '\n';
    const at = end + rest;
    return {
      span: { start: at, end: at },
      text: `${lineEnd}${' '.repeat(lead.length)}${key}: ${value}`,
    };
  }
  return undefined;
}

function startOfLine(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start -= 1;
  return start;
}
