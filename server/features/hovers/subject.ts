import type { DayShot, DaySpot } from '../../schedule/day.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { bodiesBehind, type Passage, type SubjectView, subjectView } from '../../schedule/subject.ts';
import { clockText } from '../localTime.ts';
import { altitudeText, bearingText, decimal, distanceText } from '../numbers.ts';
import type { Scene } from './scene.ts';

type Rows = readonly (readonly [string, string | undefined])[];

/** The subject of a shot: where it stands, how large it comes out, whether it is in the frame, when sun and moon are in line. */
export function subjectRows(
  { analysis }: Pick<Scene, 'analysis'>,
  { spot, at }: DaySpot,
  shot: DayShot,
): Rows {
  if (at === undefined) return [];
  const view = subjectView(shot, spot, at, analysis.memory.sky);
  if (view === undefined) return [];
  const passages = bodiesBehind(view, at, analysis.memory.sky);
  return [
    ['subject', placeText(view)],
    ['its height', heightText(view)],
    ['its size', sizeText(view, shot)],
    ['in the frame', frameText(view)],
    [
      'in line with it',
      passages.length === 0 ? undefined : passages.map((each) => passageText(each, view, at)).join('; '),
    ],
  ];
}

function placeText({ bearingDegrees, distanceMetres }: SubjectView): string {
  const bearing = bearingDegrees === undefined ? '' : ` towards ${bearingText(bearingDegrees, 1)} true`;
  return `${distanceText(distanceMetres)} away${bearing}`;
}

function heightText({ footDegrees, topDegrees, elevationsKnown }: SubjectView): string | undefined {
  if (topDegrees === undefined && !elevationsKnown) return undefined;
  const level = elevationsKnown ? '' : ', its foot taken as level with the camera';
  return topDegrees === undefined
    ? `foot at ${altitudeText(footDegrees, 1)}`
    : `from ${altitudeText(footDegrees, 1)} to ${altitudeText(topDegrees, 1)}${level}`;
}

function sizeText({ size, distanceMetres }: SubjectView, { shot, gear }: DayShot): string | undefined {
  const height = shot.subject?.height?.value;
  if (size === undefined || height === undefined || gear.focalMillimetres === undefined) return undefined;
  return `\`${decimal(gear.focalMillimetres)} mm × ${decimal(height, 1)} m / ${decimal(distanceMetres)} m\` = ${decimal(size.millimetres, 2)} mm, ${decimal(size.pixels)} pixels, ${decimal(100 * size.share)} % of the frame’s height`;
}

function frameText({ inFrame, point }: SubjectView): string | undefined {
  if (inFrame === undefined) return undefined;
  if (point === undefined || point === null) return '**no**: it lies beside or behind the camera';
  const across = offText(point.x, 'width', 'left of', 'right of');
  const up = offText(point.y, 'height', 'below', 'above');
  const where = [across, up].filter((part) => part !== undefined);
  return `${inFrame ? 'yes' : '**no**'}: ${where.length === 0 ? 'in the middle' : `${where.join(' and ')} the middle`}`;
}

/** How far off the middle, in shares of a side; undefined for less than half a hundredth. */
function offText(share: number, side: string, below: string, above: string): string | undefined {
  const percent = decimal(Math.abs(100 * share));
  return percent === '0' ? undefined : `${percent} % of the ${side} ${share < 0 ? below : above}`;
}

/** A body in the direction of the subject: behind the subject itself, or above or below it in the sky. */
function passageText(
  { body, atMs, altitudeDegrees, behind }: Passage,
  { footDegrees }: SubjectView,
  at: SpotPlace,
): string {
  const where = behind ? '**behind it**' : altitudeDegrees < footDegrees ? 'below its foot' : 'above it';
  return `${body} ${where} at ${clockText(atMs, at.clock, at.date)}, ${altitudeText(altitudeDegrees, 1)}`;
}
