import { formatMoment, type Moment, moment, scanMoment } from './moment.ts';
import { completeMoment } from './momentCompletion.ts';
import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { withDots } from './range.ts';
import { Scanner, shortened } from './scan.ts';

/** From one moment to another. */
export interface MomentRange {
  readonly from: Moment;
  readonly to: Moment;
}

/** A span of the day: when a gate is open, when the water runs. */
export const momentRange: Quantity<MomentRange> = {
  name: 'range of moments',
  documentation: [
    'From one moment to another, with two points between.',
    '',
    '`06:00 .. 21:00`, `06:00 .. sunset + 1 h`, `civil dawn .. civil dusk`, `20:00 .. 02:00 next day`',
  ].join('\n'),
  examples: [
    '06:00 .. 21:00',
    '06:00 .. sunset + 1 h',
    'civil dawn .. civil dusk',
    '20:00 .. 02:00 next day',
  ],
  recognise: (text) => {
    const dots = text.indexOf('..');
    return dots > 0 && moment.recognise(text.slice(0, dots));
  },
  parse: parseRange,
  format: ({ from, to }) => `${formatMoment(from)} .. ${formatMoment(to)}`,
  complete: (typed) => {
    const dots = typed.indexOf('..');
    if (dots < 0)
      return completeMoment(typed).map(({ text, ...rest }) => ({
        ...rest,
        text: text.endsWith(' ') ? text : `${text} .. `,
      }));
    const head = typed.slice(0, dots).trimEnd();
    return completeMoment(typed.slice(dots + 2).trimStart())
      .map((suggestion) => ({ ...suggestion, text: `${head} .. ${suggestion.text}` }))
      .filter(({ text }) => text.endsWith(' ') || parseRange(text).value !== undefined);
  },
};

function parseRange(text: string): Reading<MomentRange> {
  const separated = withDots(text, (end) => moment.parse(end).value !== undefined);
  if (separated !== undefined) {
    return refused(text, `Write “..” between the two moments: ${shortened(separated)}.`, {
      rewrite: separated,
    });
  }
  const scanner = new Scanner(text);
  const from = scanMoment(scanner);
  if ('refusal' in from) return from.refusal;
  if (!scanner.take('..')) return scanner.unexpected('“..” and a second moment, as in 06:00 .. 21:00');
  const to = scanMoment(scanner);
  if ('refusal' in to) return to.refusal;
  if (!scanner.done) return scanner.unexpected('the end of the range');
  if (from.moment.kind === 'clock' && to.moment.kind === 'clock' && !isBefore(from.moment, to.moment)) {
    return endsFirst(text, from.moment, to.moment);
  }
  return read({ from: from.moment, to: to.moment });
}

type ClockMoment = Extract<Moment, { kind: 'clock' }>;

function isBefore(from: ClockMoment, to: ClockMoment): boolean {
  const seconds = ({ clock }: ClockMoment) =>
    ((clock.dayOffset * 24 + clock.hour) * 60 + clock.minute) * 60 + clock.second;
  return seconds(from) < seconds(to);
}

/** `21:00 .. 06:00`: over midnight, or the wrong way round. */
function endsFirst(text: string, from: ClockMoment, to: ClockMoment): Reading<never> {
  const overMidnight: ClockMoment = { ...to, clock: { ...to.clock, dayOffset: 1 } };
  const readings = [
    ...(isBefore(from, overMidnight) ? [momentRange.format({ from, to: overMidnight })] : []),
    ...(isBefore(to, from) ? [momentRange.format({ from: to, to: from })] : []),
  ];
  const advice = readings.length === 0 ? '' : `: write ${readings.join(' or ')}`;
  return refused(text, `The range ends before it has begun${advice}.`, {
    code: 'plan/impossible-value',
    facts: { readings },
  });
}
