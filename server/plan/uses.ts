import { lensChoice } from '../quantities/focal.ts';
import { type Moment, moment } from '../quantities/moment.ts';
import { momentRange } from '../quantities/momentRange.ts';
import type { Quantity } from '../quantities/quantity.ts';
import { type Span, shifted } from '../text/span.ts';
import type { Target, Value } from './table.ts';

/** An id where it is used rather than declared. */
export interface Use {
  readonly target: Target;
  readonly id: string;
  readonly uri: string;
  readonly span: Span;
  /** Where several ids may be written: a list in the place of a lone scalar, or items in the place of one in brackets. */
  readonly several?: { readonly span: Span; readonly room: 'list' | 'items' };
}

/** The ids inside a scalar: a lens with its focal length, the shots that a moment follows. */
export function usesIn(quantity: Quantity<unknown>, { value, uri, span }: Value<unknown>): readonly Use[] {
  const kind: unknown = quantity;
  if (kind === lensChoice) {
    const choice = value as { readonly lens: string; readonly lensSpan: Span };
    return [{ target: 'lens', id: choice.lens, uri, span: shifted(choice.lensSpan, span.start) }];
  }
  if (kind === moment) return usesInMoment(value as Moment, uri, span.start);
  if (kind !== momentRange) return [];
  const range = value as { readonly from: Moment; readonly to: Moment };
  return [...usesInMoment(range.from, uri, span.start), ...usesInMoment(range.to, uri, span.start)];
}

function usesInMoment(value: Moment, uri: string, start: number): readonly Use[] {
  switch (value.kind) {
    case 'after':
      return [{ target: 'shot', id: value.shot, uri, span: shifted(value.span, start) }];
    case 'offset':
      return usesInMoment(value.base, uri, start);
    case 'earlier':
    case 'later':
      return value.of.flatMap((part) => usesInMoment(part, uri, start));
    default:
      return [];
  }
}
