import { angle, sweepAngle } from './angle.ts';
import { aperture, apertureRange } from './aperture.ts';
import { bearing } from './bearing.ts';
import { bulb } from './bulb.ts';
import { clock } from './clock.ts';
import { condition } from './condition.ts';
import { coordinates } from './coordinates.ts';
import { date } from './date.ts';
import { duration } from './duration.ts';
import { focalLength, lensChoice } from './focal.ts';
import { instant } from './instant.ts';
import { distance, height, length, pixelSize, sensorSize, threadSize } from './length.ts';
import { metered } from './metered.ts';
import { moment } from './moment.ts';
import { momentRange } from './momentRange.ts';
import type { Quantity } from './quantity.ts';
import { sensitivity } from './sensitivity.ts';
import { share } from './share.ts';
import { shutter } from './shutter.ts';
import { shutterRange } from './shutterRange.ts';
import { speed } from './speed.ts';
import { exposureValue, stopStep, stops } from './stops.ts';
import { filterStrength } from './strength.ts';
import { temperature } from './temperature.ts';
import { timezone } from './timezone.ts';
import { count, flag, identifier } from './words.ts';

/**
 * Every kind of scalar of the language, for colouring, documentation and the tests that hold for all of them. Lists of
 * words that belong to one field stand in the table of fields.
 */
export const quantities: readonly Quantity<unknown>[] = [
  shutter,
  shutterRange,
  aperture,
  apertureRange,
  sensitivity,
  metered,
  stops,
  stopStep,
  exposureValue,
  filterStrength,
  focalLength,
  lensChoice,
  bulb,
  date,
  clock,
  instant,
  duration,
  moment,
  momentRange,
  condition,
  coordinates,
  bearing,
  angle,
  sweepAngle,
  length,
  distance,
  height,
  pixelSize,
  sensorSize,
  threadSize,
  speed,
  temperature,
  share,
  timezone,
  identifier,
  count,
  flag,
];
