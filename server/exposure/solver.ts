import type { Exposure } from './apex.ts';
import { type Dial, exactFNumber, exactIso, markingGraceStops } from './dial.ts';
import { correctedSeconds, meteredSeconds, type Reciprocity } from './reciprocity.ts';
import { averagingStops, framesToAverage } from './sequence.ts';
import { type Bulb, type ShutterSetting, shutterSetting } from './setting.ts';

/** A filter that could be mounted. */
export interface Candidate {
  readonly id: string;
  readonly kind: 'neutral density' | 'graduated' | 'polarizer' | 'other';
  readonly stops: number;
  readonly spreadStops: number;
  /** Whether it can be mounted on the lens at all. */
  readonly fits: boolean;
  readonly mount: 'thread' | 'slot';
}

/** What to solve: times in seconds, apertures and speeds as marked. */
export interface SolveInput {
  /** The wanted shutter times. */
  readonly rangeSeconds: { readonly shortest: number; readonly longest: number };
  /** The reading without filters. */
  readonly metered: Exposure;
  readonly film?: Reciprocity | undefined;
  readonly filters: readonly Candidate[];
  readonly apertures: readonly number[];
  readonly isos: readonly number[];
  readonly current: { readonly filters: readonly string[]; readonly fNumber: number; readonly iso: number };
  /** Where the lens and the sensor are sharpest; the current aperture if not given. */
  readonly sharpestFNumber?: number | undefined;
  readonly maxFilters: number;
  /** How many filters the holder takes; no limit if not given. */
  readonly holderSlots?: number | undefined;
  readonly dial: Dial;
  readonly bulb?: Bulb;
  /** Whether a polarizer may be put on for its stops where nothing else reaches; it may if not given. */
  readonly addPolarizer?: boolean | undefined;
  /** Whether several frames averaged look like one long exposure; they do if not given. */
  readonly averaging?: boolean | undefined;
  /** How many solutions to give; six if not given. */
  readonly limit?: number;
}

/** One way to a time in the range. */
export interface Solution {
  /** One exposure, or several that are averaged. */
  readonly kind: 'single' | 'averaging';
  readonly filters: readonly string[];
  readonly fNumber: number;
  readonly iso: number;
  readonly stops: number;
  readonly spreadStops: number;
  /** The time of one frame, after the film's correction, and what to set for it. */
  readonly seconds: number;
  readonly setting: ShutterSetting;
  /** 1 for a single exposure. */
  readonly frames: number;
  /** log2 of the frames. */
  readonly averagingStops: number;
  /** How many things differ from the current plan: filters swapped, added or removed, aperture, ISO. */
  readonly changes: number;
}

/** A set of filters with what matters for the search. */
interface Stack {
  readonly filters: readonly Candidate[];
  readonly stops: number;
  readonly changes: number;
}

/** An aperture or a speed as a change of exposure, in stops of time from the metered one. */
interface Choice {
  readonly mark: number;
  readonly stops: number;
  readonly changes: 0 | 1;
  /** How far from the current one, in stops either way. */
  readonly moved: number;
}

/** One stack with an aperture and a speed. */
interface Found {
  readonly stack: Stack;
  readonly aperture: Choice;
  readonly iso: Choice;
}

/** What one search needs, worked out once. Times are log2 of seconds before the film's correction. */
interface Search {
  readonly low: number;
  readonly high: number;
  /** The longest time that the body keeps. */
  readonly most: number;
  readonly metered: number;
  readonly aperture: Choice;
  readonly iso: Choice;
  /** All of them, the one nearest to the current one first. */
  readonly apertures: readonly Choice[];
  readonly isos: readonly Choice[];
  readonly sharpestStops: number;
  /** What aperture and ISO together can take and add, in stops of time. */
  readonly reach: { readonly least: number; readonly most: number };
  /** Whether what is set on the body for a time, log2 of seconds before the film's correction, is in the range. */
  readonly keeps: (time: number) => boolean;
}

/** Another filter asks more of the photographer than a stop of aperture, which is turned by hand. Common practice, no source. */
const filterSizeStops = 1.2;
/** More stacks than this are not looked at, the smallest first. */
const mostStacks = 1000;
/** Averaging more frames than this is not offered. */
const mostFrames = 64;

