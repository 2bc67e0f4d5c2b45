import type { Rule } from '../analysis.ts';
import { circle } from './circle.ts';
import { closed } from './closed.ts';
import { compassUnreliable } from './compassUnreliable.ts';
import { declinationOutOfDate } from './declinationOutOfDate.ts';
import { driveLeftOut } from './driveLeftOut.ts';
import { driveTooFast } from './driveTooFast.ts';
import { farAway } from './farAway.ts';
import { lateArrival } from './lateArrival.ts';
import { lateStart } from './lateStart.ts';
import { missingMinus } from './missingMinus.ts';
import { nextDay } from './nextDay.ts';
import { noSuchEvent } from './noSuchEvent.ts';
import { outlastsDeparture } from './outlastsDeparture.ts';
import { readingCodes } from './reading.ts';
import { repeatedLocalTime } from './repeatedLocalTime.ts';
import { severalTimes } from './severalTimes.ts';
import { shotsOverlap } from './shotsOverlap.ts';
import { skippedLocalTime } from './skippedLocalTime.ts';
import { staleZoneData } from './staleZoneData.ts';
import { zoneDisagrees } from './zoneDisagrees.ts';
import { zoneNearBorder } from './zoneNearBorder.ts';

/** Every code that a finding may have: those of reading, then one line for each rule. */
export const rules: readonly Rule[] = [
  ...readingCodes,
  noSuchEvent,
  skippedLocalTime,
  repeatedLocalTime,
  severalTimes,
  circle,
  nextDay,
  lateArrival,
  lateStart,
  shotsOverlap,
  outlastsDeparture,
  closed,
  driveTooFast,
  driveLeftOut,
  zoneDisagrees,
  zoneNearBorder,
  staleZoneData,
  missingMinus,
  farAway,
  declinationOutOfDate,
  compassUnreliable,
];
