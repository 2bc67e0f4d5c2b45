import type { Kind, Section } from './table.ts';

/** The line with which a block begins. */
export interface BlockStart {
  /** Whether it begins an item of a list. */
  readonly item: boolean;
  /** The key that stands in it. */
  readonly key: string | undefined;
}

/** Whether a block that begins like that may be the value of a key. */
export type Holds = (key: string, start: BlockStart) => boolean;

/** What the keys of a section, and of all within it, may hold: so that a block is known to belong to the key above it. */
export function holdsOf(section: Section): Holds {
  let kinds: ReadonlyMap<string, readonly Kind[]> | undefined;
  return (key, start) => {
    kinds ??= kindsIn(section);
    const known = kinds;
    const isFree = start.key === undefined || !known.has(start.key);
    return (known.get(key) ?? []).some(
      (kind) => (kind.shape !== 'dictionary' || isFree) && begins(kind, start),
    );
  };
}

/** Nothing is known of any key. */
export const holdsNothing: Holds = () => false;

function begins(kind: Kind, { item, key }: BlockStart): boolean {
  if (kind.shape === 'list') {
    const of = kind.of as Kind;
    if (!item) return false;
    return of.shape === 'section'
      ? key === undefined || Object.hasOwn(of.section.fields, key)
      : key === undefined;
  }
  if (item || key === undefined) return false;
  if (kind.shape === 'dictionary') return kind.keys.parse(key).value !== undefined;
  return (kind.shape === 'section' || kind.shape === 'either') && Object.hasOwn(kind.section.fields, key);
}

function kindsIn(root: Section): ReadonlyMap<string, readonly Kind[]> {
  const kinds = new Map<string, Kind[]>();
  const seen = new Set<Section>();
  const visit = (section: Section): void => {
    if (seen.has(section)) return;
    seen.add(section);
    for (const [name, { kind }] of Object.entries(section.fields)) {
      const known = kinds.get(name);
      if (known === undefined) kinds.set(name, [kind]);
      else known.push(kind);
      const inner: Kind = kind.shape === 'list' ? kind.of : kind;
      if (inner.shape === 'section' || inner.shape === 'either') visit(inner.section);
    }
  };
  visit(root);
  return kinds;
}
