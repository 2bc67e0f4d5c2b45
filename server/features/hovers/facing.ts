import { rainbow } from '../../optics/rainbow.ts';
import { fieldOfView } from '../../optics/view.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import type { ShotLight } from '../../schedule/light.ts';
import type { Memory } from '../../schedule/memory.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { moonDuring, type Stretch, shotMoon } from '../../schedule/stars.ts';
import { magneticBearing } from '../../sky/declination.ts';
import { lightText } from '../lightText.ts';
import { clockText } from '../localTime.ts';
import { figures, paragraphs } from '../markdown.ts';
import { altitudeText, bearingText, decimal, signed } from '../numbers.ts';
import { planView } from '../pictures/planView.ts';
import { skyText } from './polarizer.ts';
import { sunText } from './safety.ts';
import type { HoverKind, Scene } from './scene.ts';
import { compassText, coordinateForms } from './sky.ts';
import { subjectRows } from './subject.ts';

const onSubjectKeys: ReadonlySet<string> = new Set(['at', 'height', 'distance', 'elevation']);
const keys: ReadonlySet<string> = new Set(['facing', 'tilt', 'orientation']);

/** Where the lens points, what the sun does to it, what a polarizer could do, and a plan of it all. */
export const facingHover: HoverKind = (scene) => {
  const { mark, shot, spot } = scene;
  if (shot === undefined || spot === undefined) return undefined;
  const onSubject = mark.section.name === 'subject' && onSubjectKeys.has(mark.name);
  if (!onSubject && !(mark.section.name === 'shot' && keys.has(mark.name))) return undefined;
  const target = onSubject && mark.name === 'at' ? shot.shot.subject?.at?.value : undefined;
  return paragraphs(
    onSubject ? figures(subjectRows(scene, spot, shot)) : undefined,
    facingText(scene, spot, shot, { subject: !onSubject }),
    target === undefined ? undefined : figures(coordinateForms(target)),
  );
};

/** The direction of a shot. */
export function facingText(
  scene: Pick<Scene, 'analysis'>,
  spot: DaySpot,
  shot: DayShot,
  show: { readonly subject: boolean } = { subject: true },
): string | undefined {
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
  return paragraphs(
    `**${bearingText(facing.degrees, 1)}** true, ${how}${light === undefined ? '' : `. At ${clockText(light.atMs, at.clock, at.date)} **${lightText(light, at)}**`}.`,
    sunText({ analysis: scene.analysis, spot }, shot),
    planView(at, shot),
    figures([
      [
        'on the compass',
        `${bearingText(magneticBearing(facing.degrees, declination.degrees), 1)}; ${compassText(declination)}`,
      ],
      ['tilt', facing.tiltDegrees === 0 ? 'level' : altitudeText(facing.tiltDegrees, 1)],
      ...(show.subject ? subjectRows(scene, spot, shot) : []),
      ['frame', frameText(shot)],
      ...(light === undefined ? [] : lightRows(scene, light, shot, at)),
    ]),
    light === undefined
      ? 'Where the sun stands is shown once the start of the shot is known.'
      : 'Light: front-lit with the sun more than 135° from the lens axis, back-lit within 45° (common practice, no source). Sky: single Rayleigh scattering, at most 80 % polarized.',
  );
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
  { analysis }: Pick<Scene, 'analysis'>,
  light: ShotLight,
  shot: DayShot,
  at: SpotPlace,
): readonly (readonly [string, string | undefined])[] {
  const { sun, sunUp, direction } = light;
  const time = clockText(light.atMs, at.clock, at.date);
  return [
    [
      `sun at ${time}`,
      `${bearingText(sun.azimuthDegrees, 1)}, ${altitudeText(sun.apparentAltitudeDegrees, 1)}${sunUp ? (light.sunBehindSkyline ? ', behind the skyline' : '') : ', down'}`,
    ],
    ['light', direction === undefined ? undefined : directionText(light, direction)],
    ['polarizer', skyText(light)],
    ['rainbow', rainbowText(light)],
    ['moon', moonText(shot, at, analysis.memory.sky)],
  ];
}

/** Where the moon stands when the shot begins, and when frame or land have it while the shot lasts. */
function moonText(shot: DayShot, at: SpotPlace, memory: Memory): string | undefined {
  const moon = shotMoon(shot, at);
  const during = moonDuring(shot, at, memory);
  if (moon === undefined || during === undefined) return undefined;
  const { up, behindSkyline, illuminatedFraction } = moon;
  const now = up ? (behindSkyline ? ', behind the skyline' : '') : ', down';
  const framed = during.inFrame === undefined ? '' : `, ${framedText(during.inFrame, shot, at)}`;
  return `${bearingText(moon.azimuthDegrees, 1)}, ${altitudeText(moon.apparentAltitudeDegrees, 1)}${now}${framed}, ${decimal(100 * illuminatedFraction)} % lit`;
}

/** `in the frame`, and from when until when if that is not all through the shot. */
function framedText({ fromMs, toMs }: Stretch, { startMs, endMs }: DayShot, at: SpotPlace): string {
  const from = fromMs === startMs ? '' : ` from ${clockText(fromMs, at.clock, at.date)}`;
  const until = endMs === undefined || toMs >= endMs ? '' : ` until ${clockText(toMs, at.clock, at.date)}`;
  return `**in the frame**${from}${until}`;
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

function rainbowText({ sun, sunUp, overcast }: ShotLight): string | undefined {
  if (!sunUp || overcast) return undefined;
  const bow = rainbow({ azimuth: sun.azimuthDegrees, altitude: sun.apparentAltitudeDegrees });
  if (bow === null) return undefined;
  return `in rain or spray towards ${bearingText(bow.centre.azimuth)}, its top ${altitudeText(bow.topAltitude)} high (42° from the point opposite the sun)`;
}
