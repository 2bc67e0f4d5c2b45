import {
  cloudedPolarization,
  darkeningStops,
  degreeOfPolarization,
  skyEvenness,
} from '../../optics/polarizer.ts';
import { rainbow } from '../../optics/rainbow.ts';
import { brewsterDegrees, fresnel, type PolarizedReflection, waterInFrame } from '../../optics/water.ts';
import type { DayShot } from '../../schedule/day.ts';
import type { ShotLight } from '../../schedule/light.ts';
import { figures, paragraphs } from '../markdown.ts';
import { bearingText, decimal } from '../numbers.ts';

/** What a polarizer does in one shot: to the sky, to the water, to a rainbow. Undefined while the light is not known. */
export function polarizerText({ light }: DayShot): string | undefined {
  if (light === undefined) return undefined;
  const best = 90 - brewsterDegrees();
  const water = light.camera === undefined ? null : waterInFrame(light.camera);
  return paragraphs(
    figures([
      ['sky', skyText(light)],
      ['on water, bottom edge', water === null ? undefined : reflectionText(water.nearest)],
      ['on the lens axis', water === null || water.axis === null ? undefined : reflectionText(water.axis)],
      ['at the far edge', water === null ? undefined : reflectionText(water.farthest)],
      ['best', `${decimal(best, 1)}° between line of sight and surface: \`90° − atan 1.333\``],
      ['rainbow', bowText(light)],
    ]),
    `Glare on wet rock and leaves follows the same law${light.overcast ? ', under cloud too' : ''}. Fresnel for n = 1.333, flat water (E. Hecht, Optics); sky by single Rayleigh scattering, at most 80 % polarized (K. L. Coulson), less by the share of cloud: common practice.`,
  );
}

/** How the filter darkens the sky: within the frame where that is known. */
export function skyText({ sun, sunUp, overcast, camera, cloudShare }: ShotLight): string | undefined {
  if (!sunUp && sun.altitudeDegrees < -6) return undefined;
  if (overcast) return 'nothing on the sky: overcast';
  const from = { azimuth: sun.azimuthDegrees, altitude: sun.apparentAltitudeDegrees };
  const clouds =
    cloudShare === undefined ? ', clear sky' : `, ${decimal(100 * cloudShare)} % cloud counted off`;
  const strength = cloudedPolarization(cloudShare);
  const evenness = camera === undefined ? null : skyEvenness(from, camera, strength);
  if (evenness === null) {
    const strongest = darkeningStops(degreeOfPolarization(90, strength));
    const sides = [-90, 90].map((turn) => bearingText(sun.azimuthDegrees + turn));
    return `darkens the sky most at 90° from the sun, near ${sides.join(' and ')}: about ${decimal(strongest, 1)} stops${clouds}`;
  }
  if (evenness.strongestStops < 0.05) return 'nothing on the sky in the frame';
  const range =
    evenness.weakestStops > -0.05
      ? `about ${decimal(Math.abs(evenness.weakestStops), 1)} to ${decimal(evenness.strongestStops, 1)} stops`
      : `from about ${decimal(evenness.strongestStops, 1)} darker to ${decimal(-evenness.weakestStops, 1)} brighter, in stops`;
  return `on the sky in the frame ${range}${clouds}, strongest towards ${bearingText(evenness.strongestAzimuth)}: uneven by about ${decimal(evenness.differenceStops, 1)} stops`;
}

/** More than this is the end of a reflection for any eye. */
const allStops = 6;

function reflectionText({ grazingDegrees, removableStops }: PolarizedReflection): string {
  const { s, p } = fresnel(90 - grazingDegrees);
  const takes =
    removableStops > allStops
      ? 'takes away nearly all of the reflection'
      : removableStops < 0.05
        ? 'takes away nothing of the reflection'
        : `takes up to ${decimal(removableStops, 1)} ${removableStops < 1.05 ? 'stop' : 'stops'} of the reflection`;
  return `${decimal(grazingDegrees, 1)}° to the surface: reflects s ${decimal(100 * s, 1)} %, p ${decimal(100 * p, 1)} %; ${takes}`;
}

function bowText({ sun, sunUp, overcast }: ShotLight): string | undefined {
  if (!sunUp || overcast) return undefined;
  const bow = rainbow({ azimuth: sun.azimuthDegrees, altitude: sun.apparentAltitudeDegrees });
  if (bow === null) return undefined;
  return `towards ${bearingText(bow.centre.azimuth)} if there is rain or spray: its light is polarized, so the filter can erase it; turn it the other way to keep it`;
}
