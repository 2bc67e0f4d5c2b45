import { timeText } from '../../exposure/time-text.ts';
import { formatStops } from '../../quantities/stops.ts';
import type { DayShot } from '../../schedule/day.ts';
import { shotBracket } from '../../schedule/scene.ts';
import { paragraphs, table } from '../markdown.ts';
import { signed } from '../numbers.ts';
import { settingText } from '../wording.ts';
import { framesText } from './exposure.ts';
import type { HoverKind } from './scene.ts';

const keys: ReadonlySet<string> = new Set(['frames', 'gap']);

/** How many frames, and how long they take together; of a bracket, what is set for each. */
export const framesHover: HoverKind = ({ mark, shot }) => {
  if (shot?.exposure === undefined) return undefined;
  const onBracket = mark.section.name === 'bracket';
  if (!onBracket && !(mark.section.name === 'shot' && keys.has(mark.name))) return undefined;
  return paragraphs(onBracket ? bracketText(shot) : undefined, framesText(shot), mark.field.doc);
};

/** What is wanted and what is set for each exposure: the same list as in findings. */
function bracketText(dayShot: DayShot): string | undefined {
  const { bracket } = dayShot.shot;
  const frames = bracket?.frames?.value;
  const found = frames === undefined || frames > 15 ? undefined : shotBracket(dayShot);
  if (found === undefined) return undefined;
  return paragraphs(
    `${frames} exposures, ${formatStops(Math.abs(bracket?.step?.value ?? 1))} apart`,
    table(
      ['stops', 'wanted', 'set'],
      found.frames.map(({ offsetStops, wantedSeconds, setting }) => [
        signed(offsetStops, 1),
        timeText(wantedSeconds),
        settingText(setting),
      ]),
      ['right', 'right', 'right'],
    ),
  );
}
