import type { Analysis } from '../analysis.ts';
import { timeText } from '../exposure/time-text.ts';
import { formatDuration } from '../quantities/duration.ts';
import type { DayShot, DaySpot, StatedMoment } from '../schedule/day.ts';
import { statedEstimate } from '../schedule/frames.ts';
import type { Span } from '../text/span.ts';
import { driftHint, driftText } from './hovers/drift.ts';
import { lightText } from './lightText.ts';
import { clockText, secondsText } from './localTime.ts';
import { afterList, afterValue, contentEnd, wholeLines } from './locate.ts';
import { code } from './markdown.ts';
import { altitudeText, bearingText, decimal, slackText, spreadText, stopsDifference } from './numbers.ts';
import { reachedText, sunCaution, zoneText } from './wording.ts';

/** A short text that the editor shows behind a value. */
export interface InlayHint {
  readonly offset: number;
  /** Plain text. */
  readonly label: string;
  /** Markdown. */
  readonly tooltip: string;
}

/** Which hints are wanted. */
export interface InlayHintSettings {
  /** The clock time of every moment, and the slack of arrivals. */
  readonly moments: boolean;
  /** The shutter time that filters, aperture and ISO lead to. */
  readonly shutter: boolean;
  /** Where the light comes from. */
  readonly light: boolean;
}

export const allInlayHints: InlayHintSettings = { moments: true, shutter: true, light: true };

/** The hints that stand in a span of a plan, in the order of the text. What is not known has none. */
export function inlayHints(
  analysis: Analysis,
  span: Span = { start: 0, end: analysis.text.length },
  settings: InlayHintSettings = allInlayHints,
): readonly InlayHint[] {
  const { day } = analysis;
  if (day === undefined) return [];
  const hints = new Map<number, InlayHint>();
  // Whole lines, since where a hint stands depends on the others of its line.
  const lines = wholeLines(analysis.text, span);
  const add = (hint: InlayHint | undefined) => {
    if (hint === undefined || hint.offset < lines.start || hint.offset > lines.end) return;
    const before = hints.get(hint.offset);
    // An anchored value counts for several shots; what they have in common is said once.
    if (before === undefined) hints.set(hint.offset, hint);
    else if (!before.label.split(' / ').includes(hint.label)) {
      hints.set(hint.offset, { ...before, label: `${before.label} / ${hint.label}` });
    }
  };
  const arrivals = new Map(day.spots.map((spot) => [spot.spot.arrive, spot]));
  if (settings.moments) {
    for (const stated of day.moments) add(momentHint(analysis, stated, arrivals.get(stated.value)));
  }
  for (const spot of day.spots) {
    if (settings.moments) add(arrivalHint(analysis, spot));
    for (const shot of spot.shots) {
      if (!touchesSpan(shot.shot.self.span, lines)) continue;
      if (settings.moments) add(startHint(analysis, spot, shot));
      if (settings.shutter) {
        add(shutterHint(analysis, shot));
        add(statedShutterHint(analysis, shot));
      }
      if (settings.light) add(lightHint(analysis, spot, shot));
    }
  }
  const sorted = [...hints.values()].sort((a, b) => a.offset - b.offset);
  return atLineEnds(analysis.text, sorted).filter(({ offset }) => offset >= span.start && offset <= span.end);
}

/** A hint that is alone on its line stands behind all of it: between braces it would push the rest away. */
function atLineEnds(text: string, hints: readonly InlayHint[]): readonly InlayHint[] {
  return hints.map((hint, index) => {
    const line = wholeLines(text, { start: hint.offset, end: hint.offset });
    const crowded = [hints[index - 1], hints[index + 1]].some(
      (other) => other !== undefined && other.offset >= line.start && other.offset <= line.end,
    );
    return crowded ? hint : { ...hint, offset: contentEnd(text, hint.offset) };
  });
}

function touchesSpan(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}

/** Behind a moment: its clock time, and behind an arrival what is to spare. A clock time needs no translation. */
function momentHint(
  { text }: Analysis,
  { value, resolution, at }: StatedMoment,
  arrival: DaySpot | undefined,
): InlayHint | undefined {
  if (resolution.kind !== 'at' || at === undefined) return undefined;
  const { instantMs } = resolution;
  const isClock = value.value.kind === 'clock';
  const slack = arrival === undefined ? undefined : slackOf(arrival);
  const parts = [isClock ? undefined : clockText(instantMs, at.clock, at.date), slack].filter(
    (part) => part !== undefined,
  );
  if (parts.length === 0) return undefined;
  return {
    offset: afterValue(text, value.span),
    label: parts.join(', '),
    tooltip: [
      `${code(value.text)} is **${secondsText(instantMs, at.clock, at.date)}**, ${zoneText(at.clock, instantMs)}.`,
      slack === undefined ? '' : `The way there takes until ${earliestText(arrival)}: ${slack}.`,
    ]
      .filter((line) => line !== '')
      .join(' '),
  };
}

function slackOf({ arriveMs, earliestMs, arrivalStated }: DaySpot): string | undefined {
  if (!arrivalStated || arriveMs === undefined || earliestMs === undefined) return undefined;
  return slackText((arriveMs - earliestMs) / 1000);
}

function earliestText(spot: DaySpot | undefined): string {
  if (spot?.at === undefined || spot.earliestMs === undefined) return 'an unknown time';
  return clockText(spot.earliestMs, spot.at.clock, spot.at.date);
}

