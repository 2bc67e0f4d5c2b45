import type { Checkable } from '../analysis.ts';
import type { StatedMoment } from '../schedule/day.ts';
import type { Failure, Note } from '../schedule/moments.ts';

type Failed<K extends Failure['failure']> = Extract<Failure, { failure: K }>;
type Noted<K extends Note['note']> = Extract<Note, { note: K }>;

/** Every stated moment that cannot be, for one reason. */
export function failuresOf<K extends Failure['failure']>(
  { day }: Checkable,
  kind: K,
): readonly { readonly moment: StatedMoment; readonly failure: Failed<K> }[] {
  return (day?.moments ?? []).flatMap((moment) => {
    const { resolution } = moment;
    if (resolution.kind !== 'failed' || resolution.failure !== kind) return [];
    return [{ moment, failure: resolution as unknown as Failed<K> }];
  });
}

/** Every stated moment of which one thing is to be said, though it was found. */
export function notesOf<K extends Note['note']>(
  { day }: Checkable,
  kind: K,
): readonly { readonly moment: StatedMoment; readonly note: Noted<K>; readonly instantMs: number }[] {
  return (day?.moments ?? []).flatMap((moment) => {
    const { resolution } = moment;
    if (resolution.kind !== 'at') return [];
    return resolution.notes
      .filter((note): note is Noted<K> => note.note === kind)
      .map((note) => ({ moment, note, instantMs: resolution.instantMs }));
  });
}
