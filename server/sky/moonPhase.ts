import { from0To360, within180 } from './angles.ts';
import { elongationDegrees } from './bodies.ts';

/** The four phases that have an instant, in order. */
export const PRIMARY_PHASES = ['new moon', 'first quarter', 'full moon', 'last quarter'] as const;
export type PrimaryPhase = (typeof PRIMARY_PHASES)[number];

export type PhaseName =
  | PrimaryPhase
  | 'waxing crescent'
  | 'waxing gibbous'
  | 'waning gibbous'
  | 'waning crescent';

const BETWEEN: readonly PhaseName[] = [
  'waxing crescent',
  'waxing gibbous',
  'waning gibbous',
  'waning crescent',
];

/** Half a day's motion of the moon away from the sun: that near, the day is called by the phase. Common practice. */
const HALF_DAY_DEGREES = 6.1;

/** The phase's name for an elongation, moon minus sun in ecliptic longitude, 0 to 360. */
export function phaseName(elongation: number): PhaseName {
  const angle = from0To360(elongation);
  const nearest = Math.round(angle / 90) % 4;
  if (Math.abs(within180(angle - nearest * 90)) <= HALF_DAY_DEGREES) {
    return PRIMARY_PHASES[nearest] as PrimaryPhase;
  }
  return BETWEEN[Math.floor(angle / 90)] as PhaseName;
}

/** Mean motion of the moon away from the sun in degrees a day. */
const DEGREES_PER_DAY = 360 / 29.530588853;
const DAY_MS = 86_400_000;
/** Nearer than this, it is the phase that has just been. */
const SAME_PHASE_MS = 1000;

/**
 * The next instant after `instantMs` at which a primary phase falls: the given one, or whichever comes first. Good to
 * about half a minute.
 */
export function nextPhase(
  instantMs: number,
  wanted?: PrimaryPhase,
): { readonly phase: PrimaryPhase; readonly instantMs: number } {
  const here = elongationDegrees(instantMs);
  const first = wanted === undefined ? Math.floor(here / 90) + 1 : PRIMARY_PHASES.indexOf(wanted);
  const step = wanted === undefined ? 1 : PRIMARY_PHASES.length;
  // At the very instant of a phase, rounding may find that phase again: then a later one is meant.
  for (let index = first; ; index += step) {
    const ahead = from0To360(first * 90 - here) + (index - first) * 90;
    const guessMs = instantMs + (ahead / DEGREES_PER_DAY) * DAY_MS;
    const foundMs = Math.round(refined(guessMs, index * 90));
    if (foundMs > instantMs + SAME_PHASE_MS) {
      return { phase: PRIMARY_PHASES[index % PRIMARY_PHASES.length] as PrimaryPhase, instantMs: foundMs };
    }
  }
}

/** Steps by the mean motion until the elongation is met; the true motion is within a fifth of it. */
function refined(guessMs: number, angle: number): number {
  let atMs = guessMs;
  for (let round = 0; round < 12; round++) {
    const missing = within180(angle - elongationDegrees(atMs));
    atMs += (missing / DEGREES_PER_DAY) * DAY_MS;
    if (Math.abs(missing) < 1e-7) {
      break;
    }
  }
  return atMs;
}
