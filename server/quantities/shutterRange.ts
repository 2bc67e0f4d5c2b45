import { type Quantity, type Reading, read, refused } from './quantity.ts';
import { withDots } from './range.ts';
import { Scanner, shortened } from './scan.ts';
import { type ShutterScan, scanShutter, shutter } from './shutter.ts';
import { looksLikeTime } from './spanOfTime.ts';
import { beginning } from './suggest.ts';

/** The shutter times of a dial, in seconds. */
export interface ShutterRange {
  readonly shortest: number;
  readonly longest: number;
}

const examples = ['1/8000 s .. 30 s', '1/4000 .. 30 s', '1/500 s .. 1 s', '1/8000 s .. 60 s'];

/** The shortest and the longest time that a body's dial offers. */
export const shutterRange: Quantity<ShutterRange> = {
  name: 'range of shutter times',
  documentation: 'The shortest and the longest time on the dial, without bulb.\n\n`1/8000 s .. 30 s`',
  examples,
  recognise: (text) => text.includes('..') && looksLikeTime(new Scanner(text.slice(0, text.indexOf('..')))),
  parse: parseShutterRange,
  format: (range) => `${shutter.format(range.shortest)} .. ${shutter.format(range.longest)}`,
  complete: (typed) =>
    beginning(
      typed,
      examples.map((text) => ({ text })),
    ),
};

function parseShutterRange(text: string): Reading<ShutterRange> {
  const rewritten = withDots(text, (end) => shutter.parse(end).value !== undefined);
  if (rewritten !== undefined) {
    const rewrite = parseShutterRange(rewritten).problems[0]?.rewrite ?? rewritten;
    return refused(text, `Write “..” between the two times: ${shortened(rewrite)}.`, { rewrite });
  }
  const scanner = new Scanner(text);
  const first = scanShutter(scanner);
  if (first === undefined) return scanner.unexpected('two shutter times such as 1/8000 s .. 30 s');
  if ('refusal' in first) return first.refusal;
  if (!scanner.take('..')) return scanner.unexpected('“..” and the longest time, as in 1/8000 s .. 30 s');
  const second = scanShutter(scanner);
  if (second === undefined) return scanner.unexpected('the longest time behind “..”');
  if ('refusal' in second) return second.refusal;
  if (!scanner.done) return scanner.unexpected('the end of the range');

  if (first.seconds > second.seconds) {
    const rewrite = `${written(text, second)} .. ${written(text, first)}`;
    return refused(text, `The shortest time comes first: ${shortened(rewrite)}.`, { rewrite });
  }
  return read({ shortest: first.seconds, longest: second.seconds });
}

function written(text: string, scan: Exclude<ShutterScan, { refusal: unknown }>): string {
  return text.slice(scan.span.start, scan.span.end);
}
