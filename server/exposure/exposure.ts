import type { Exposure } from './apex.ts';
import { type Dial, exactFNumber, exactIso, usualDial } from './dial.ts';
import { correctedSeconds, isExtrapolated, type Reciprocity } from './reciprocity.ts';
import { type Bulb, type ShutterSetting, shutterSetting } from './setting.ts';
import { stopsText, timeText } from './time-text.ts';

/** What a filtered exposure is worked out from. */
export interface FilteredExposureInput {
  /** The reading without filters. Its time is taken as written, its aperture and ISO as the markings that they are. */
  readonly metered: Exposure;
  /** The aperture and the sensitivity of the shot, as marked. */
  readonly fNumber: number;
  readonly iso: number;
  /** What the filters take, and its ±, in stops. */
  readonly stops: number;
  readonly spreadStops: number;
  /** How the film loses speed; absent for a sensor. */
  readonly film?: Reciprocity | undefined;
  /** Whether the body takes a dark frame after a long exposure. */
  readonly noiseReduction?: boolean | undefined;
  /** Third stops from 1/8000 to 30 s if not given. */
  readonly dial?: Dial | undefined;
  readonly bulb?: Bulb;
}

/** One step of the working, to be shown as it is. */
export interface Step {
  readonly name: string;
  /** "1/2 s × 2^6" */
  readonly formula: string;
  readonly value: number;
  readonly unit: 's' | 'stops';
  /** The range in which the value lies, where it has a spread. */
  readonly low?: number;
  readonly high?: number;
  /** An assumption that the step rests on. */
  readonly note?: string;
}

/** An exposure through filters, with its working. Times are in seconds. */
export interface FilteredExposure {
  /** Without filters, at the aperture and ISO of the shot. */
  readonly baseSeconds: number;
  readonly filteredSeconds: number;
  /** After the film's loss of speed; the same as filtered for a sensor. */
  readonly correctedSeconds: number;
  /** The corrected time if the filters are as weak, or as strong, as their spread allows. */
  readonly shortestSeconds: number;
  readonly longestSeconds: number;
  readonly setting: ShutterSetting;
  /** How long the frame keeps the body busy: the exposure, twice with noise reduction. */
  readonly takesSeconds: number;
  readonly steps: readonly Step[];
}

/** Bodies take the dark frame from exposures of a second; common practice, no source. */
export const noiseReductionFromSeconds = 1;

/**
 * The exposure through filters: base time · 2^stops, with the change of aperture (2·log2 of the ratio of f-numbers) and of
 * ISO; the film's correction once and last; then the dial or bulb. Source: ISO 2720 (t ∝ N²/S), ISO 5 (a filter of n
 * stops passes 2^−n). Aperture and ISO markings are taken at the exact values they stand for, so f/8 to f/11 is one stop.
 */
