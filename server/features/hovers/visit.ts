import { formatDuration } from '../../quantities/duration.ts';
import type { DayShot, DaySpot } from '../../schedule/day.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { clockText } from '../localTime.ts';
import { code, figures, paragraphs } from '../markdown.ts';
import { decimal, distanceText, slackText } from '../numbers.ts';
import { settingText } from '../wording.ts';
import { exposureText, framesText } from './exposure.ts';
import { facingText } from './facing.ts';
import type { HoverKind } from './scene.ts';

/** The id or name of a spot or a shot, and the spot to go to instead: when one is there, how long it takes. */
export const visitHover: HoverKind = (scene) => {
  const { analysis, mark, spot, shot } = scene;
  const section = mark.section.name;
  if (section === 'spot' && mark.name === 'otherwise') {
    const other = analysis.day?.spots.find((candidate) => candidate.spot.id?.value === mark.value?.value);
    return other === undefined ? undefined : spotText(other);
  }
  if (mark.name !== 'id' && mark.name !== 'name') return undefined;
  if (section === 'spot' && spot !== undefined) return spotText(spot);
  if (section === 'shot' && spot !== undefined && shot !== undefined) {
    return paragraphs(
      `**${code(shot.shot.id?.value ?? 'shot')}**${timesOf(shot, spot.at)}`,
      framesText(shot),
      exposureText(scene, shot),
      facingText(scene, spot, shot),
    );
  }
  return undefined;
};

function timesOf({ startMs, endMs }: DayShot, at: SpotPlace | undefined): string {
  if (startMs === undefined || at === undefined) return '';
  const start = clockText(startMs, at.clock, at.date);
  if (endMs === undefined) return ` from ${start}`;
  const end = clockText(endMs, at.clock, at.date);
  return end === start ? ` at ${start}` : ` from ${start} to ${end}`;
}

function spotText(visit: DaySpot): string {
  const { spot, at, shots } = visit;
  const time = (instantMs: number | undefined) =>
    instantMs === undefined || at === undefined ? undefined : clockText(instantMs, at.clock, at.date);
  const slack =
    visit.arrivalStated && visit.arriveMs !== undefined && visit.earliestMs !== undefined
      ? `, ${slackText((visit.arriveMs - visit.earliestMs) / 1000)}`
      : '';
  const arrive = time(visit.arriveMs);
  return paragraphs(
    `**${code(spot.id?.value ?? 'spot')}** ${spot.name === undefined ? '' : code(spot.name.value)}`.trim(),
    figures([
      ['leave the place before by', time(visit.leaveByMs)],
      ['arrive', arrive === undefined ? undefined : `${arrive}${slack}`],
      ['ready', time(visit.readyMs)],
      ...shots.map((shot): readonly [string, string | undefined] => [
        code(shot.shot.id?.value ?? 'shot', { inTable: true }),
        `${timesOf(shot, at).trim()}${shot.exposure === undefined ? '' : `, ${shot.exposure.basis === 'expected' ? 'about ' : ''}${settingText(shot.exposure.setting)}`}`,
      ]),
      ['last frame ends', time(visit.doneMs)],
      ['back from the walk', time(visit.leaveMs)],
    ]),
  );
}

/** The way to a spot: drive, walk by Naismith's rule. */
export const wayHover: HoverKind = ({ analysis, mark, spot }) => {
  if (spot === undefined) return undefined;
  const onWay = mark.section.name === 'walk' || (mark.section.name === 'spot' && mark.name === 'drive');
  if (!onWay) return undefined;
  const { walk, driveSeconds, at } = spot;
  if (walk === undefined) return undefined;
  const factor = analysis.thresholds['walking-factor'];
  const distance = spot.spot.walk?.distance?.value ?? 0;
  const climb = spot.spot.walk?.climb?.value ?? 0;
  const rule = `${distanceText(distance)} / 5 km/h + ${decimal(climb)} m / 600 m/h`;
  const times = factor === 1 ? rule : `(${rule}) × ${decimal(factor, 2)}`;
  return paragraphs(
    figures([
      ['drive', driveSeconds === undefined || driveSeconds === 0 ? undefined : formatDuration(driveSeconds)],
      [
        'walk there',
        walk.estimated
          ? `\`${times}\` = about **${minutesText(walk.thereSeconds)}**`
          : walk.thereSeconds === 0
            ? undefined
            : `**${formatDuration(walk.thereSeconds)}**, as written`,
      ],
      ['walk back', walk.estimated ? `about ${minutesText(walk.backSeconds)}, without the climb` : undefined],
      [
        'there at the earliest',
        spot.earliestMs === undefined || at === undefined
          ? undefined
          : clockText(spot.earliestMs, at.clock, at.date),
      ],
    ]),
    walk.estimated
      ? 'Naismith’s rule (1892): 5 km an hour, and an hour for each 600 m of climb. Load, dark and wet ground take longer: set the threshold `walking-factor`.'
      : undefined,
  );
};

/** An estimate, to the minute. */
function minutesText(seconds: number): string {
  return formatDuration(Math.max(Math.round(seconds / 60), 1) * 60);
}
