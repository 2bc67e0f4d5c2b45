import type { Checkable } from '../analysis.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { Value } from '../plan/table.ts';
import { isoOf } from '../schedule/gear.ts';
import type { Edit } from '../text/edit.ts';
import type { Fact } from '../text/finding.ts';
import { lineEnd, lineStart } from '../text/lines.ts';
import { mendAll } from './mends.ts';
import { replaceItems, replaceScalar } from './rewriteKey.ts';

/** The keys of a shot that mends set, and after which other keys a new one is put: the first that is written. */
const putAfter: { readonly [key in ShotKey]: readonly (keyof Shot)[] } = {
  metered: ['iso', 'aperture', 'lens', 'id'],
  start: ['metered', 'shutter', 'aperture', 'id'],
  shutter: ['metered', 'iso', 'aperture', 'lens', 'id'],
  aperture: ['lens', 'metered', 'iso', 'id'],
  iso: ['aperture', 'metered', 'lens', 'id'],
  filters: ['metered', 'shutter', 'iso', 'aperture', 'lens', 'id'],
  frames: ['start', 'metered', 'shutter', 'iso', 'aperture', 'id'],
  bracket: ['start', 'metered', 'shutter', 'iso', 'aperture', 'id'],
  facing: ['lens', 'effect', 'id'],
  focus: ['start', 'metered', 'shutter', 'aperture', 'id'],
};

export type ShotKey =
  | 'start'
  | 'metered'
  | 'shutter'
  | 'aperture'
  | 'iso'
  | 'filters'
  | 'frames'
  | 'bracket'
  | 'facing'
  | 'focus';

/** What is to stand behind some keys of a shot: `f/11`; filters as `[nd6, pol]`. */
export type ShotKeys = { readonly [key in ShotKey]?: string };

/** A mend that writes keys of a shot, in the order given; undefined when one of them cannot be written in place. */
export function mendShot(analysis: Checkable, shot: Shot, title: string, wanted: ShotKeys): Fact | undefined {
  const edits = shotEdits(analysis, shot, wanted);
  if (edits === undefined) return undefined;
  return mendAll(
    title,
    edits.map((edit) => ({ uri: analysis.uri, ...edit })),
  );
}

/**
 * The edits that write keys of a shot; undefined when one of them cannot be written in place. A meter reading holds for
 * the aperture and ISO of the shot unless it names its own: where those change, it is written down what it was taken at.
 */
export function shotEdits(analysis: Checkable, shot: Shot, wanted: ShotKeys): readonly Edit[] | undefined {
  const edits: Edit[] = [];
  for (const [key, text] of Object.entries({ ...pinned(analysis, shot, wanted), ...wanted }) as [
    ShotKey,
    string,
  ][]) {
    const found = setKey(analysis, shot, key, text);
    if (found === undefined) return undefined;
    for (const edit of found) {
      // New keys that go to one place go there together.
      const same = edits.findIndex(
        ({ span }) => span.start === edit.span.start && span.start === span.end && edit.span.end === span.end,
      );
      if (same >= 0) edits[same] = { span: edit.span, text: (edits[same] as Edit).text + edit.text };
      else edits.push(edit);
    }
  }
  return edits;
}

/** The mends that could be written. */
export function written(mends: readonly (Fact | undefined)[]): readonly Fact[] {
  return mends.filter((mend): mend is Fact => mend !== undefined);
}

/** The reading with the aperture and the ISO at which it was taken, where those of the shot change and it names none. */
function pinned({ bag, text: plan }: Checkable, shot: Shot, wanted: ShotKeys): ShotKeys {
  const reading = shot.metered;
  if (reading === undefined || reading.value.kind !== 'time' || wanted.metered !== undefined) return {};
  const film = shot.film === undefined ? undefined : bag.films.get(shot.film.value);
  const { aperture, iso } = reading.value;
  const atAperture =
    wanted.aperture !== undefined && aperture === undefined && shot.aperture !== undefined
      ? ` @ ${shot.aperture.text}`
      : '';
  const atIso = wanted.iso !== undefined && iso === undefined ? `, ISO ${isoOf(shot, film)}` : '';
  if (atAperture === '' && atIso === '') return {};
  const behindTime = iso === undefined ? reading.text.length : reading.text.search(/\s*,\s*ISO/i);
  if (behindTime < 0) return {};
  const text = `${reading.text.slice(0, behindTime)}${atAperture}${reading.text.slice(behindTime)}${atIso}`;
  // A comma would end the value between braces.
  return { metered: text.includes(',') && isInBraces(plan, shot) ? `"${text}"` : text };
}

function setKey(analysis: Checkable, shot: Shot, key: ShotKey, value: string): readonly Edit[] | undefined {
  const { self } = shot;
  if (self.uri !== analysis.uri) return undefined;
  const at = self.keys.get(key);
  // A key that stands elsewhere, merged in by `<<`, is left alone; one of the shot's own goes before it.
  const own = at !== undefined && at.start >= self.span.start && at.end <= self.span.end;
  if (!own) return insertKey(analysis.text, shot, key, value);
  const field = shot[key];
  const after = { text: analysis.text, keyEnd: at.end };
  if (key === 'filters') {
    const items = value.slice(1, -1).split(', ');
    return replaceItems(after, (field ?? []) as readonly Value<unknown>[], value === '[]' ? [] : items);
  }
  return replaceScalar(after, key === 'bracket' ? undefined : (field as Value<unknown> | undefined), value);
}

/** Whether a shot stands between braces. */
function isInBraces(text: string, { self }: Shot): boolean {
  return text[self.span.start] === '{';
}

/** Puts a new key behind another one: on a line of its own, or in the braces. */
function insertKey(text: string, shot: Shot, key: ShotKey, value: string): readonly Edit[] | undefined {
  for (const name of putAfter[key]) {
    const neighbour = shot[name] as Value<unknown> | undefined;
    if (neighbour === undefined || neighbour.uri !== shot.self.uri) continue;
    const { span, key: before } = neighbour;
    if (before.start < shot.self.span.start || span.end > shot.self.span.end || span.start < before.end)
      continue;
    const lead = text.slice(lineStart(text, before.start), before.start);
    const quote = text[span.start - 1];
    const end = (quote === '"' || quote === "'") && text[span.end] === quote ? span.end + 1 : span.end;
    if (isInBraces(text, shot)) return [{ span: { start: end, end }, text: `, ${key}: ${value}` }];
    if (!/^[ -]*$/.test(lead)) continue;
    const at = lineEnd(text, end);
    const lineBreak = text.startsWith('\r\n', at) ? '\r\n' : '\n';
    return [{ span: { start: at, end: at }, text: `${lineBreak}${' '.repeat(lead.length)}${key}: ${value}` }];
  }
  return undefined;
}