export function filteredExposure(input: FilteredExposureInput): FilteredExposure {
  const { metered, stops, spreadStops, film, dial = usualDial(), bulb } = input;
  const apertureStops = 2 * Math.log2(exactFNumber(input.fNumber) / exactFNumber(metered.fNumber));
  const isoStops = Math.log2(exactIso(metered.iso) / exactIso(input.iso));
  const baseSeconds = metered.seconds * 2 ** (apertureStops + isoStops);
  const filteredSeconds = baseSeconds * 2 ** stops;
  const onFilm = (seconds: number) => (film ? correctedSeconds(film, seconds) : seconds);
  const corrected = onFilm(filteredSeconds);
  const shortestSeconds = onFilm(filteredSeconds * 2 ** -spreadStops);
  const longestSeconds = onFilm(filteredSeconds * 2 ** spreadStops);
  const setting = shutterSetting(corrected, dial, bulb);
  const takesSeconds = frameSeconds(setting.seconds, input.noiseReduction === true && !film);

  const steps: Step[] = [meteredStep(metered)];
  if (apertureStops !== 0) steps.push(apertureStep(metered.fNumber, input.fNumber, apertureStops));
  if (isoStops !== 0) steps.push(isoStep(metered.iso, input.iso, isoStops));
  if (steps.length > 1) {
    const change = stopsText(apertureStops + isoStops);
    const formula = times(metered.seconds, change === '0' ? '' : `2^(${change})`);
    steps.push({ name: 'base time', formula, value: baseSeconds, unit: 's' });
  }
  steps.push({
    name: 'filtered time',
    formula: times(baseSeconds, round(stops) === 0 ? '' : `2^${round(stops)}`),
    value: filteredSeconds,
    unit: 's',
    low: filteredSeconds * 2 ** -spreadStops,
    high: filteredSeconds * 2 ** spreadStops,
    note: `filters ${round(stops)} ± ${round(spreadStops)} stops`,
  });
  if (film) {
    const formula = filmFormula(film, filteredSeconds);
    const step = {
      formula,
      value: corrected,
      unit: 's',
      low: shortestSeconds,
      high: longestSeconds,
    } as const;
    const guessed = isExtrapolated(film, filteredSeconds) && {
      note: 'beyond the last row of the data sheet',
    };
    steps.push({ name: 'film correction', ...step, ...guessed });
  }
  steps.push(settingStep(setting));
  if (takesSeconds !== setting.seconds) {
    const formula = `2 × ${timeText(setting.seconds)}`;
    steps.push({
      name: 'noise reduction',
      formula,
      value: takesSeconds,
      unit: 's',
      note: 'a dark frame as long',
    });
  }
  const found = {
    baseSeconds,
    filteredSeconds,
    correctedSeconds: corrected,
    shortestSeconds,
    longestSeconds,
  };
  return { ...found, setting, takesSeconds, steps };
}

/** How long one frame keeps the body busy. A dark frame is taken from exposures of one second. */
export function frameSeconds(exposureSeconds: number, noiseReduction: boolean): number {
  return noiseReduction && exposureSeconds >= noiseReductionFromSeconds
    ? 2 * exposureSeconds
    : exposureSeconds;
}

function meteredStep({ seconds, fNumber, iso }: Exposure): Step {
  const formula = `${timeText(seconds)} at f/${fNumber}, ISO ${iso}`;
  return { name: 'metered', formula, value: seconds, unit: 's' };
}

function apertureStep(from: number, to: number, stops: number): Step {
  return { name: 'aperture', formula: `f/${from} to f/${to}`, value: stops, unit: 'stops' };
}

function isoStep(from: number, to: number, stops: number): Step {
  return { name: 'ISO', formula: `ISO ${from} to ISO ${to}`, value: stops, unit: 'stops' };
}

function filmFormula(film: Reciprocity, seconds: number): string {
  const time = timeText(seconds);
  if ('rows' in film) return `data sheet at ${time}`;
  const { exponent, beyondSeconds } = film;
  if (seconds <= beyondSeconds) return `none up to ${timeText(beyondSeconds)}`;
  return beyondSeconds === 1
    ? `${round(seconds)}^${exponent}`
    : `${timeText(beyondSeconds)} × (${time} / ${timeText(beyondSeconds)})^${exponent}`;
}

function settingStep(setting: ShutterSetting): Step {
  const notes: string[] = [];
  if (setting.kind === 'dial' && setting.seconds !== setting.nominalSeconds) {
    notes.push(`the dial's ${setting.label} is ${timeText(setting.seconds)}`);
  }
  // Less than a twentieth of a stop is not seen in a picture.
  if (Math.abs(setting.residualStops) >= 0.05)
    notes.push(`${stopsText(setting.residualStops)} stop from the wanted time`);
  return {
    name: setting.kind,
    formula: setting.kind === 'dial' ? setting.label : setting.text,
    value: setting.seconds,
    unit: 's',
    ...(notes.length === 0 ? {} : { note: notes.join('; ') }),
  };
}

/** A time and its factor; one that changes nothing is left out. */
function times(seconds: number, factor: string): string {
  return factor === '' ? timeText(seconds) : `${timeText(seconds)} × ${factor}`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