/**
 * Which filters, aperture and ISO bring the shutter time into the range. Best first: fewest changes, then the smallest:
 * aperture and ISO by their stops, a filter put on, taken off or swapped as somewhat more than one stop. Then fewest filters, the aperture
 * nearest to the sharpest, the lowest ISO, the time nearest to the middle of the range. For each stack of filters the
 * current aperture and ISO are tried first, then a change of one of them, and of both only when one is not enough. The
 * order is common practice, no source.
 *
 * What is on the lens for another reason than its stops stays there: graduated filters, which hold back the sky, colour
 * filters, and one polarizer. A polarizer is put on or taken off only where nothing else reaches, and never joined by a
 * second one.
 *
 * When no single exposure reaches the range, the solutions are series of shorter frames to average (not on film).
 * The base of it all is t ∝ N²/S · 2^stops (ISO 2720), in logarithms.
 */
export function solve(input: SolveInput): readonly Solution[] {
  const search = searchOf(input);
  const stacks = stacksOf(input, 'kept');
  const kept = stacks.flatMap((stack) => inRange(stack, search));
  const found = kept.length > 0 ? kept : stacksOf(input, 'free').flatMap((stack) => inRange(stack, search));
  if (found.length > 0) {
    const best = ranked(sensible(found, search, input), search).slice(0, input.limit ?? 6);
    return best.map((each) => solution(each, search, input, 1));
  }
  return input.film || input.averaging === false ? [] : averaged(stacks, search, input);
}

function searchOf(input: SolveInput): Search {
  const { rangeSeconds, metered, film, current, dial, bulb } = input;
  const onMeter = (seconds: number) => Math.log2(film ? meteredSeconds(film, seconds) : seconds);
  const halfStep = dial.stepStops / 2;
  const longest = bulb === 'none' ? dial.longest.seconds * 2 ** halfStep : (bulb?.longestSeconds ?? Infinity);
  const most = onMeter(longest);
  const apertureStops = (mark: number) => 2 * Math.log2(exactFNumber(mark) / exactFNumber(metered.fNumber));
  const isoStops = (mark: number) => Math.log2(exactIso(metered.iso) / exactIso(mark));
  const choices = (stopsOf: (mark: number) => number, now: number) => {
    const choice = (mark: number): Choice => {
      const stops = stopsOf(mark);
      return { mark, stops, changes: mark === now ? 0 : 1, moved: Math.abs(stops - stopsOf(now)) };
    };
    return {
      now: choice(now),
      all: (marks: readonly number[]) => marks.map(choice).sort((a, b) => a.moved - b.moved),
    };
  };
  const aperture = choices(apertureStops, current.fNumber);
  const iso = choices(isoStops, current.iso);
  const apertures = aperture.all(input.apertures);
  const isos = iso.all(input.isos);
  const stopsIn = (all: readonly Choice[], now: Choice) => [now, ...all].map(({ stops }) => stops);
  const shortest = rangeSeconds.shortest * 2 ** -markingGraceStops;
  const atMost = rangeSeconds.longest * 2 ** markingGraceStops;
  return {
    low: Math.max(
      onMeter(rangeSeconds.shortest) - markingGraceStops,
      onMeter(dial.shortest.seconds) - halfStep,
    ),
    high: Math.min(onMeter(rangeSeconds.longest) + markingGraceStops, most),
    most,
    metered: Math.log2(metered.seconds),
    aperture: aperture.now,
    iso: iso.now,
    apertures,
    isos,
    reach: {
      least: Math.min(...stopsIn(apertures, aperture.now)) + Math.min(...stopsIn(isos, iso.now)),
      most: Math.max(...stopsIn(apertures, aperture.now)) + Math.max(...stopsIn(isos, iso.now)),
    },
    sharpestStops: apertureStops(input.sharpestFNumber ?? current.fNumber),
    keeps: (time) => {
      const { seconds } = shutterSetting(onFilm(2 ** time, input), dial, bulb);
      return seconds >= shortest && seconds <= atMost;
    },
  };
}

function onFilm(filteredSeconds: number, { film }: SolveInput): number {
  return film ? correctedSeconds(film, filteredSeconds) : filteredSeconds;
}

