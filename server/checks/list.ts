import type { Rule } from '../analysis.ts';
import { againstMeter } from './againstMeter.ts';
import { apertureBeyondLens } from './apertureBeyondLens.ts';
import { backBy } from './backBy.ts';
import { battery } from './battery.ts';
import { behindSkyline } from './behindSkyline.ts';
import { beyondDial } from './beyondDial.ts';
import { bracketBeyondDial } from './bracketBeyondDial.ts';
import { bracketGap } from './bracketGap.ts';
import { bulbLimit } from './bulbLimit.ts';
import { circle } from './circle.ts';
import { closed } from './closed.ts';
import { compassUnreliable } from './compassUnreliable.ts';
import { contact } from './contact.ts';
import { decidesLate } from './decidesLate.ts';
import { declinationOutOfDate } from './declinationOutOfDate.ts';
import { diffraction } from './diffraction.ts';
import { drifts } from './drifts.ts';
import { driveLeftOut } from './driveLeftOut.ts';
import { driveTooFast } from './driveTooFast.ts';
import { erasesRainbow } from './erasesRainbow.ts';
import { farAway } from './farAway.ts';
import { filmInDigitalBody } from './filmInDigitalBody.ts';
import { filmSpeed } from './filmSpeed.ts';
import { filmWithoutReciprocity } from './filmWithoutReciprocity.ts';
import { filterDoesNotFit } from './filterDoesNotFit.ts';
import { filterUsedTwice } from './filterUsedTwice.ts';
import { focalBeyondLens } from './focalBeyondLens.ts';
import { hardEdge } from './hardEdge.ts';
import { hazards } from './hazards.ts';
import { labelVersusMeasured } from './labelVersusMeasured.ts';
import { lateArrival } from './lateArrival.ts';
import { lateStart } from './lateStart.ts';
import { lightDiffers } from './lightDiffers.ts';
import { missingMinus } from './missingMinus.ts';
import { moonAmongStars } from './moonAmongStars.ts';
import { moreThanSlots } from './moreThanSlots.ts';
import { movesBetweenFrames } from './movesBetweenFrames.ts';
import { neverCompletes } from './neverCompletes.ts';
import { nextDay } from './nextDay.ts';
import { noAperture } from './noAperture.ts';
import { noRemoteRelease } from './noRemoteRelease.ts';
import { noStrength } from './noStrength.ts';
import { noSuchEvent } from './noSuchEvent.ts';
import { nothingToStreak } from './nothingToStreak.ts';
import { notSharp } from './notSharp.ts';
import { otherwiseHere } from './otherwiseHere.ts';
import { outlastsDeparture } from './outlastsDeparture.ts';
import { outsideRange } from './outsideRange.ts';
import { panoramaDrift } from './panoramaDrift.ts';
import { permission } from './permission.ts';
import { polarizerAgainstMirror } from './polarizerAgainstMirror.ts';
import { polarizerIdle } from './polarizerIdle.ts';
import { polarizerPanorama } from './polarizerPanorama.ts';
import { rangeTooWide } from './rangeTooWide.ts';
import { readingCodes } from './reading.ts';
import { repeatedLocalTime } from './repeatedLocalTime.ts';
import { residual } from './residual.ts';
import { reverseWithoutSun } from './reverseWithoutSun.ts';
import { severalPolarizers } from './severalPolarizers.ts';
import { severalTimes } from './severalTimes.ts';
import { shake } from './shake.ts';
import { shorterThanDial } from './shorterThanDial.ts';
import { shotsOverlap } from './shotsOverlap.ts';
import { skippedLocalTime } from './skippedLocalTime.ts';
import { staleZoneData } from './staleZoneData.ts';
import { starsTrail } from './starsTrail.ts';
import { statedDiffers } from './statedDiffers.ts';
import { streakTooLong } from './streakTooLong.ts';
import { subjectHere } from './subjectHere.ts';
import { subjectOutside } from './subjectOutside.ts';
import { sunInFrame } from './sunInFrame.ts';
import { sweepWithoutLens } from './sweepWithoutLens.ts';
import { trailGaps } from './trailGaps.ts';
import { trailsTooShort } from './trailsTooShort.ts';
import { tripodTooLow } from './tripodTooLow.ts';
import { unevenSky } from './unevenSky.ts';
import { unknownCode } from './unknownCode.ts';
import { unknownThreshold } from './unknownThreshold.ts';
import { zoneDisagrees } from './zoneDisagrees.ts';
import { zoneNearBorder } from './zoneNearBorder.ts';
import { zoomWithoutFocal } from './zoomWithoutFocal.ts';

/** Every code that a finding may have: those of reading, then one line for each rule. */
export const rules: readonly Rule[] = [
  ...readingCodes,
  noSuchEvent,
  skippedLocalTime,
  repeatedLocalTime,
  severalTimes,
  circle,
  nextDay,
  decidesLate,
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
  subjectHere,
  otherwiseHere,
  declinationOutOfDate,
  compassUnreliable,
  beyondDial,
  shorterThanDial,
  bulbLimit,
  noRemoteRelease,
  residual,
  againstMeter,
  noAperture,
  filmWithoutReciprocity,
  filmInDigitalBody,
  filmSpeed,
  battery,
  labelVersusMeasured,
  noStrength,
  apertureBeyondLens,
  focalBeyondLens,
  zoomWithoutFocal,
  filterDoesNotFit,
  filterUsedTwice,
  moreThanSlots,
  polarizerIdle,
  unevenSky,
  polarizerAgainstMirror,
  severalPolarizers,
  unknownCode(() => rules.map(({ code }) => code)),
  unknownThreshold,
  permission,
  contact,
  backBy,
  hazards,
  lightDiffers,
  statedDiffers,
  behindSkyline,
  moonAmongStars,
  drifts,
  neverCompletes,
  panoramaDrift,
  bracketGap,
  bracketBeyondDial,
  rangeTooWide,
  hardEdge,
  reverseWithoutSun,
  polarizerPanorama,
  erasesRainbow,
  outsideRange,
  streakTooLong,
  starsTrail,
  trailsTooShort,
  trailGaps,
  nothingToStreak,
  movesBetweenFrames,
  subjectOutside,
  notSharp,
  diffraction,
  shake,
  tripodTooLow,
  sweepWithoutLens,
  sunInFrame,
];
