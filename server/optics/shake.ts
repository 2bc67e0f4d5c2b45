/**
 * What can shake a camera on a tripod during a long exposure. Factors to think of, not a forecast of blur: all limits are
 * common practice, no source.
 */

export interface ShakeInput {
  readonly seconds: number;
  /** Millimetres, as if on a frame of 36 × 24 mm. */
  readonly equivalentFocal: number;
  readonly windMetresPerSecond?: number | undefined;
  /** What the tripod stands on: footbridge, pier, water and sand carry a risk, all else counts as firm. */
  readonly ground?: string | undefined;
  readonly remoteRelease?: boolean | undefined;
}

export type ShakeFactor = 'wind' | 'ground moves' | 'ground sinks' | 'hand on the release';

export interface ShakeRisk {
  readonly factor: ShakeFactor;
  /** What it is and what helps, in a sentence. */
  readonly text: string;
}

/** Below this, at the wide end, a sound tripod stands still in wind: 8 m/s at 24 mm. */
const windAtWide = { focal: 24, metresPerSecond: 8 };
/** From a fifth of a second a swing of the tripod shows. */
const shakeFromSeconds = 1 / 5;

/** Grounds that move by themselves or under steps, and what helps. */
const movingGround: ReadonlyMap<string, string> = new Map([
  ['footbridge', 'A footbridge swings under every step: wait until nobody walks, or stand on firm ground.'],
  ['pier', 'A pier shakes under steps and waves: wait for a quiet moment, or stand on firm ground.'],
  [
    'water',
    'Flowing water shakes the tripod: spread the legs, push them in, and keep out of strong currents.',
  ],
]);
/** Grounds that give way during the exposure. */
const sinkingGround: ReadonlyMap<string, string> = new Map([
  ['sand', 'Tripod legs sink in sand during the exposure: push them in firmly before.'],
]);

/** The wind at which a tripod begins to shake visibly, m/s: falls with the square root of the focal length. */
export function windLimit(equivalentFocal: number): number {
  return (
    windAtWide.metresPerSecond * Math.sqrt(windAtWide.focal / Math.max(equivalentFocal, windAtWide.focal))
  );
}

/** The factors that apply, gravest first; none for times too short to show a swing. */
export function shakeRisks(input: ShakeInput): readonly ShakeRisk[] {
  if (input.seconds < shakeFromSeconds) return [];
  const risks: ShakeRisk[] = [];
  const limit = windLimit(input.equivalentFocal);
  const moving = movingGround.get(input.ground ?? '');
  if (moving) risks.push({ factor: 'ground moves', text: moving });
  if (input.windMetresPerSecond !== undefined && input.windMetresPerSecond > limit) {
    const wind = `${round(input.windMetresPerSecond)} m/s`;
    const text = `Wind of ${wind} shakes a tripod at this focal length, from about ${round(limit)} m/s: stay low and shelter it.`;
    risks.push({ factor: 'wind', text });
  }
  const sinking = sinkingGround.get(input.ground ?? '');
  if (sinking) risks.push({ factor: 'ground sinks', text: sinking });
  if (input.remoteRelease === false) {
    const text = 'A hand on the release shakes the camera: use a remote release or the self-timer.';
    risks.push({ factor: 'hand on the release', text });
  }
  return risks;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
