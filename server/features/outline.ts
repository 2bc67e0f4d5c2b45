import type { Analysis } from '../analysis.ts';
import type { Kit } from '../plan/kitFields.ts';
import type { Self, Value } from '../plan/table.ts';
import type { DayShot, DaySpot } from '../schedule/day.ts';
import type { Span } from '../text/span.ts';
import { clockText } from './localTime.ts';
import { oneLine } from './markdown.ts';
import { settingText } from './wording.ts';

export type OutlineKind = 'plan' | 'kit' | 'spot' | 'shot' | 'group' | 'body' | 'film' | 'lens' | 'filter';

/** One entry of the outline. Texts are plain. */
export interface OutlineEntry {
  /** Never empty. */
  readonly name: string;
  /** Times, exposure; may be empty. */
  readonly detail: string;
  readonly kind: OutlineKind;
  /** All of it. */
  readonly span: Span;
  /** What is revealed; it lies within the span. */
  readonly selection: Span;
  readonly children: readonly OutlineEntry[];
}

/** A plan: its spots, in them their shots. A kit: its groups, in them their things. */
export function outline(analysis: Analysis): readonly OutlineEntry[] {
  const whole = { start: 0, end: analysis.text.length };
  if (analysis.kind === 'kit') {
    const kit = analysis.kit?.model;
    if (kit === undefined || kit.self.keys.size === 0) return [];
    return [
      entry('kit', named(kit.kit?.value, 'Kit'), '', whole, kit.kit?.span ?? kit.self.head, kitGroups(kit)),
    ];
  }
  const plan = analysis.plan?.model;
  if (plan === undefined || plan.self.keys.size === 0) return [];
  const spots = (analysis.day?.spots ?? []).map(spotEntry);
  const inline = plan.kit !== undefined && 'section' in plan.kit ? kitGroups(plan.kit.section) : [];
  return [
    entry(
      'plan',
      named(plan.plan?.value, 'Plan'),
      plan.date?.text ?? '',
      whole,
      plan.plan?.span ?? plan.self.head,
      [...inline, ...spots],
    ),
  ];
}

function spotEntry({ spot, at, arriveMs, leaveMs, shots }: DaySpot): OutlineEntry {
  const times =
    at === undefined || arriveMs === undefined
      ? ''
      : span(
          clockText(arriveMs, at.clock, at.date),
          leaveMs === undefined ? undefined : clockText(leaveMs, at.clock, at.date),
        );
  const name = named(spot.name?.value ?? spot.id?.value, 'spot');
  return entry(
    'spot',
    name,
    times,
    spot.self.span,
    spot.self.head,
    shots.map((shot) => shotEntry(shot, at)),
  );
}

function shotEntry({ shot, startMs, exposure }: DayShot, at: DaySpot['at']): OutlineEntry {
  const detail = [
    at === undefined || startMs === undefined ? undefined : clockText(startMs, at.clock, at.date),
    exposure === undefined
      ? undefined
      : `${exposure.basis === 'expected' ? 'about ' : ''}${settingText(exposure.setting)}`,
    shot.effect?.value,
  ].filter((part) => part !== undefined);
  const name = named(shot.name?.value ?? shot.id?.value, 'shot');
  return entry('shot', name, detail.join(', '), shot.self.span, shot.self.head, []);
}

function span(from: string, to: string | undefined): string {
  return to === undefined ? from : `${from} – ${to}`;
}

interface Thing {
  readonly self: Self;
  readonly id?: Value<string>;
  readonly name?: Value<string>;
}

function kitGroups(kit: Kit): readonly OutlineEntry[] {
  return [
    group(kit, 'bodies', 'body', kit.bodies, ({ sensor }) => sensor?.text),
    group(kit, 'film', 'film', kit.film, ({ iso }) => (iso === undefined ? undefined : `ISO ${iso.value}`)),
    group(kit, 'lenses', 'lens', kit.lenses, ({ focal, aperture }) =>
      [focal?.text, aperture?.text].filter((part) => part !== undefined).join(', '),
    ),
    group(kit, 'filters', 'filter', kit.filters, ({ kind, strength, measured }) =>
      [kind?.value, measured === undefined ? strength?.text : `${measured.text} measured`]
        .filter((part) => part !== undefined)
        .join(', '),
    ),
  ].flat();
}

function group<T extends Thing>(
  kit: Kit,
  key: string,
  kind: OutlineKind,
  things: readonly T[] | undefined,
  detailOf: (thing: T) => string | undefined,
): readonly OutlineEntry[] {
  const head = kit.self.keys.get(key);
  if (head === undefined || things === undefined || things.length === 0) return [];
  const children = things.map((thing) =>
    entry(
      kind,
      named(thing.name?.value ?? thing.id?.value, kind),
      detailOf(thing) ?? '',
      thing.self.span,
      thing.self.head,
      [],
    ),
  );
  const end = Math.max(head.end, ...children.map((child) => child.span.end));
  return [entry('group', key, String(things.length), { start: head.start, end }, head, children)];
}

function entry(
  kind: OutlineKind,
  name: string,
  detail: string,
  all: Span,
  selection: Span,
  children: readonly OutlineEntry[],
): OutlineEntry {
  return {
    name,
    detail: oneLine(detail),
    kind,
    span: { start: Math.min(all.start, selection.start), end: Math.max(all.end, selection.end) },
    selection,
    children,
  };
}

/** What an entry is called; never empty, as editors want it. */
function named(written: string | undefined, otherwise: string): string {
  const name = written === undefined ? '' : oneLine(written);
  return name === '' ? otherwise : name;
}
