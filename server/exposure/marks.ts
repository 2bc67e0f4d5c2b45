/**
 * The markings engraved on dials. A marking is the rounded name of an exact value on a geometric scale: "30" is 32 s,
 * "f/5.6" is f/5.657, "ISO 64" is 63. Sources: ISO 516 (shutter times), ISO 517 (apertures), ISO 12232 (speeds); the
 * lists themselves are custom and from memory. Makers differ in a few places (0.3 or 1/3, 0.7 or 1/1.5, 1/45 or 1/50).
 */

/** The number of positions between two full stops. */
export type StepsPerStop = 1 | 2 | 3;

/** 1, 2 or 3 steps a stop: the nearest to a step given in stops. */
export function stepsPerStop(stepStops: number): StepsPerStop {
  if (stepStops > 0.75) return 1;
  return stepStops > 5 / 12 ? 2 : 3;
}

/** The first marking of each list below stands for 2^10 s; every following one for a step less. */
export const longestMarkStops = 10;

const words = (text: string): readonly string[] => text.split(' ');

/** Shutter markings in seconds, from the longest to the shortest. */
export const shutterMarks: Readonly<Record<StepsPerStop, readonly string[]>> = {
  1: words(
    '960 480 240 120 60 30 15 8 4 2 1 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500 1/1000 1/2000 1/4000 1/8000 ' +
      '1/16000 1/32000',
  ),
  2: words(
    '960 720 480 360 240 180 120 90 60 45 30 20 15 10 8 6 4 3 2 1.5 1 0.7 1/2 0.3 1/4 1/6 1/8 1/10 1/15 1/20 1/30 ' +
      '1/45 1/60 1/90 1/125 1/180 1/250 1/350 1/500 1/750 1/1000 1/1500 1/2000 1/3000 1/4000 1/6000 1/8000 ' +
      '1/12000 1/16000 1/24000 1/32000',
  ),
  3: words(
    '960 800 640 480 400 320 240 200 160 120 100 80 60 50 40 30 25 20 15 13 10 8 6 5 4 3.2 2.5 2 1.6 1.3 1 0.8 0.6 ' +
      '0.5 0.4 0.3 1/4 1/5 1/6 1/8 1/10 1/13 1/15 1/20 1/25 1/30 1/40 1/50 1/60 1/80 1/100 1/125 1/160 1/200 1/250 ' +
      '1/320 1/400 1/500 1/640 1/800 1/1000 1/1250 1/1600 1/2000 1/2500 1/3200 1/4000 1/5000 1/6400 1/8000 ' +
      '1/10000 1/12800 1/16000 1/20000 1/25600 1/32000',
  ),
};

/** Aperture markings from f/1 to f/64; each is a step of √2^(1/n) smaller. */
export const apertureMarks: Readonly<Record<StepsPerStop, readonly string[]>> = {
  1: words('1 1.4 2 2.8 4 5.6 8 11 16 22 32 45 64'),
  2: words('1 1.2 1.4 1.7 2 2.4 2.8 3.3 4 4.8 5.6 6.7 8 9.5 11 13 16 19 22 27 32 38 45 54 64'),
  3: words(
    '1 1.1 1.2 1.4 1.6 1.8 2 2.2 2.5 2.8 3.2 3.5 4 4.5 5 5.6 6.3 7.1 8 9 10 11 13 14 16 18 20 22 25 29 32 36 40 45 ' +
      '51 57 64',
  ),
};

/** The same as numbers. */
export const apertureNumbers: Readonly<Record<StepsPerStop, readonly number[]>> = {
  1: apertureMarks[1].map(Number),
  2: apertureMarks[2].map(Number),
  3: apertureMarks[3].map(Number),
};

/** Speed markings in third stops; the first one is ISO 100 · 2^(−4). */
export const speedMarks: readonly number[] = [
  6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250,
  1600, 2000, 2500, 3200, 4000, 5000, 6400, 8000, 10000, 12800, 16000, 20000, 25600, 32000, 40000, 51200,
  64000, 80000, 102400,
];

/** The number that a marking names: "1/250" is 0.004, "f/5.6" and "5.6" are 5.6. Not a number if it is none. */
export function markedNumber(mark: string): number {
  const text = mark.startsWith('f/') ? mark.slice(2) : mark;
  const slash = text.indexOf('/');
  if (slash < 0) return Number(text);
  return Number(text.slice(0, slash)) / Number(text.slice(slash + 1));
}
