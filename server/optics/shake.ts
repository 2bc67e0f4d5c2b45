/**
 * What can shake a camera on a tripod during a long exposure. Factors to think of, not a forecast of blur: all limits are
 * common practice, no source.
 */

export interface ShakeInput {
  readonly seconds: number;
  /** Millimetres, as if on a frame of 36 × 24 mm. */
  readonly equivalentFocal: number;
  readonly windMetresPerSecond?: number | undefined;
  /** The wind at which a tripod with a lens of 24 mm begins to shake; 8 m/s when left out. */
  readonly wideWindLimit?: number | undefined;
  /** What the tripod stands on: footbridge, pier, wall, water and sand carry a risk, all else counts as firm. */
  readonly ground?: string | undefined;
  /** How high the camera must stand, and how high the tripod goes, in metres. */
  readonly neededHeight?: number | undefined;
  readonly tripodHeight?: number | undefined;
  /** From this equivalent focal length on the lens is a risk by itself; never when left out. */
  readonly longLensFrom?: number | undefined;
  /** How much of the view one pixel takes, in arc-seconds. */
  readonly pixelArcSeconds?: number | undefined;
  /** False when it is known that none is carried. */
  readonly remoteRelease?: boolean | undefined;
}

export type ShakeFactor =
  | 'wind'
  | 'ground moves'
  | 'ground sinks'
  | 'wall'
  | 'tripod full out'
  | 'long lens'
  | 'hand on the release';

export interface ShakeRisk {
  readonly factor: ShakeFactor;
  /** What it is and what helps, in a sentence. */
  readonly text: string;
}

/** Below this, at the wide end, a sound tripod stands still in wind: 8 m/s at 24 mm. */
const windAtWide = { focal: 24, metresPerSecond: 8 };
/** From a fifth of a second a swing of the tripod shows. */
const shakeFromSeconds = 1 / 5;
/** From this focal length on, or from half the wind that shakes by itself, a weak stand shows. */
export const weakStandFocal = 70;
const weakStandWind = 0.5;
/** Higher than this share of its height a tripod is as good as full out. */
const fullOut = 0.9;

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
export function windLimit(equivalentFocal: number, atWide = windAtWide.metresPerSecond): number {
  return atWide * Math.sqrt(windAtWide.focal / Math.max(equivalentFocal, windAtWide.focal));
}

/** The factors that apply, gravest first; none for times too short to show a swing. */
export function shakeRisks(input: ShakeInput): readonly ShakeRisk[] {
  const { seconds, equivalentFocal, windMetresPerSecond: wind = 0, ground = '' } = input;
  if (seconds < shakeFromSeconds) return [];
  const limit = windLimit(equivalentFocal, input.wideWindLimit);
  // What matters only when something else pulls at the camera: a long lens, or some wind.
  const pulled = equivalentFocal >= weakStandFocal || wind >= limit * weakStandWind;
  const found: readonly (readonly [ShakeFactor, string | undefined | false])[] = [
    ['ground moves', movingGround.get(ground)],
    ['wind', wind >= limit && windText(wind, limit)],
    ['wall', pulled && ground === 'wall' && wallText],
    ['tripod full out', pulled && heightText(input)],
    ['long lens', equivalentFocal >= (input.longLensFrom ?? Number.POSITIVE_INFINITY) && lensText(input)],
    ['ground sinks', sinkingGround.get(ground)],
    ['hand on the release', pulled && input.remoteRelease === false && releaseText],
  ];
  return found.flatMap(([factor, text]) => (text === undefined || text === false ? [] : [{ factor, text }]));
}

const wallText =
  'A wall carries the shake of steps, traffic and machinery, and over it the wind is stronger: keep the tripod off its top and off any railing.';
const releaseText = 'A hand on the release shakes the camera: use a remote release or the self-timer.';

function windText(wind: number, limit: number): string {
  return `Wind of ${kmh(wind)} shakes a tripod at this focal length, from about ${kmh(limit)}: stay low, hang nothing that swings, and shelter it.`;
}

function heightText({ neededHeight, tripodHeight }: ShakeInput): string | undefined {
  if (neededHeight === undefined || tripodHeight === undefined) return undefined;
  if (neededHeight < tripodHeight * fullOut || neededHeight > tripodHeight) return undefined;
  return `The camera must stand ${neededHeight.toFixed(2)} m high and the tripod reaches ${tripodHeight.toFixed(2)} m: full out it is least stiff. Find a place where it can stand lower.`;
}

function lensText({ pixelArcSeconds }: ShakeInput): string {
  const pixel =
    pixelArcSeconds === undefined ? '' : `, and a swing of ${round(pixelArcSeconds)} arc-seconds is a pixel`;
  return `So long a lens shows every movement${pixel}: hold it by its collar, wait after each touch, and shelter it.`;
}

function kmh(metresPerSecond: number): string {
  return `${Math.round(metresPerSecond * 3.6)} km/h`;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
