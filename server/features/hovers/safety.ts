import { cautionsOf, deferring } from '../../checks/cautions.ts';
import { radians } from '../../optics/sphere.ts';
import { fieldOfView, projectToFrame } from '../../optics/view.ts';
import type { DayShot } from '../../schedule/day.ts';
import { paragraphs } from '../markdown.ts';
import { decimal } from '../numbers.ts';
import type { HoverKind } from './scene.ts';

/** From this focal length on, as on 36 × 24 mm, the sun's image is large and hot enough to harm. Common practice, no source. */
const burningMillimetres = 100;

/**
 * The caution where the sun stands in the frame of a shot or within the margin, in degrees, of its edge: by the finder,
 * by the lens, by the filters.
 */
export function sunText({ light, gear }: DayShot, marginDegrees: number): string | undefined {
  if (light?.camera === undefined || !light.sunUp) return undefined;
  const { camera, sun, sunBehindSkyline } = light;
  const view = fieldOfView(camera.focal, camera.sensor);
  const side = (angle: number) =>
    2 * camera.focal * Math.tan(radians(Math.min(angle / 2 + marginDegrees, 89)));
  const wider = {
    ...camera,
    sensor: { width: side(view.horizontalDegrees), height: side(view.verticalDegrees) },
  };
  const target = { azimuth: sun.azimuthDegrees, altitude: sun.apparentAltitudeDegrees };
  if (!projectToFrame(target, wider).inFrame) return undefined;
  const where = projectToFrame(target, camera).inFrame
    ? 'The sun stands in the frame.'
    : `The sun stands within ${decimal(marginDegrees, 1)}° of the frame.`;
  const equivalent =
    (camera.focal * Math.hypot(36, 24)) / Math.hypot(camera.sensor.width, camera.sensor.height);
  return [
    `**${where}**${sunBehindSkyline ? ' The skyline hides it yet.' : ''}`,
    finderText(gear.body?.finder?.value),
    equivalent >= burningMillimetres
      ? `At ${decimal(camera.focal)} mm it harms sensor and shutter too: keep the lens covered between frames.`
      : undefined,
    'A dark filter is never eye protection.',
  ]
    .filter((part) => part !== undefined)
    .join(' ');
}

function finderText(finder: string | undefined): string {
  if (finder === 'optical')
    return 'Never look at the sun through an optical finder, and this body has one: compose on the screen, or before the sun is there.';
  if (finder === undefined) return 'Never look at the sun through an optical finder.';
  return 'Never look at the sun with the naked eye, and keep the lens off it while you wait.';
}

/** A hazard that a spot lists: the usual caution. */
export const hazardHover: HoverKind = ({ mark }) => {
  if (mark.name !== 'hazards' || mark.section.name !== 'spot' || typeof mark.value?.value !== 'string')
    return undefined;
  return hazardsText([mark.value.value]);
};

/** The usual cautions for hazards, and who decides. */
export function hazardsText(hazards: readonly string[]): string {
  return paragraphs(
    ...cautionsOf(hazards).map((caution) => `**${caution}.**`),
    `${deferring} The usual caution, common practice; it is not complete, and it is no permission.`,
  );
}
