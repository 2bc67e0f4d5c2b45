import { type Quantity, type Reading, read, refused } from './quantity.ts';
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
  const scanner = new Scanner(text);
  const first = scanShutter(scanner);
  if (first === undefined) return scanner.unexpected('two shutter times such as 1/8000 s .. 30 s');
  if ('refusal' in first) return first.refusal;
  const dots = scanner.take('..');
  if (!dots && !takeOtherSeparator(scanner)) {
    return scanner.unexpected('“..” and the longest time, as in 1/8000 s .. 30 s');
  }
  const second = scanShutter(scanner);
  if (second === undefined) return scanner.unexpected('the longest time behind “..”');
  if ('refusal' in second) return second.refusal;
  if (!scanner.done) return scanner.unexpected('the end of the range');

  const [from, to] = [written(text, first), written(text, second)];
  if (first.seconds > second.seconds) {
    const rewrite = `${to} .. ${from}`;
    return refused(text, `The shortest time comes first: ${shortened(rewrite)}.`, { rewrite });
  }
  if (!dots) {
    const rewrite = `${from} .. ${to}`;
    return refused(text, `Write “..” between the two times: ${shortened(rewrite)}.`, { rewrite });
  }
  return read({ shortest: first.seconds, longest: second.seconds });
}

/** What a range is often written with; it is understood well enough to offer the rewrite. */
function takeOtherSeparator(scanner: Scanner): boolean {
  return scanner.take('to ') || scanner.takeAny('-\u2010\u2011\u2012\u2013\u2014\u2026~') !== undefined;
}

function written(text: string, scan: Exclude<ShutterScan, { refusal: unknown }>): string {
  return text.slice(scan.span.start, scan.span.end);
}
