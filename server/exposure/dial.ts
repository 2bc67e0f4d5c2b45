import type { Exposure } from './apex.ts';
import {
  apertureMarks,
  apertureNumbers,
  longestMarkStops,
  markedNumber,
  type StepsPerStop,
  shutterMarks,
  speedMarks,
  stepsPerStop,
} from './marks.ts';

/** One position of a shutter dial. */
export interface DialPosition {
  /** The marking, in seconds: "30", "1/125". */
  readonly label: string;
  /** The time that the shutter really keeps, a power of two: 32 s at the marking "30". */
  readonly seconds: number;
  /** The time that the marking names: 30 s at "30". */
  readonly nominalSeconds: number;
}

/** The position next to a wanted time. */
export interface NearestPosition extends DialPosition {
  /** Where it stands in `positions`. */
  readonly index: number;
  /** How many stops more the position exposes than was wanted; negative: less. */
  readonly errorStops: number;
  /** Whether the dial reaches the wanted time to half a step, or ends before it at the long or the short end. */
  readonly reach: 'within' | 'longer' | 'shorter';
}

/** The shutter dial of one body. */
export interface Dial {
  /** 1, 1/2 or 1/3. */
  readonly stepStops: number;
  /** From the longest time to the shortest; never empty. */
  readonly positions: readonly DialPosition[];
  readonly longest: DialPosition;
  readonly shortest: DialPosition;
  /** The position with the smallest difference in stops. What is not a positive number gets the shortest position. */
  nearest(seconds: number): NearestPosition;
  /** The positions one step longer and one step shorter than that at `index`, where the dial has them. */
  neighbours(index: number): { readonly longer?: DialPosition; readonly shorter?: DialPosition };
}

/** A range of shutter times as bodies state it, in seconds as marked (30, not 32). */
export interface ShutterRange {
  readonly shortestSeconds: number;
  readonly longestSeconds: number;
}

/** Markings are rounded names: a range of times up to 30 s includes the 32 s that the dial keeps at 30. A tenth of a stop. */
export const markingGraceStops = 0.1;

/** A third of a stop in f-numbers, 2^(1/6): what an aperture may miss unsaid. */
export const thirdStopOfAperture = 2 ** (1 / 6);

/** How far a stated end of the range may fall short of a marking and still include it: 1/1000 s includes 1/1024 s. */
const endTolerance = 1.02;

/**
 * The dial of a body with the given step and range. Markings run to 960 s, for bodies whose dial goes beyond 30 s. A
 * range that holds no marking at all gives the one marking next to its middle.
 */
export function dial(stepStops: number, range: ShutterRange): Dial {
  const steps = stepsPerStop(stepStops);
  const all = shutterMarks[steps].map((label, place) => position(label, longestMarkStops - place / steps));
  const positions = all.filter(({ nominalSeconds }) => inRange(nominalSeconds, range));
  const first = positions[0] ?? nextTo(Math.sqrt(range.shortestSeconds * range.longestSeconds), all);
  if (positions.length === 0) positions.push(first);
  const last = positions[positions.length - 1] ?? first;
  const firstStep = Math.round(Math.log2(first.seconds) * steps);

  function nearest(seconds: number): NearestPosition {
    const wantedStep = seconds > 0 ? Math.log2(seconds) * steps : Number.NEGATIVE_INFINITY;
    const index = Math.min(Math.max(firstStep - Math.round(wantedStep), 0), positions.length - 1);
    const found = positions[index] ?? last;
    const errorStops = Math.log2(found.seconds / seconds);
    const halfStep = 0.5 / steps + 1e-9;
    const reach = errorStops < -halfStep ? 'longer' : errorStops > halfStep ? 'shorter' : 'within';
    const { label, seconds: exact, nominalSeconds } = found;
    return { label, seconds: exact, nominalSeconds, index, errorStops, reach };
  }

  function neighbours(index: number) {
    const longer = positions[index - 1];
    const shorter = positions[index + 1];
    return { ...(longer && { longer }), ...(shorter && { shorter }) };
  }

  return { stepStops: 1 / steps, positions, longest: first, shortest: last, nearest, neighbours };
}

/** The dial that is assumed where the body is not known: third stops from 1/8000 to 30 s (common practice, no source). */
export function usualDial(): Dial {
  return dial(1 / 3, { shortestSeconds: 1 / 8000, longestSeconds: 30 });
}

function position(label: string, stops: number): DialPosition {
  return { label, seconds: 2 ** stops, nominalSeconds: markedNumber(label) };
}

function inRange(seconds: number, { shortestSeconds, longestSeconds }: ShutterRange): boolean {
  return seconds * endTolerance >= shortestSeconds && seconds <= longestSeconds * endTolerance;
}

function nextTo(seconds: number, positions: readonly DialPosition[]): DialPosition {
  const stopsOff = (candidate: DialPosition) => Math.abs(Math.log2(candidate.seconds / seconds));
  return positions.reduce((best, candidate) => (stopsOff(candidate) < stopsOff(best) ? candidate : best));
}

/** One position of an aperture ring. */
export interface AperturePosition {
  /** "f/5.6" */
  readonly label: string;
  /** The f-number as marked: 5.6. */
  readonly markedFNumber: number;
  /** The f-number on the scale of powers of √2: 5.657. */
  readonly fNumber: number;
}

/** The apertures from f/1 to f/64 in steps of 1, 1/2 or 1/3 stop, widest first. */
export function fNumberPositions(stepStops: number): readonly AperturePosition[] {
  const steps = stepsPerStop(stepStops);
  return apertureMarks[steps].map((mark, place) => ({
    label: `f/${mark}`,
    markedFNumber: markedNumber(mark),
    fNumber: 2 ** (place / steps / 2),
  }));
}

/**
 * The f-number that a marking stands for: f/5.6 is 5.657, f/11 is 11.314, so that f/8 to f/11 is one stop exactly. A
 * number that is no standard marking stands for itself. Where a half-stop and a third-stop marking share a name (1.2, 13),
 * the step decides: third stops unless said otherwise.
 */
export function exactFNumber(mark: string | number, stepStops = 1 / 3): number {
  const wanted = typeof mark === 'number' ? mark : markedNumber(mark);
  const preferred = stepsPerStop(stepStops);
  const order: readonly StepsPerStop[] = preferred === 2 ? [1, 2, 3] : [1, 3, 2];
  for (const steps of order) {
    const place = apertureNumbers[steps].indexOf(wanted);
    if (place >= 0) return 2 ** (place / steps / 2);
  }
  return wanted;
}

/** The speed that a third-stop ISO marking stands for: ISO 64 is 63.0, two thirds of a stop below 100. Others stand for themselves. */
export function exactIso(mark: number): number {
  const place = speedMarks.indexOf(mark);
  return place < 0 ? mark : 100 * 2 ** (place / 3 - 4);
}

/** An exposure at the values that its aperture and ISO markings stand for; its time is taken as written. */
export function exactExposure({ seconds, fNumber, iso }: Exposure): Exposure {
  return { seconds, fNumber: exactFNumber(fNumber), iso: exactIso(iso) };
}
