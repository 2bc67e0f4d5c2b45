import { exactFNumber, thirdStopOfAperture } from '../../exposure/dial.ts';
import {
  circleOfConfusion,
  depthOfField,
  type FocusForDepth,
  focusForDepth,
  focusStack,
  hyperfocal,
} from '../../optics/depth.ts';
import { airyDiameter, airyPixels } from '../../optics/diffraction.ts';
import { fieldOfView } from '../../optics/view.ts';
import type { DayShot } from '../../schedule/day.ts';
import { pitchOf } from '../../schedule/screen.ts';
import { figures, paragraphs } from '../markdown.ts';
import { decimal, distanceText } from '../numbers.ts';
import { exposureText } from './exposure.ts';
import { lensText } from './kit.ts';
import type { HoverKind } from './scene.ts';

const keys: ReadonlySet<string> = new Set(['lens', 'aperture', 'focus', 'nearest']);

/** The lens of a shot: what it sees, what is sharp, what the aperture costs in sharpness. */
export const lensHover: HoverKind = (scene) => {
  const { mark, shot } = scene;
  if (shot === undefined || mark.section.name !== 'shot' || !keys.has(mark.name)) return undefined;
  const view = viewRows(shot);
  const sharp = [...depthRows(shot), ...airyRows(shot)];
  const rows = mark.name === 'lens' ? [...view, ...sharp] : [...sharp, ...view];
  const own = mark.name === 'lens' && shot.gear.lens !== undefined ? lensText(shot.gear.lens) : undefined;
  const exposure = mark.name === 'aperture' ? exposureText(scene, shot) : undefined;
  if (rows.length === 0 && own === undefined && exposure === undefined) return undefined;
  return paragraphs(
    own,
    figures(rows),
    rows.length === 0
      ? undefined
      : 'Central projection and thin-lens geometry (S. F. Ray, Applied Photographic Optics); Airy disc 2.44·λ·N at 0.55 µm. The circle of confusion is custom.',
    exposure,
  );
};

type Rows = readonly (readonly [string, string | undefined])[];

function viewRows({ gear }: DayShot): Rows {
  const { focalMillimetres: focal, sensor } = gear;
  if (focal === undefined || sensor === undefined) return [];
  const view = fieldOfView(focal, sensor);
  const size = `${decimal(sensor.width, 1)} × ${decimal(sensor.height, 1)} mm`;
  return [
    [
      'field of view',
      `${decimal(view.horizontalDegrees, 1)}° × ${decimal(view.verticalDegrees, 1)}°, diagonal ${decimal(view.diagonalDegrees, 1)}°: \`2·atan(d / (2 × ${decimal(focal, 0)} mm))\`, sensor ${size}`,
    ],
  ];
}

function depthRows({ gear, shot, facing }: DayShot): Rows {
  const { focalMillimetres: focal, sensor, fNumber } = gear;
  const near = shot.nearest?.value;
  if (focal === undefined || sensor === undefined || fNumber === undefined) {
    const wants = shot.focus !== undefined || near !== undefined;
    return wants ? [['sharp', missingText(gear)]] : [];
  }
  const circle = circleOfConfusion(sensor);
  const input = { focal, fNumber: exactFNumber(fNumber), circle };
  const far = hyperfocal(input);
  const subject = facing?.subjectDistanceMetres ?? shot.subject?.distance?.value;
  const focus = shot.focus?.value ?? (shot.self.broken.has('focus') ? undefined : subject);
  const depth = focus === undefined ? undefined : depthOfField(input, focus);
  const to = near === undefined || subject === undefined || subject <= near ? Infinity : subject;
  const wanted = near === undefined ? undefined : focusForDepth({ focal, circle }, near, to);
  return [
    [
      'sharp',
      depth === undefined || focus === undefined
        ? undefined
        : `focused ${shot.focus === undefined ? 'on the subject, ' : ''}at ${distanceText(focus)}: from ${distanceText(depth.nearMetres)} to ${distanceText(depth.farMetres)}`,
    ],
    [
      'for the nearest',
      wanted === undefined || near === undefined
        ? undefined
        : `from ${distanceText(near)} to ${distanceText(to)}: ${wantedText(wanted, gear.lens?.aperture?.value.smallest)}`,
    ],
    [
      'focus stack',
      wanted === undefined || near === undefined || wanted.fNumber <= input.fNumber * thirdStopOfAperture
        ? undefined
        : stackText(focusStack(input, near, to), fNumber),
    ],
    [
      'hyperfocal',
      `\`${decimal(focal, 0)}² / (${decimal(input.fNumber, 2)} × ${decimal(circle, 3)}) + ${decimal(focal, 0)} mm\` = **${distanceText(far)}**: focused there, sharp from ${distanceText(far / 2)} to infinity`,
    ],
    [
      'circle of confusion',
      `${decimal(circle, 3)} mm: diagonal / 1442, an eye before a print of 25 cm; large prints ask for less`,
    ],
  ];
}

/** What near and far limits need and is not known. */
function missingText({ focalMillimetres, sensor, fNumber }: DayShot['gear']): string {
  const missing = [
    focalMillimetres === undefined ? 'the focal length (`lens: wide @ 24 mm`)' : undefined,
    fNumber === undefined ? '`aperture`' : undefined,
    sensor === undefined ? 'the `sensor` of the body' : undefined,
  ].filter((thing) => thing !== undefined);
  return `near and far limits need ${missing.join(' and ')}`;
}

/** Where the kit does not say how far the lens stops down. */
const usualSmallest = 22;

function wantedText({ focusMetres, fNumber }: FocusForDepth, smallest = usualSmallest): string {
  const focus = `focus at ${distanceText(focusMetres)}`;
  return fNumber > smallest * thirdStopOfAperture
    ? `${focus}, yet down to f/${decimal(smallest)} no aperture holds it in one frame`
    : `${focus}, f/${decimal(fNumber, 1)} or smaller`;
}

function stackText(frames: readonly number[] | null, fNumber: number): string {
  const cannot = `one frame at f/${fNumber} cannot`;
  if (frames === null) return `${cannot}, and no stack reaches so near`;
  const most = 8;
  const places = frames.slice(0, most).map(distanceText).join(', ');
  return `${cannot}; **${frames.length} frames** can, focused at ${places}${frames.length > most ? ' …' : ''} (a fifth of overlap)`;
}

function airyRows({ gear }: DayShot): Rows {
  const pitch = pitchOf(gear);
  if (pitch === undefined || gear.fNumber === undefined) return [];
  const fNumber = exactFNumber(gear.fNumber);
  return [
    [
      'Airy disc',
      `\`2.44 × 0.55 × ${decimal(fNumber, 2)}\` = ${decimal(airyDiameter(fNumber), 1)} µm, ${decimal(airyPixels(fNumber, pitch), 1)} pixels of ${decimal(pitch, 2)} µm`,
    ],
  ];
}
