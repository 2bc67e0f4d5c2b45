import { type Dial, dial, usualDial } from '../exposure/dial.ts';
import type { Reciprocity } from '../exposure/reciprocity.ts';
import type { Bulb } from '../exposure/setting.ts';
import { type FilterInStack, type StackStops, stackStops } from '../exposure/stack.ts';
import type { Sensor } from '../optics/view.ts';
import type { Bag } from '../plan/bag.ts';
import type { Body, Film, Filter, Lens } from '../plan/kitFields.ts';
import type { Shot } from '../plan/shotFields.ts';
import type { Value } from '../plan/table.ts';
import type { Memory } from './memory.ts';
import { present } from './present.ts';

/** A filter of a shot: the word in the plan, and what it stands for in the kit. */
export interface FilterUse {
  readonly use: Value<string>;
  readonly filter: Filter;
}

/** The equipment of one shot. What is missing here is missing in the plan or the kit, or could not be read. */
export interface Gear {
  readonly body?: Body;
  readonly film?: Film;
  readonly lens?: Lens;
  /** In millimetres: as chosen in the shot, or that of a lens with one focal length. */
  readonly focalMillimetres?: number;
  /** As the camera is held: width along the horizon, in millimetres. */
  readonly sensor?: Sensor;
  readonly filters: readonly FilterUse[];
  /** False when a filter or film is named that is not known or cannot be read: then no time can be given. */
  readonly filtersKnown: boolean;
  readonly stack?: StackStops;
  readonly fNumber?: number;
  readonly iso: number;
  readonly dial: Dial;
  readonly bulb?: Bulb;
  readonly reciprocity?: Reciprocity;
  readonly noiseReduction: boolean;
}

/** The equipment that a shot names, looked up in the bag. */
export function gearOf(shot: Shot, bag: Bag, memory: Memory): Gear {
  const { broken } = shot.self;
  const body = shot.body === undefined ? usualBody(shot, bag) : bag.bodies.get(shot.body.value);
  const film = shot.film === undefined ? undefined : bag.films.get(shot.film.value);
  const lens = shot.lens === undefined ? undefined : bag.lenses.get(shot.lens.value.lens);
  const filters = (shot.filters ?? []).flatMap((use) => {
    const filter = bag.filters.get(use.value);
    return filter === undefined ? [] : [{ use, filter }];
  });
  const parts = filters.map(({ filter }) => stackPart(filter));
  const filtersKnown =
    !broken.has('filters') &&
    !broken.has('film') &&
    (shot.film === undefined || film !== undefined) &&
    filters.length === (shot.filters ?? []).length &&
    parts.every((part) => part !== undefined);
  const focalMillimetres = focalOf(shot, lens);
  const sensor = sensorOf(shot, body);
  const reciprocity = film === undefined ? undefined : reciprocityOf(film);
  return present({
    body,
    film,
    lens,
    focalMillimetres,
    sensor,
    filters,
    filtersKnown,
    stack: filtersKnown ? stackStops(parts as FilterInStack[]) : undefined,
    fNumber: shot.aperture?.value,
    iso: isoOf(shot, film),
    dial: memory.once(dialKey(body), () => dialOf(body)),
    bulb: bulbOf(body),
    reciprocity,
    noiseReduction: film === undefined && body?.noiseReduction?.value === true,
  });
}

/** A filter as far as the exposure goes; undefined when its strength is written but cannot be read. */
export function stackPart(filter: Filter): FilterInStack | undefined {
  const kind = filter.kind?.value ?? 'neutral density';
  if (filter.self.broken.has('strength') && filter.measured === undefined) return undefined;
  if (kind === 'neutral density' && filter.strength === undefined && filter.measured === undefined)
    return undefined;
  return {
    id: filter.id?.value ?? '',
    kind: kind === 'neutral density' || kind === 'graduated' || kind === 'polarizer' ? kind : 'other',
    labelStops: filter.strength?.value.stops,
    measuredStops: filter.measured?.value,
    lossStops: filter.loss?.value,
  };
}

/** The first body of the bag, unless the shot names one that cannot be read. */
function usualBody(shot: Shot, bag: Bag): Body | undefined {
  return shot.self.broken.has('body') ? undefined : firstOf(bag.bodies);
}

function firstOf<T>(things: ReadonlyMap<string, T>): T | undefined {
  for (const thing of things.values()) return thing;
  return undefined;
}

function focalOf(shot: Shot, lens: Lens | undefined): number | undefined {
  const chosen = shot.lens?.value.focalMillimetres;
  if (chosen !== undefined) return chosen;
  const range = lens?.focal?.value;
  return range !== undefined && range.shortestMillimetres === range.longestMillimetres
    ? range.shortestMillimetres
    : undefined;
}

function sensorOf(shot: Shot, body: Body | undefined): Sensor | undefined {
  const size = body?.sensor?.value;
  if (size === undefined) return undefined;
  const long = Math.max(size.widthMillimetres, size.heightMillimetres);
  const short = Math.min(size.widthMillimetres, size.heightMillimetres);
  return shot.orientation?.value === 'portrait'
    ? { width: short, height: long }
    : { width: long, height: short };
}

/** All that a dial depends on. */
function dialKey(body: Body | undefined): string {
  const { shortest, longest } = body?.shutter?.value ?? {};
  return `dial ${shortest} ${longest} ${body?.dial?.value}`;
}

/** The shutter dial of a body; the usual one where the kit does not say. */
export function dialOf(body: Body | undefined): Dial {
  if (body?.shutter === undefined) return usualDial();
  const { shortest, longest } = body.shutter.value;
  return dial(body.dial?.value ?? 1 / 3, { shortestSeconds: shortest, longestSeconds: longest });
}

function bulbOf(body: Body | undefined): Bulb {
  const bulb = body?.bulb?.value;
  if (bulb === undefined || bulb.longestSeconds === null) return undefined;
  return bulb.longestSeconds === 0 ? 'none' : { longestSeconds: bulb.longestSeconds };
}

/** How a film loses speed: by the rows of its data sheet, else by the exponent; undefined when neither is written. */
export function reciprocityOf(film: Film): Reciprocity | undefined {
  const { exponent, beyond, table } = film.reciprocity ?? {};
  const rows = (table ?? []).flatMap(({ metered, corrected }) =>
    metered === undefined || corrected === undefined
      ? []
      : [{ meteredSeconds: metered.value, correctedSeconds: corrected.value }],
  );
  if (rows.length > 0) return { rows };
  return exponent === undefined ? undefined : { exponent: exponent.value, beyondSeconds: beyond?.value ?? 1 };
}

/** The speed at which a shot is exposed: its own, else that of its film, else 100. */
export function isoOf(shot: Shot, film: Film | undefined): number {
  return shot.iso?.value ?? film?.iso?.value ?? 100;
}
