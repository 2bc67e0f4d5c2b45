import { timeText } from '../../exposure/time-text.ts';
import { colours, element, line, picture, words } from './svg.ts';

const width = 320;
const height = 74;
const plot = { left: 14, right: 306, bar: 34 };
const shortest = 1 / 2000;
const longest = 3600;
/** Half the width of a letter of 11 px, a little wide. */
const halfLetter = 3.1;
const ticks = [1 / 1000, 1 / 60, 1, 30, 300, 3600] as const;

/** A scale of shutter times, the times that give an effect as a bar, and the planned time as a mark on it, told in the given words. */
export function effectScale(
  effect: string,
  range: { readonly shortest: number; readonly longest: number },
  planned: { readonly seconds: number; readonly text: string } | undefined,
): string {
  const x = (seconds: number) => {
    const clamped = Math.min(Math.max(seconds, shortest), longest);
    const share = Math.log(clamped / shortest) / Math.log(longest / shortest);
    return plot.left + share * (plot.right - plot.left);
  };
  const mark = planned === undefined ? undefined : x(planned.seconds);
  const label = planned === undefined ? '' : `planned ${planned.text}`;
  const half = label.length * halfLetter;
  const parts = [
    line(plot.left, plot.bar, plot.right, plot.bar),
    element('rect', {
      x: x(range.shortest),
      y: plot.bar - 7,
      width: Math.max(x(range.longest) - x(range.shortest), 2),
      height: 14,
      rx: 3,
      fill: colours.moon,
      'fill-opacity': '0.55',
      stroke: colours.moon,
    }),
    ...ticks.flatMap((seconds) => [
      line(x(seconds), plot.bar + 8, x(seconds), plot.bar + 13),
      words(x(seconds), plot.bar + 25, timeText(seconds), seconds === 3600 ? 'end' : 'middle'),
    ]),
    ...(mark === undefined
      ? []
      : [
          element('path', {
            d: `M${mark.toFixed(1)} ${plot.bar - 10}l-6 -8h12z`,
            fill: colours.sun,
            stroke: colours.ink,
          }),
          line(mark, plot.bar - 10, mark, plot.bar + 7, { stroke: colours.sun, 'stroke-width': 2 }),
          words(mark, 12, label, mark < half ? 'start' : mark > width - half ? 'end' : 'middle'),
        ]),
  ];
  return picture(
    width,
    height,
    parts,
    `Shutter times for ${effect}: ${rangeText(range)}${label === '' ? '' : `; ${label}`}.`,
  );
}

/** `1 s to 15 s`, `up to 1/500 s`, `10 min or longer`. */
export function rangeText({
  shortest: from,
  longest: to,
}: {
  readonly shortest: number;
  readonly longest: number;
}): string {
  if (from <= 0) return `up to ${timeText(to)}`;
  return Number.isFinite(to) ? `${timeText(from)} to ${timeText(to)}` : `${timeText(from)} or longer`;
}
