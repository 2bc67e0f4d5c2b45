/**
 * Habits, not physics: numbers on which good photographers differ. A plan or the settings may set each of them.
 * All are common practice without a source unless they say otherwise.
 */
export interface Threshold {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly doc: string;
}

export const thresholds = [
  {
    name: 'walking-factor',
    value: 1,
    unit: '×',
    doc: 'Times Naismith’s walking time: more for a heavy bag, the dark, wet ground.',
  },
  {
    name: 'fastest-drive',
    value: 90,
    unit: 'km/h',
    doc: 'The fastest that a drive may be along the straight line between two spots.',
  },
  {
    name: 'uneven-sky',
    value: 1,
    unit: 'stops',
    doc: 'How much a polarizer may darken one part of the sky more than another.',
  },
  {
    name: 'weak-polarizer',
    value: 0.3,
    unit: 'stops',
    doc: 'Less than this on the sky, and a polarizer has nothing to do.',
  },
  {
    name: 'mirror-loss',
    value: 0.5,
    unit: 'stops',
    doc: 'How much of the reflection of a mirror a polarizer may be able to take away.',
  },
  {
    name: 'foreground-reflectance',
    value: 0.15,
    unit: 'share',
    doc: 'How much of the light an average foreground throws back, where its brightness is estimated: rock, grass and heath about 0.1 to 0.2, dark wet rock 0.05, snow 0.8.',
  },
  {
    name: 'strongest-graduated',
    value: 4,
    unit: 'stops',
    doc: 'The strongest graduated filter that counts as to be had.',
  },
  {
    name: 'overcast',
    value: 0.875,
    unit: 'share',
    doc: 'From this share of cloud on, the sky is not polarized and the light has no direction.',
  },
  {
    name: 'long-residual',
    value: 0.2,
    unit: 'stops',
    doc: 'How far the nearest position of the dial may lie from the wanted time.',
  },
  {
    name: 'against-meter',
    value: 1,
    unit: 'stops',
    doc: 'How far a stated shutter time may be from what the meter asks for.',
  },
  {
    name: 'light-difference',
    value: 2,
    unit: 'stops',
    doc: 'How far a meter reading may lie from the light that is expected, beyond the spread.',
  },
  {
    name: 'drift',
    value: 1 / 3,
    unit: 'stops',
    doc: 'How much changing light may lengthen or shorten an exposure unsaid.',
  },
  {
    name: 'shake-wind',
    value: 30,
    unit: 'km/h',
    doc: 'From this wind on, a tripod with a lens of 24 mm shakes; with longer lenses from less, by the square root of the focal length.',
  },
  {
    name: 'shake-focal',
    value: 135,
    unit: 'mm',
    doc: 'From this focal length on, as on 36 × 24 mm, the lens itself counts as a risk of shake.',
  },
  {
    name: 'sun-margin',
    value: 3,
    unit: '°',
    doc: 'How near to the edge of the frame the sun counts as in it: framing and the sun both move.',
  },
  {
    name: 'diffraction-pixels',
    value: 5,
    unit: 'pixels',
    doc: 'How many pixels the Airy disc may be across. From 2.5 it can be measured, from 5 it shows.',
  },
  {
    name: 'frozen-streak',
    value: 2,
    unit: 'pixels',
    doc: 'How far water that is meant to be frozen may run over the sensor.',
  },
  {
    name: 'textured-streak',
    value: 0.1,
    unit: 'share',
    doc: 'How far water that is meant to be textured may run, as a share of the width of the frame.',
  },
  {
    name: 'trail-arc',
    value: 5,
    unit: '°',
    doc: 'The shortest arc that still looks like a star trail.',
  },
  {
    name: 'moon-fraction',
    value: 0.25,
    unit: 'share',
    doc: 'From this lit share on, a moon in the sky washes out faint stars.',
  },
  {
    name: 'clear-sky',
    value: 0.05,
    unit: 'share',
    doc: 'Up to this share of cloud there is nothing that could streak.',
  },
  {
    name: 'twilight-margin',
    value: 0,
    unit: 'min',
    doc: 'How long before civil dusk the way back should end.',
  },
] as const satisfies readonly Threshold[];

export type ThresholdName = (typeof thresholds)[number]['name'];

/** The value of every threshold for one plan. */
export type Thresholds = { readonly [name in ThresholdName]: number };

/** The defaults with what the settings and then the plan set otherwise; names that are not known are left out. */
export function thresholdsWith(...overrides: readonly ReadonlyMap<string, number>[]): Thresholds {
  const values = new Map<string, number>(thresholds.map(({ name, value }) => [name, value]));
  for (const override of overrides) {
    for (const [name, value] of override) {
      if (values.has(name) && Number.isFinite(value)) values.set(name, value);
    }
  }
  return Object.fromEntries(values) as Thresholds;
}
