import type { Body, Film, Filter, Holder, Kit, Lens } from './kitFields.ts';
import type { Value } from './table.ts';

/** The equipment at hand for a plan, ready to be looked up by id. */
export interface Bag {
  /** `none`: the plan names no kit; `unread`: it names one that is not at hand (yet), so that nothing can be said of ids. */
  readonly state: 'ready' | 'none' | 'unread';
  readonly name?: string;
  readonly kit?: Kit;
  readonly bodies: ReadonlyMap<string, Body>;
  readonly films: ReadonlyMap<string, Film>;
  readonly lenses: ReadonlyMap<string, Lens>;
  readonly filters: ReadonlyMap<string, Filter>;
  readonly holder?: Holder;
  readonly carried: readonly string[];
  readonly carriedKnown: boolean;
}

/** The bag for a kit, or an empty one. Of two things with one id the first counts. */
export function packBag(state: Bag['state'], kit?: Kit, name?: string): Bag {
  return {
    state,
    ...(name === undefined ? {} : { name }),
    ...(kit === undefined ? {} : { kit }),
    bodies: byId(kit?.bodies),
    films: byId(kit?.film),
    lenses: byId(kit?.lenses),
    filters: byId(kit?.filters),
    ...(kit?.holder === undefined ? {} : { holder: kit.holder }),
    carried: (kit?.carried ?? []).map((thing) => thing.value.toLowerCase()),
    carriedKnown: kit?.carried !== undefined && !kit.self.broken.has('carried'),
  };
}

function byId<T extends { readonly id?: Value<string> }>(
  things: readonly T[] | undefined,
): ReadonlyMap<string, T> {
  const map = new Map<string, T>();
  for (const thing of things ?? []) {
    if (thing.id !== undefined && !map.has(thing.id.value)) map.set(thing.id.value, thing);
  }
  return map;
}
