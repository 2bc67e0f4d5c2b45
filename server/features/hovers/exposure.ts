import { figure } from '../../checks/figures.ts';
import { exactExposure } from '../../exposure/dial.ts';
import type { Step } from '../../exposure/exposure.ts';
import type { LadderOptions } from '../../exposure/ladder.ts';
import { timeText } from '../../exposure/time-text.ts';
import type { DayShot } from '../../schedule/day.ts';
import { type ShotExposure, statedEstimate } from '../../schedule/frames.ts';
import { shotBracket } from '../../schedule/scene.ts';
import { clockText } from '../localTime.ts';
import { code, paragraphs, table } from '../markdown.ts';
import { decimal, lastingText, spreadText, stopsDifference } from '../numbers.ts';
import { settingText } from '../wording.ts';
import { driftText } from './drift.ts';
import { ladderTable, wholeStops } from './ladder.ts';
import { lightWorking } from './light.ts';
import { polarizerText } from './polarizer.ts';
import { sunText } from './safety.ts';
import type { HoverKind, Scene } from './scene.ts';

/** The whole exposure of a shot, on its filters, its shutter time, its ISO; on a polarizer first what that does. */
export const exposureHover: HoverKind = (scene) => {
  const { mark, shot } = scene;
  if (shot === undefined || mark.section.name !== 'shot') return undefined;
  if (mark.name !== 'filters' && mark.name !== 'shutter' && mark.name !== 'iso') return undefined;
  const used = shot.gear.filters.find(({ use }) => use === mark.value);
  const polarizer = used?.filter.kind?.value === 'polarizer' ? polarizerText(shot) : undefined;
  return paragraphs(polarizer, exposureText(scene, shot));
};

/** What exposure and cautions are worked out from: a place on the spot, and the thresholds. */
export type ExposureScene = Pick<Scene, 'analysis' | 'spot' | 'shot'>;

/** What is set, how it was found, how sure it is, and what to set if the meter says something else on the spot. */
export function exposureText(
  scene: ExposureScene,
  shot: DayShot,
  steps: LadderOptions = wholeStops,
): string | undefined {
  const { exposure } = shot;
  const { thresholds } = scene.analysis;
  const caution = sunText(scene, shot);
  if (exposure === undefined) return paragraphs(stackText(shot), whyNot(shot), caution);
  return paragraphs(
    headline(shot, exposure),
    driftText(exposure, thresholds.drift),
    caution,
    workingTable(shot, exposure),
    ladderTable(exposure, steps),
    stackText(shot),
    framesText(shot),
    sources(exposure, scene),
    exposure.basis === 'expected' && shot.light?.expected !== undefined
      ? lightWorking(shot.light.expected)
      : undefined,
  );
}

function headline(day: DayShot, exposure: ShotExposure): string {
  const { shot } = day;
  const { basis, filtered, setting } = exposure;
  const kept = setting.kind === 'dial' && setting.seconds !== setting.nominalSeconds;
  const exactly = kept ? ` (the shutter keeps ${timeText(setting.seconds)})` : '';
  if (basis === 'stated') {
    if (filtered === undefined) {
      const estimate = statedEstimate(day);
      const against =
        estimate === undefined
          ? ''
          : `: about ${stopsDifference(estimate.differenceStops)} against the ${timeText(estimate.expectedSeconds)} that the expected light asks for (an estimate, ± ${decimal(estimate.spreadStops, 1)} stops: the shot has no \`metered\`)`;
      return `**${settingText(setting)}**${exactly}, as written${against}.`;
    }
    const difference = Math.log2(setting.seconds / filtered.correctedSeconds);
    return `**${settingText(setting)}**${exactly}, as written: ${stopsDifference(difference)} against the ${timeText(filtered.correctedSeconds)} that meter and filters ask for.`;
  }
  const estimate = basis === 'expected' ? 'About ' : '';
  const why = basis === 'expected' ? ', estimated: the shot has no `metered`' : '';
  return `${estimate}**${settingText(setting)}**${exactly}${why}${shot.film === undefined ? '' : ', film corrected'}.`;
}

/** What is missing before a time can be given. */
function whyNot({ shot, gear }: DayShot): string | undefined {
  if (!gear.filtersKnown)
    return 'No time can be given while a filter is not known or its strength cannot be read.';
  const missing = [
    gear.fNumber === undefined && shot.self.keys.has('aperture') === false ? '`aperture`' : undefined,
    shot.metered === undefined ? '`metered`' : undefined,
  ].filter((key) => key !== undefined);
  return missing.length === 0 ? undefined : `For a time, write ${missing.join(' and ')}.`;
}

