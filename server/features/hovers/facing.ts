import { darkeningStops, degreeOfPolarization, skyEvenness } from '../../optics/polarizer.ts';
import { rainbow } from '../../optics/rainbow.ts';
import { fieldOfView, subjectInFrame } from '../../optics/view.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import type { ShotLight } from '../../schedule/light.ts';
import { moonPosition } from '../../sky/bodies.ts';
import { magneticBearing } from '../../sky/declination.ts';
import { clockText } from '../localTime.ts';
import { figures, paragraphs } from '../markdown.ts';
import { altitudeText, bearingText, decimal, distanceText, signed } from '../numbers.ts';
import { planView } from '../pictures/planView.ts';
import { sunCaution } from '../wording.ts';
import type { HoverKind, Scene } from './scene.ts';
import { compassText, coordinateForms } from './sky.ts';

const keys: ReadonlySet<string> = new Set(['facing', 'tilt', 'orientation']);

/** Where the lens points, what the sun does to it, what a polarizer could do, and a plan of it all. */
export const facingHover: HoverKind = (scene) => {
  const { mark, shot, spot } = scene;
  if (shot === undefined || spot === undefined) return undefined;
  const onSubject = mark.section.name === 'subject' && mark.name === 'at';
  if (!onSubject && !(mark.section.name === 'shot' && keys.has(mark.name))) return undefined;
  const target = onSubject ? shot.shot.subject?.at?.value : undefined;
  return paragraphs(
    target === undefined ? undefined : figures(coordinateForms(target)),
    facingText(scene, spot, shot),
  );
};

/** The direction of a shot. */
export function facingText(scene: Scene, spot: DaySpot, shot: DayShot): string | undefined {
  const { facing, light } = shot;
  const { at } = spot;
  if (facing === undefined || at === undefined) return undefined;
  const declination = scene.analysis.memory.sky.declinationOf(at.place, at.date);
  const how =
    facing.source === 'subject'
      ? 'from the spot to the subject, on the ellipsoid (WGS 84)'
      : facing.declination === undefined
        ? 'as written, from true north'
        : `as written, turned by the declination of ${signed(facing.declination.degrees, 1)}°`;
  const framed = light?.sunUp === true && light.direction?.sunInFrame === true;
  return paragraphs(
    `**${bearingText(facing.degrees, 1)}** true, ${how}`,
    figures([
      [
        'on the compass',
        `${bearingText(magneticBearing(facing.degrees, declination.degrees), 1)}; ${compassText(declination)}`,
      ],
      ['tilt', facing.tiltDegrees === 0 ? 'level' : altitudeText(facing.tiltDegrees, 1)],
      ['subject', subjectText(shot)],
      ['frame', frameText(shot)],
      ...(light === undefined ? [] : lightRows(light, shot, at)),
    ]),
    framed ? `**The sun stands in the frame.** ${sunCaution}` : undefined,
    planView(at, shot),
    light === undefined
      ? 'Where the sun stands is shown once the start of the shot is known.'
      : 'Light: front-lit with the sun more than 135° from the lens axis, back-lit within 45° (common practice, no source). Sky: single Rayleigh scattering, at most 80 % polarized.',
  );
}

function subjectText({ shot, facing, gear }: DayShot): string | undefined {
  const distance = facing?.subjectDistanceMetres;
  if (distance === undefined) return undefined;
  const size = shot.subject?.height?.value;
  const { focalMillimetres, sensor } = gear;
  if (size === undefined || focalMillimetres === undefined || sensor === undefined) {
    return `${distanceText(distance)} away`;
  }
  const image = subjectInFrame({ sizeMetres: size, distanceMetres: distance }, focalMillimetres, {
    millimetres: sensor.height,
    pixels: 0,
  });
  return `${distanceText(distance)} away, ${distanceText(size)} high: \`${decimal(focalMillimetres, 0)} mm × ${decimal(size, 1)} / ${decimal(distance, 0)}\` = ${decimal(image.millimetres, 2)} mm, ${decimal(100 * image.share)} % of the frame’s height`;
}

