import { bracket } from '../../exposure/bracket.ts';
import { timeText } from '../../exposure/time-text.ts';
import { formatStops } from '../../quantities/stops.ts';
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

function bracketText({
  shot,
  gear,
  exposure,
}: NonNullable<Parameters<HoverKind>[0]['shot']>): string | undefined {
  const frames = shot.bracket?.frames?.value;
  if (frames === undefined || exposure === undefined || frames > 15) return undefined;
  const stepStops = Math.abs(shot.bracket?.step?.value ?? 1);
  const middleSeconds = exposure.filtered?.correctedSeconds ?? exposure.setting.seconds;
  const found = bracket({
    middleSeconds,
    frames,
    stepStops,
    dial: gear.dial,
    ...(gear.bulb === undefined ? {} : { bulb: gear.bulb }),
  });
  return paragraphs(
    `${frames} exposures, ${formatStops(stepStops)} apart`,
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