/** Each step: formula, result, and where it lies with its spread. */
export function workingTable(shot: DayShot, exposure: ShotExposure): string | undefined {
  const { filtered, input } = exposure;
  if (filtered === undefined || input === undefined) return undefined;
  const rows = filtered.steps.flatMap((step) => {
    if (step.name === 'metered') return [firstRow(shot, exposure, step)];
    // Without filters there is nothing to multiply by.
    if (step.name === 'filtered time' && input.stops === 0 && input.spreadStops === 0) return [];
    const note = step.note === undefined ? '' : ` · ${step.note}`;
    return [[step.name, code(step.formula, { inTable: true }) + note, resultText(step)]];
  });
  return table(['step', 'working', 'result'], rows);
}

/** What the working starts from: the reading, or the time that an exposure value comes to. */
function firstRow({ shot, light }: DayShot, { basis, input }: ShotExposure, step: Step): readonly string[] {
  const reading = shot.metered?.value;
  const expected = basis === 'expected' ? light?.expected?.ev100 : undefined;
  const ev = reading?.kind === 'ev' ? reading.ev100 : expected;
  const name = basis === 'expected' ? 'expected light' : 'metered';
  if (ev === undefined || input === undefined) {
    return [name, code(step.formula, { inTable: true }), resultText(step)];
  }
  // The numbers that the markings stand for: f/11 is 11.31, ISO 64 is 63.
  const { fNumber, iso } = exactExposure(input.metered);
  const speed = iso === 100 ? '' : ` × ${figure(iso, 1)} / 100`;
  const formula = `${figure(fNumber, 2)}² / (2^${decimal(ev, 2)}${speed})`;
  return [name, `EV ${decimal(ev, 2)}: ${code(formula, { inTable: true })}`, resultText(step)];
}

function resultText({ value, unit, low, high }: Step): string {
  if (unit === 'stops') return stopsDifference(value, 2);
  const spread = low !== undefined && high !== undefined && high - low > 1e-9 * high;
  return spread ? `**${timeText(value)}** (${timeText(low)} to ${timeText(high)})` : `**${timeText(value)}**`;
}

/** What each filter counts for, beside its label. */
function stackText({ gear }: DayShot): string | undefined {
  const { stack, filters } = gear;
  if (stack === undefined || filters.length === 0) return undefined;
  const rows = filters.map(({ use, filter }, index) => {
    const line = stack.lines[index];
    const label = filter.strength?.value.stops;
    const measured = filter.measured?.value;
    const off =
      label !== undefined && measured !== undefined && Math.abs(measured - label) >= 0.05
        ? `, label ${decimal(label, 2)}: ${stopsDifference(measured - label)}`
        : '';
    return [code(use.value, { inTable: true }), `${line?.label ?? ''}${off}`, spreadOf(line?.spread)];
  });
  const sum =
    filters.length > 1
      ? [['together', `**${decimal(stack.stops, 2)} stops**`, spreadOf(stack.spreadStops)]]
      : [];
  return table(['filter', 'takes', 'spread'], [...rows, ...sum]);
}

function spreadOf(stops: number | undefined): string {
  return stops === undefined ? '' : (spreadText(stops) ?? '');
}

/** More times than this are not listed. */
const mostListed = 15;

/** How long all frames hold the body; of a bracket, what is set. */
export function framesText(shot: DayShot): string | undefined {
  const { frames } = shot;
  if (frames === undefined) return undefined;
  const { exposures, openSeconds, totalSeconds } = frames;
  if (frames.frames === 1 && exposures.length === 1) return undefined;
  const set =
    exposures.length > 1 ? shotBracket(shot)?.frames.map(({ setting }) => settingText(setting)) : undefined;
  const bracket = `${exposures.length} exposures${set === undefined || set.length > mostListed ? '' : `, set to ${set.join(', ')}`}`;
  const count =
    exposures.length === 1
      ? `${frames.frames} frames`
      : frames.frames === 1
        ? bracket
        : `${frames.frames} times ${bracket}`;
  return `${count}: the shutter is open for ${lastingText(openSeconds)}, all takes ${lastingText(totalSeconds)}.`;
}

function sources(
  { basis, filtered, lightSpreadStops }: ShotExposure,
  { spot, shot }: ExposureScene,
): string | undefined {
  if (filtered === undefined) return undefined;
  const at =
    basis === 'expected' && spot?.at !== undefined && shot?.startMs !== undefined
      ? ` The light is that expected at ${clockText(shot.startMs, spot.at.clock, spot.at.date)}, ± ${decimal(lightSpreadStops ?? 0, 1)} stops.`
      : '';
  return `t × 2^stops (ISO 2720; strengths add as densities do, ISO 5). Spreads of filters: common practice, no source.${at}`;
}