/** Behind the id of a spot without a stated arrival: the earliest one. */
function arrivalHint(
  { text }: Analysis,
  { spot, at, arriveMs, arrivalStated }: DaySpot,
): InlayHint | undefined {
  if (arrivalStated || arriveMs === undefined || at === undefined || spot.id === undefined) return undefined;
  return {
    offset: afterValue(text, spot.id.span),
    label: `arrive ${clockText(arriveMs, at.clock, at.date)}`,
    tooltip: `The earliest arrival that the place before, drive and walk allow: **${secondsText(arriveMs, at.clock, at.date)}**, ${zoneText(at.clock, arriveMs)}.`,
  };
}

/** Behind the id of a shot without a stated start: when it can begin. */
function startHint({ text }: Analysis, { at }: DaySpot, { shot, startMs }: DayShot): InlayHint | undefined {
  if (shot.start !== undefined || startMs === undefined || at === undefined || shot.id === undefined)
    return undefined;
  return {
    offset: afterValue(text, shot.id.span),
    label: `start ${clockText(startMs, at.clock, at.date)}`,
    tooltip: `No \`start\` is written: the first frame begins when the spot is ready or the shot before has ended, **${secondsText(startMs, at.clock, at.date)}**, ${zoneText(at.clock, startMs)}.`,
  };
}

/** Behind the filters, else behind the reading: the setting that they lead to. */
function shutterHint(
  { text, thresholds }: Analysis,
  { shot, exposure, gear, frames }: DayShot,
): InlayHint | undefined {
  const filtered = exposure?.filtered;
  if (exposure === undefined || filtered === undefined) return undefined;
  const lastFilter = shot.filters?.at(-1);
  const anchor = lastFilter ?? (exposure.basis === 'expected' ? shot.aperture : shot.metered);
  if (anchor === undefined) return undefined;
  const spread = Math.hypot(gear.stack?.spreadStops ?? 0, exposure.lightSpreadStops ?? 0);
  const label = [
    exposure.basis === 'expected' ? '→ about' : '→',
    reachedText(filtered.setting),
    spreadText(spread),
  ];
  const drift = driftHint(exposure, thresholds.drift);
  const drifts = driftText(exposure, thresholds.drift);
  const frameCount = frames === undefined ? '' : ` All frames take ${formatDuration(frames.totalSeconds)}.`;
  return {
    offset: lastFilter === undefined ? afterValue(text, anchor.span) : afterList(text, anchor.span),
    label: label.filter((part) => part !== undefined).join(' ') + (drift === undefined ? '' : `, ${drift}`),
    tooltip: `${workingText(filtered.steps)}${frameCount}${drifts === undefined ? '' : ` ${drifts}`}`,
  };
}

function workingText(steps: NonNullable<NonNullable<DayShot['exposure']>['filtered']>['steps']): string {
  return steps
    .map(({ name, formula, value, unit }) => {
      const result = unit === 's' ? timeText(value) : stopsDifference(value, 2);
      return formula === result ? `${name} **${result}**` : `${name} ${code(formula)} = **${result}**`;
    })
    .join('; ')
    .concat('.');
}

/** Behind a stated shutter time: how far it lies from what meter and filters ask for. */
function statedShutterHint({ text }: Analysis, day: DayShot): InlayHint | undefined {
  const { shot, exposure } = day;
  const estimate = statedEstimate(day);
  if (shot.shutter !== undefined && exposure !== undefined && estimate !== undefined) {
    const { differenceStops, spreadStops, expectedSeconds } = estimate;
    return {
      offset: afterValue(text, shot.shutter.span),
      label: `about ${stopsDifference(differenceStops)} against the light expected, ± ${decimal(spreadStops, 1)}`,
      tooltip: `An estimate, for the shot has no \`metered\`: the light that is expected asks for about ${timeText(expectedSeconds)}; set is ${timeText(exposure.setting.seconds)}.`,
    };
  }
  const filtered = exposure?.filtered;
  if (shot.shutter === undefined || exposure === undefined || filtered === undefined) return undefined;
  const difference = Math.log2(exposure.setting.seconds / filtered.correctedSeconds);
  if (!Number.isFinite(difference)) return undefined;
  const close = Math.abs(difference) < 0.05;
  return {
    offset: afterValue(text, shot.shutter.span),
    label: close ? 'as metered' : `${stopsDifference(difference)} against the meter`,
    tooltip: `Meter and filters ask for ${timeText(filtered.correctedSeconds)}; set is ${timeText(exposure.setting.seconds)}: log2 of the ratio is ${stopsDifference(difference, 2)}.`,
  };
}

/** Behind the direction of the lens, else behind what it follows from: where the light comes from. */
function lightHint({ text }: Analysis, spot: DaySpot, day: DayShot): InlayHint | undefined {
  const { shot, facing, startMs, light } = day;
  const anchor =
    shot.facing ?? (facing?.source === 'subject' ? (shot.subject?.at ?? shot.effect ?? shot.id) : undefined);
  if (anchor === undefined || facing === undefined || startMs === undefined) return undefined;
  if (spot.at === undefined || light === undefined) return undefined;
  return {
    offset: afterValue(text, anchor.span),
    label: lightText(light, spot.at),
    tooltip: `At ${clockText(startMs, spot.at.clock, spot.at.date)} the lens looks towards ${bearingText(facing.degrees, 1)} true${facing.tiltDegrees === 0 ? '' : `, tilted ${altitudeText(facing.tiltDegrees, 1)}`}; the sun stands at ${bearingText(light.sun.azimuthDegrees, 1)}, ${altitudeText(light.sun.apparentAltitudeDegrees, 1)} as seen.${light.direction?.sunInFrame === true && light.sunUp ? ` ${sunCaution}` : ''}`,
  };
}