function frameText({ gear, facing }: DayShot): string | undefined {
  const { focalMillimetres, sensor } = gear;
  if (focalMillimetres === undefined || sensor === undefined || facing === undefined) return undefined;
  const view = fieldOfView(focalMillimetres, sensor);
  const half = view.horizontalDegrees / 2;
  const level =
    facing.tiltDegrees === 0
      ? `, from ${bearingText(facing.degrees - half)} to ${bearingText(facing.degrees + half)}`
      : '';
  return `${decimal(view.horizontalDegrees, 1)}° × ${decimal(view.verticalDegrees, 1)}° at ${decimal(focalMillimetres)} mm${level}`;
}

function lightRows(
  light: ShotLight,
  shot: DayShot,
  at: NonNullable<DaySpot['at']>,
): readonly (readonly [string, string | undefined])[] {
  const { sun, sunUp, direction } = light;
  const time = clockText(light.atMs, at.clock, at.date);
  const moon = moonPosition(light.atMs, at.place);
  return [
    [
      `sun at ${time}`,
      `${bearingText(sun.azimuthDegrees, 1)}, ${altitudeText(sun.apparentAltitudeDegrees, 1)}${sunUp ? (light.sunBehindSkyline ? ', behind the skyline' : '') : ', down'}`,
    ],
    ['light', direction === undefined ? undefined : directionText(light, direction)],
    ['polarizer', polarizerText(light, shot)],
    ['rainbow', rainbowText(light)],
    [
      'moon',
      `${bearingText(moon.azimuthDegrees, 1)}, ${altitudeText(moon.apparentAltitudeDegrees, 1)}, ${decimal(100 * moon.illuminatedFraction)} % lit`,
    ],
  ];
}

function directionText(
  { sunUp, overcast }: ShotLight,
  direction: NonNullable<ShotLight['direction']>,
): string {
  const { angleFromAxisDegrees, bearingFromFacingDegrees, kind } = direction;
  const off = Math.abs(bearingFromFacingDegrees);
  const side = bearingFromFacingDegrees < 0 ? 'left' : 'right';
  const angles = `the sun is ${decimal(off, 1)}° to the ${side} on the compass, ${decimal(angleFromAxisDegrees, 1)}° from the lens axis in space`;
  if (!sunUp) return `${angles}; it is down, so the sky lights the scene`;
  return overcast ? `${angles}; overcast, so the light has no direction` : `**${kind}**: ${angles}`;
}

function polarizerText(
  { sun, sunUp, overcast, camera, cloudShare }: ShotLight,
  { facing }: DayShot,
): string | undefined {
  if (!sunUp && sun.altitudeDegrees < -6) return undefined;
  if (overcast) return 'nothing on the sky: overcast';
  const from = { azimuth: sun.azimuthDegrees, altitude: sun.apparentAltitudeDegrees };
  const clouds = cloudShare === undefined ? ', clear sky' : '';
  const evenness = camera === undefined ? null : skyEvenness(from, camera);
  if (evenness === null) {
    const strongest = darkeningStops(degreeOfPolarization(90));
    const sides = [-90, 90].map((turn) => bearingText(sun.azimuthDegrees + turn));
    return facing === undefined
      ? undefined
      : `darkens the sky most at 90° from the sun, near ${sides.join(' and ')}: about ${decimal(strongest, 1)} stops${clouds}`;
  }
  return `on the sky in the frame about ${decimal(evenness.weakestStops, 1)} to ${decimal(evenness.strongestStops, 1)} stops${clouds}, strongest towards ${bearingText(evenness.strongestAzimuth)}: uneven by about ${decimal(evenness.differenceStops, 1)} stops`;
}

function rainbowText({ sun, sunUp, overcast }: ShotLight): string | undefined {
  if (!sunUp || overcast) return undefined;
  const bow = rainbow({ azimuth: sun.azimuthDegrees, altitude: sun.apparentAltitudeDegrees });
  if (bow === null) return undefined;
  return `in rain or spray towards ${bearingText(bow.centre.azimuth)}, its top ${altitudeText(bow.topAltitude)} high (42° from the point opposite the sun)`;
}
