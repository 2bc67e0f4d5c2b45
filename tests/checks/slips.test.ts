import { describe, expect, test } from 'vitest';
import { analysed, check, smallKit } from '../support/check.ts';
import { planWithShot } from '../support/plan.ts';

describe('plan/otherwise-here', () => {
  const only = ['plan/'];
  const spots = (otherwise: string, second = '') => `plan: A day
date: 2027-03-20
timezone: Europe/London
spots:
  - id: steps
    at: 54.4301, -2.6102
    decide: 05:00
${otherwise}
${second}`;
  const second = '  - id: weir\n    at: 54.4102, -2.6307\n';

  test('a spot is no place to go to instead of itself', () => {
    const here = `    otherwise: steps
    #          ^^^^^ warning plan/otherwise-here: such as weir`;
    check(spots(here, second), { only });
    const alone = `    otherwise: steps
    #          ^^^^^ warning plan/otherwise-here: no other spot yet`;
    check(spots(alone), { only });
  });

  test('another one is', () => {
    check(spots('    otherwise: weir', second), { only });
  });
});

describe('exposure/film-speed', () => {
  const only = ['exposure/film-speed'];
  const kit = smallKit({
    bodies: ['{ id: folding, film: yes, sensor: 36 x 24 mm, shutter: 1/500 s .. 1 s, bulb: unlimited }'],
    film: [
      '{ id: pan, iso: 50, reciprocity: { exponent: 1.3 } }',
      '{ id: any, reciprocity: { exponent: 1.3 } }',
    ],
  });
  const shot = (lines: string) => planWithShot(`        metered: 1/30 s @ f/11\n${lines}`);

  test('another speed than the film’s is told, and which counts', () => {
    // From ISO 50 to ISO 100 is half the light (ISO 2720: t ∝ 1/S).
    const faster = shot(`        film: pan
        iso: 100
        #    ^^^ hint exposure/film-speed: ISO 100 counts here, not the ISO 50 of pan: the film gets 1 stop less light
`);
    check(faster, { only, kit });
    const slower = shot(`        film: pan
        iso: 25
        #    ^^ hint exposure/film-speed: 1 stop more light
`);
    check(slower, { only, kit });
  });

  test('the speed that counts is the one of the shot', () => {
    const { day } = analysed(shot('        film: pan\n        iso: 100\n'), { kit });
    expect(day?.shots[0]?.gear.iso).toBe(100);
    const { day: without } = analysed(shot('        film: pan\n'), { kit });
    expect(without?.shots[0]?.gear.iso).toBe(50);
  });

  test('the same speed, none, or no film says nothing', () => {
    check(shot('        film: pan\n        iso: 50\n'), { only, kit });
    check(shot('        film: pan\n'), { only, kit });
    check(shot('        film: any\n        iso: 100\n'), { only, kit });
    check(shot('        iso: 100\n'), { only, kit });
  });
});