/**
 * Every stack that can be mounted, smallest first. `kept`: the polarizer that is on the lens stays, and none is put on;
 * `free`: with or without one.
 */
function stacksOf(input: SolveInput, polarizer: 'kept' | 'free'): readonly Stack[] {
  const { filters, current, maxFilters, holderSlots = Infinity, addPolarizer = true } = input;
  const mounted = new Set(current.filters);
  const fitting = filters.filter(({ fits }) => fits);
  const onLens = (filter: Candidate) => mounted.has(filter.id);
  const [stays] = fitting.filter((filter) => filter.kind === 'polarizer' && onLens(filter));
  const kept = fitting.filter(
    (filter) =>
      onLens(filter) &&
      (filter.kind === 'graduated' || filter.kind === 'other' || (filter === stays && polarizer === 'kept')),
  );
  const free = fitting.filter(
    (filter) =>
      filter.kind === 'neutral density' ||
      (filter.kind === 'polarizer' && polarizer === 'free' && (addPolarizer || filter === stays)),
  );
  // Sets grow by one filter from the earlier sets; a filter is added only after those before it in the list.
  const sets: { readonly filters: readonly Candidate[]; readonly next: number }[] = [
    { filters: kept, next: 0 },
  ];
  for (let at = 0; at < sets.length && sets.length < mostStacks; at += 1) {
    const set = sets[at];
    if (!set || set.filters.length >= maxFilters) continue;
    const polarized = set.filters.some(isPolarizer);
    for (const [place, filter] of free.entries()) {
      if (place < set.next || (polarized && isPolarizer(filter))) continue;
      sets.push({ filters: [...set.filters, filter], next: place + 1 });
    }
  }
  const mountable = sets.filter((set) => count(set.filters, ({ mount }) => mount === 'slot') <= holderSlots);
  return mountable.map((set) => {
    const stayed = count(set.filters, onLens);
    const changes = Math.max(set.filters.length - stayed, current.filters.length - stayed);
    return { filters: inOrder(set.filters, current.filters), stops: stopsOf(set.filters), changes };
  });
}

function isPolarizer({ kind }: Candidate): boolean {
  return kind === 'polarizer';
}

/** What is on the lens already, in the order of the plan; then the others. */
function inOrder(filters: readonly Candidate[], now: readonly string[]): readonly Candidate[] {
  const place = ({ id }: Candidate) => (now.includes(id) ? now.indexOf(id) : now.length);
  return [...filters].sort((a, b) => place(a) - place(b));
}

function count<T>(list: readonly T[], test: (each: T) => boolean): number {
  return list.reduce((sum, each) => sum + (test(each) ? 1 : 0), 0);
}

/** The ways in which one stack reaches the range, with as few changes of aperture and ISO as it can. */
function inRange(stack: Stack, search: Search): readonly Found[] {
  const { aperture, iso, apertures, isos, sharpestStops } = search;
  const before = search.metered + stack.stops;
  const low = search.low - before;
  const high = search.high - before;
  if (search.reach.most < low || search.reach.least > high) return [];
  const fits = (a: Choice, i: Choice) => {
    const stops = a.stops + i.stops;
    return stops >= low && stops <= high && search.keeps(before + stops);
  };
  if (fits(aperture, iso)) return [{ stack, aperture, iso }];
  const reaching = apertures.filter((other) => fits(other, iso));
  const nearest = reaching[0];
  const otherIso = isos.find((other) => fits(aperture, other));
  if (nearest || otherIso) {
    const off = ({ stops }: Choice) => Math.abs(stops - sharpestStops);
    const sharpest = [...reaching].sort((a, b) => off(a) - off(b))[0];
    const found = new Set([nearest, sharpest].filter((each) => each !== undefined));
    return [
      ...[...found].map((other) => ({ stack, aperture: other, iso })),
      ...(otherIso ? [{ stack, aperture, iso: otherIso }] : []),
    ];
  }
  const both = apertures.flatMap((otherAperture) => {
    const other = isos.find((each) => fits(otherAperture, each));
    return other ? [{ stack, aperture: otherAperture, iso: other }] : [];
  });
  return both.length === 0 ? [] : [both.reduce((best, each) => (sizeOf(each) < sizeOf(best) ? each : best))];
}

