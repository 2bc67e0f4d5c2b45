import { usualDial } from '../../exposure/dial.ts';
import { type LadderOptions, ladder } from '../../exposure/ladder.ts';
import { timeText } from '../../exposure/time-text.ts';
import type { ShotExposure } from '../../schedule/frames.ts';
import { table } from '../markdown.ts';
import { settingText } from '../wording.ts';

/** Whole stops two either way: one look on the spot. */
export const wholeStops: LadderOptions = { fromStops: -2, toStops: 2, stepStops: 1 };

/** Third stops one either way: what a meter can read next to the planned value. */
export const thirdStops: LadderOptions = { fromStops: -1, toStops: 1, stepStops: 1 / 3 };

/** What to set if the meter, on the spot, says something else than planned. Undefined where no filter stands between. */
export function ladderTable({ input, filtered }: ShotExposure, steps: LadderOptions): string | undefined {
  if (input === undefined || filtered === undefined || input.stops === 0) return undefined;
  const longest = (input.dial ?? usualDial()).longest.seconds;
  return table(
    ['if the meter says', 'set', 'exactly'],
    ladder(input, steps).map(({ offsetStops, meteredSeconds, meteredLabel, filtered: rung }) => {
      // Beyond the dial a meter shows the time itself; a sixth of a stop off is still the dial's last marking.
      const reading =
        meteredSeconds > longest * 2 ** (1 / 6)
          ? timeText(meteredSeconds)
          : meteredLabel.replace(/^0\.5 s$/, '1/2 s');
      const cells = [reading, settingText(rung.setting), timeText(rung.correctedSeconds)];
      return Math.abs(offsetStops) < 1e-9 ? cells.map((cell) => `**${cell}**`) : cells;
    }),
    ['right', 'right', 'right'],
  );
}
