import { correctedSeconds } from '../../exposure/reciprocity.ts';
import { stackStops } from '../../exposure/stack.ts';
import { timeText } from '../../exposure/time-text.ts';
import { pixelPitch } from '../../optics/view.ts';
import type { Body, Film, Filter, Lens } from '../../plan/kitFields.ts';
import { formatDuration } from '../../quantities/duration.ts';
import { formatStops } from '../../quantities/stops.ts';
import { dialOf, reciprocityOf, stackPart } from '../../schedule/gear.ts';
import { code, figures, paragraphs, table } from '../markdown.ts';
import { decimal, spreadText, stopsDifference, threeFigures } from '../numbers.ts';
import { sunCaution } from '../wording.ts';
import type { HoverKind, Scene } from './scene.ts';

/** A thing of the kit: where it is described, and where a shot names it. */
export const kitHover: HoverKind = (scene) => {
  const { analysis, mark } = scene;
  const { bag } = analysis;
  const id = typeof mark.value?.value === 'string' ? mark.value.value : undefined;
  const section = mark.section.name;
  const kit = bag.kit;
  if (section === 'shot' && id !== undefined) {
    if (mark.name === 'body') return describe(bag.bodies.get(id), bodyText);
    if (mark.name === 'film') return describe(bag.films.get(id), filmText);
    return undefined;
  }
  if (kit === undefined) return undefined;
  const own = <T extends { readonly self: unknown }>(things: readonly T[] | undefined) =>
    things?.find(({ self }) => self === mark.owner);
  switch (section) {
    case 'filter':
      return describe(own(kit.filters), filterText);
    case 'body':
      return describe(own(kit.bodies), bodyText);
    case 'lens':
      return describe(own(kit.lenses), lensText);
    case 'film':
      return describe(own(kit.film), filmText);
    default:
      return reciprocityOwner(scene);
  }
};

function describe<T>(thing: T | undefined, text: (thing: T) => string): string | undefined {
  return thing === undefined ? undefined : text(thing);
}

function reciprocityOwner({ analysis, mark }: Scene): string | undefined {
  const film = analysis.bag.kit?.film?.find(({ reciprocity }) => reciprocity?.self === mark.owner);
  return film === undefined ? undefined : filmText(film);
}

function titleOf(thing: { readonly id?: { value: string }; readonly name?: { value: string } }): string {
  const id = thing.id === undefined ? 'no id yet' : code(thing.id.value);
  return thing.name === undefined ? `**${id}**` : `**${id}** ${code(thing.name.value)}`;
}

/** A filter: its label in every unit, what was measured, what counts. */
export function filterText(filter: Filter): string {
  const part = stackPart(filter);
  const line = part === undefined ? undefined : stackStops([part]).lines[0];
  const label = filter.strength?.value.stops;
  const measured = filter.measured?.value;
  return paragraphs(
    `${titleOf(filter)} ${filter.kind?.value ?? ''}`.trim(),
    figures([
      ['label', label === undefined ? undefined : strengthForms(label)],
      ['measured', measured === undefined ? undefined : strengthForms(measured)],
      [
        'measured − label',
        label === undefined || measured === undefined
          ? undefined
          : `${stopsDifference(measured - label, 2)}: \`2^${decimal(measured - label, 2)}\` = ${decimal(2 ** (measured - label), 2)} times the time`,
      ],
      [
        'counts for',
        line === undefined ? undefined : `**${line.label}** ${spreadText(line.spread) ?? ''}`.trim(),
      ],
      ['edge', filter.edge?.value],
    ]),
    'Stops n, density D, factor F: F = 2^n = 10^D (ISO 5-2). Spread: ± 0.1 stop measured, ± 1/3 by the label, ± 1/2 from ten stops; common practice, no source. A dark filter is no eye protection.',
  );
}

function strengthForms(stops: number): string {
  const factor = 2 ** stops;
  return `${formatStops(stops)} = density ${decimal(stops * Math.log10(2), 2)} = factor ${threeFigures(factor)}, passes ${threeFigures(100 / factor)} %`;
}

/** A body: its dial, its pixels. */
export function bodyText(body: Body): string {
  const dial = dialOf(body);
  const size = body.sensor?.value;
  const pixels = body.pixels?.value;
  const bulb = body.bulb?.value;
  const longest = dial.longest;
  return paragraphs(
    titleOf(body),
    figures([
      [
        'dial',
        `${dial.positions.length} positions, ${dial.shortest.label} s to ${longest.label} s, ${formatStops(dial.stepStops)} apart${body.shutter === undefined ? ' (assumed: no `shutter` is written)' : ''}`,
      ],
      [
        'its longest',
        longest.seconds === longest.nominalSeconds
          ? undefined
          : `marked ${longest.label} s, keeps ${timeText(longest.seconds)}: markings are rounded powers of two (ISO 516)`,
      ],
      [
        'bulb',
        bulb === undefined
          ? 'not stated: taken as without limit'
          : bulb.longestSeconds === null
            ? 'without limit'
            : bulb.longestSeconds === 0
              ? 'none'
              : `up to ${formatDuration(bulb.longestSeconds)}`,
      ],
      [
        'pixel',
        size === undefined || pixels === undefined
          ? undefined
          : `\`${decimal(size.widthMillimetres, 1)} mm / ${pixels.width}\` = ${decimal(pixelPitch(size.widthMillimetres, pixels.width), 2)} µm`,
      ],
      ['range', body.range === undefined ? undefined : formatStops(body.range.value)],
      [
        'noise reduction',
        body.noiseReduction?.value === true ? 'a frame of 1 s or more takes twice its time' : undefined,
      ],
    ]),
    body.finder?.value === 'optical' ? `Optical finder. ${sunCaution}` : undefined,
  );
}

/** A lens, as the kit describes it. */
export function lensText(lens: Lens): string {
  return paragraphs(
    titleOf(lens),
    [
      lens.focal?.text,
      lens.aperture?.text,
      lens.thread === undefined ? undefined : `thread ${lens.thread.text}`,
    ]
      .filter((part) => part !== undefined)
      .map((part) => code(part))
      .join(', '),
  );
}

const tried = [1, 4, 10, 30, 60, 240] as const;

/** A film: how its long exposures grow. */
export function filmText(film: Film): string {
  const reciprocity = reciprocityOf(film);
  const law =
    reciprocity === undefined
      ? 'No reciprocity failure is written: times are not corrected.'
      : 'rows' in reciprocity
        ? 'By the rows of the data sheet, interpolated on logarithmic scales; beyond the last row a guess.'
        : `\`t^${reciprocity.exponent}\` beyond ${timeText(reciprocity.beyondSeconds)} (K. Schwarzschild 1900), the exponent from the data sheet.`;
  return paragraphs(
    `${titleOf(film)}${film.iso === undefined ? '' : ` ISO ${decimal(film.iso.value)}`}`,
    law,
    reciprocity === undefined
      ? undefined
      : table(
          ['meter and filters', 'expose'],
          tried.map((seconds) => [timeText(seconds), timeText(correctedSeconds(reciprocity, seconds))]),
          ['right', 'right'],
        ),
  );
}