function timeOf({ stack, aperture, iso }: Found, { metered }: Search): number {
  return metered + stack.stops + aperture.stops + iso.stops;
}

function changesOf({ stack, aperture, iso }: Found): number {
  return stack.changes + aperture.changes + iso.changes;
}

/** Without those that put a filter on for a longer time and raise the ISO for a shorter one, or the reverse, as far as others are left. */
function sensible(
  found: readonly Found[],
  { iso: now }: Search,
  { filters, current }: SolveInput,
): readonly Found[] {
  const before = stopsOf(filters.filter(({ id }) => current.filters.includes(id)));
  const opposed = ({ stack, iso }: Found) => (stack.stops - before) * (iso.stops - now.stops) < 0;
  const left = found.filter((each) => !opposed(each));
  return left.length > 0 ? left : found;
}

function stopsOf(filters: readonly Candidate[]): number {
  return filters.reduce((sum, { kind, stops }) => sum + (kind === 'graduated' ? 0 : stops), 0);
}

/** How large the changes are, in stops. */
function sizeOf({ stack, aperture, iso }: Found): number {
  return filterSizeStops * stack.changes + aperture.moved + iso.moved;
}

function ranked(found: readonly Found[], search: Search): readonly Found[] {
  const middle = (search.low + search.high) / 2;
  const keyed = found.map((each) => {
    const offSharpest = Math.abs(each.aperture.stops - search.sharpestStops);
    const offMiddle = Math.abs(timeOf(each, search) - middle);
    const key = [
      changesOf(each),
      sizeOf(each),
      each.stack.filters.length,
      offSharpest,
      each.iso.mark,
      offMiddle,
    ];
    return { each, key };
  });
  // The sort is stable, so that equals stay in the order of the kit.
  return keyed.sort((a, b) => firstDifference(a.key, b.key)).map(({ each }) => each);
}

function firstDifference(a: readonly number[], b: readonly number[]): number {
  for (const [at, value] of a.entries()) {
    const difference = value - (b[at] ?? 0);
    if (Math.abs(difference) > 1e-9) return difference;
  }
  return 0;
}

/**
 * Series of frames to average: the longest single time below the range, with the current aperture and ISO; and, if that
 * needs fewer frames, with the smallest aperture and the lowest ISO.
 */
function averaged(stacks: readonly Stack[], search: Search, input: SolveInput): readonly Solution[] {
  const smallest = [...search.apertures].sort((a, b) => b.stops - a.stops)[0] ?? search.aperture;
  const slowest = [...search.isos].sort((a, b) => a.mark - b.mark)[0] ?? search.iso;
  const limit = Math.min(search.low, search.most);
  const longest = (aperture: Choice, iso: Choice) => {
    const ways = stacks.map((stack) => ({ stack, aperture, iso }));
    const short = ways.filter((way) => timeOf(way, search) <= limit);
    return short.sort((a, b) => timeOf(b, search) - timeOf(a, search))[0];
  };
  const solutions: Solution[] = [];
  for (const way of [longest(search.aperture, search.iso), longest(smallest, slowest)]) {
    if (!way) continue;
    const { seconds } = solution(way, search, input, 1).setting;
    const frames = framesToAverage(input.rangeSeconds.shortest, seconds);
    const fewest = solutions[0]?.frames ?? mostFrames + 1;
    if (frames > 1 && frames < fewest) solutions.push(solution(way, search, input, frames));
  }
  return solutions;
}

function solution(found: Found, search: Search, input: SolveInput, frames: number): Solution {
  const { stack, aperture, iso } = found;
  const filtered = 2 ** timeOf(found, search);
  const seconds = onFilm(filtered, input);
  const light = stack.filters.filter(({ kind }) => kind !== 'graduated');
  return {
    kind: frames > 1 ? 'averaging' : 'single',
    filters: stack.filters.map(({ id }) => id),
    fNumber: aperture.mark,
    iso: iso.mark,
    stops: stack.stops,
    spreadStops: Math.hypot(...light.map(({ spreadStops }) => spreadStops)),
    seconds,
    setting: shutterSetting(seconds, input.dial, input.bulb),
    frames,
    averagingStops: averagingStops(frames),
    changes: changesOf(found),
  };
}
