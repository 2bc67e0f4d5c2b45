import type { Analysis } from '../analysis.ts';
import { planSection } from '../plan/fields.ts';
import { kitSection } from '../plan/kitFields.ts';
import type { Mark } from '../plan/reader.ts';
import { camel, type Field, type Fields, type Kind, type Section, type Self } from '../plan/table.ts';
import type { DayShot, DaySpot } from '../schedule/day.ts';
import { lineEnd, lineStart } from '../text/lines.ts';
import { type Span, touches } from '../text/span.ts';
import { nextToken } from './flowTokens.ts';

/** The scalars of the document itself, in the order of the text. */
export function marksOf(analysis: Analysis): readonly Mark[] {
  return (analysis.kind === 'plan' ? analysis.plan : analysis.kit)?.marks ?? [];
}

/** The scalar whose value lies at an offset, or ends there. */
export function markAt(analysis: Analysis, offset: number): Mark | undefined {
  const marks = marksOf(analysis);
  // Of the marks that begin at or before the offset, the last; values do not lie within one another.
  for (let at = firstAfter(marks, offset) - 1; at >= 0; at -= 1) {
    const mark = marks[at] as Mark;
    if (touches(mark.span, offset)) return mark;
    if (mark.span.start < offset) return undefined;
  }
  return undefined;
}

/** The index of the first mark that begins behind an offset. */
function firstAfter(marks: readonly Mark[], offset: number): number {
  let low = 0;
  let high = marks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((marks[middle] as Mark).span.start <= offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A key of the table where it stands in the text. */
export interface KeyPlace {
  readonly span: Span;
  readonly name: string;
  readonly field: Field;
  readonly section: Section;
  readonly owner: Self;
}

interface SectionValue {
  readonly self: Self;
  readonly [key: string]: unknown;
}

/** The key at an offset. */
export function keyAt(analysis: Analysis, offset: number): KeyPlace | undefined {
  const document = analysis.kind === 'plan' ? analysis.plan : analysis.kit;
  if (document === undefined) return undefined;
  const section: Section = analysis.kind === 'plan' ? planSection : kitSection;
  return keyIn(section, document.model as unknown as SectionValue, offset);
}

function keyIn(section: Section<Fields>, value: SectionValue, offset: number): KeyPlace | undefined {
  for (const [name, span] of value.self.keys) {
    const field = Object.hasOwn(section.fields, name) ? section.fields[name] : undefined;
    if (field === undefined) continue;
    if (touches(span, offset)) return { span, name, field, section, owner: value.self };
    const found = keyInKind(field.kind, value[camel(name)], offset);
    if (found !== undefined) return found;
  }
  return undefined;
}

function keyInKind(kind: Kind, value: unknown, offset: number): KeyPlace | undefined {
  if (value === undefined) return undefined;
  if (kind.shape === 'section') return keyIn(kind.section, value as SectionValue, offset);
  if (kind.shape === 'either') {
    const either = value as { readonly section?: SectionValue };
    return either.section === undefined ? undefined : keyIn(kind.section, either.section, offset);
  }
  if (kind.shape !== 'list') return undefined;
  for (const item of value as readonly unknown[]) {
    const found = keyInKind(kind.of, item, offset);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The spot, and the shot in it, to which a section of the model belongs. */
export function visitOf(
  analysis: Analysis,
  owner: Self,
): { readonly spot?: DaySpot; readonly shot?: DayShot } {
  for (const spot of analysis.day?.spots ?? []) {
    for (const shot of spot.shots) {
      if (holds(shot.shot, owner)) return { spot, shot };
    }
    if (holds(spot.spot, owner)) return { spot };
  }
  return {};
}

function holds(section: object, owner: Self): boolean {
  return Object.values(section).some(
    (part) =>
      part === owner || (typeof part === 'object' && part !== null && 'self' in part && part.self === owner),
  );
}

/** Where a hint behind a value stands: behind its closing quote, if it has one. */
export function afterValue(text: string, { start, end }: Span): number {
  const quote = text[end];
  return (quote === '"' || quote === "'") && text[start - 1] === quote ? end + 1 : end;
}

/** The same behind the last item of a list in brackets on one line: behind the closing bracket. */
export function afterList(text: string, last: Span): number {
  const end = afterValue(text, last);
  const bracket = /^[ \t]{0,200},?[ \t]{0,200}\]/.exec(text.slice(end, end + 402));
  return bracket === null ? end : end + bracket[0].length;
}

/** The lines that a span touches, without the last line end. */
export function wholeLines(text: string, { start, end }: Span): Span {
  return { start: lineStart(text, start), end: lineEnd(text, end) };
}

/** The end of a line's content, from a place in it that lies outside of quotes: before blanks and a comment. */
export function contentEnd(text: string, from: number): number {
  const limit = lineEnd(text, from);
  let end = from;
  for (let at = from; at < limit; ) {
    const token = nextToken(text, at, limit);
    if (token === undefined || token.kind === 'comment') break;
    end = token.span.end;
    at = end;
  }
  return end;
}
