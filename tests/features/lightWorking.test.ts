import { describe, expect, test } from 'vitest';
import { hover } from '../../server/features/hover.ts';
import { lightWorking } from '../../server/features/hovers/light.ts';
import { expectedLight } from '../../server/sky/light.ts';
import { skyline } from '../../server/sky/skyline.ts';
import { caret } from '../support/marked.ts';
import { analysePlan, demoPlan } from './demo.ts';

/** The cells of a row of the working, by its first. */
function row(markdown: string, name: string): { readonly working: string; readonly result: string } {
  const line = markdown.split('\n').find((text) => text.startsWith(`| ${name} |`));
  if (line === undefined) throw new Error(`There is no row “${name}” in\n${markdown}`);
  const [, , working = '', result = ''] = line.split(' | ').join('|').split('|');
  return { working, result: result.trim() };
}

/** Without the blanks that only keep columns apart. */
function plainly(markdown: string): string {
  return markdown.replaceAll('&ensp;', '');
}

/** The first number of a text. */
function amount(text: string): number {
  return Number(/−?\d+(\.\d+)?/.exec(text)?.[0].replace('−', '-'));
}

const superscripts = new Map([...'⁰¹²³⁴⁵⁶⁷⁸⁹⁻'].map((mark, place) => [mark, '0123456789-'[place] ?? '']));

/**
 * Works a formula out as a reader with a pocket calculator would: + − × / and powers, brackets, √, log2, sin of degrees;
 * letters stand for the given numbers. Written for the test, so that it shares nothing with the program.
 */
function byHand(formula: string, given: Readonly<Record<string, number>> = {}): number {
  const plain = formula
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+/g, (marks) => `^(${[...marks].map((mark) => superscripts.get(mark)).join('')})`)
    .replaceAll('−', '-');
  let at = 0;
  const skip = () => {
    while (plain[at] === ' ') at += 1;
  };
  const take = (text: string) => {
    skip();
    if (!plain.startsWith(text, at)) return false;
    at += text.length;
    return true;
  };
  const sum = (): number => {
    let value = product();
    for (;;) {
      if (take('+')) value += product();
      else if (take('-')) value -= product();
      else return value;
    }
  };
  const product = (): number => {
    let value = signed();
    for (;;) {
      if (take('×')) value *= signed();
      else if (take('/')) value /= signed();
      else {
        skip();
        // `22.26x`: no sign between is a product.
        if (!/[a-z]/.test(plain[at] ?? '')) return value;
        value *= power();
      }
    }
  };
  const signed = (): number => (take('-') ? -signed() : power());
  const power = (): number => {
    const base = single();
    return take('^') ? base ** signed() : base;
  };
  const single = (): number => {
    if (take('√(')) return Math.sqrt(closed());
    if (take('log2(')) return Math.log2(closed());
    if (take('log2 ')) return Math.log2(power());
    if (take('sin ')) {
      const degrees = single();
      take('°');
      return Math.sin((degrees * Math.PI) / 180);
    }
    if (take('(')) return closed();
    skip();
    const [text = ''] = /^\d+(\.\d+)?|^[a-z]/.exec(plain.slice(at)) ?? [];
    if (text === '') throw new Error(`Cannot read “${plain.slice(at)}” of “${formula}”.`);
    at += text.length;
    const value = text === 'e' ? Math.E : (given[text] ?? Number(text));
    if (Number.isNaN(value)) throw new Error(`“${text}” of “${formula}” is not given.`);
    return value;
  };
  const closed = (): number => {
    const value = sum();
    if (!take(')')) throw new Error(`A bracket stays open in “${formula}”.`);
    return value;
  };
  const value = sum();
  skip();
  if (at < plain.length) throw new Error(`“${plain.slice(at)}” is left of “${formula}”.`);
  return value;
}

const codes = (text: string) => [...text.matchAll(/`([^`]*)`/g)].map(([, code = '']) => code);

/** Lux of the table by the formulas in a cell: x, then one polynomial or two. */
function tableLux(working: string): number {
  const formulas = codes(working);
  const [, of = '', x = ''] = /^x = (.*) = (.*)$/.exec(formulas[0] ?? '') ?? [];
  expect(byHand(of)).toBeCloseTo(byHand(x), 5);
  const given: Record<string, number> = { x: byHand(x) };
  for (const formula of formulas.slice(1)) {
    const [, letter = '', polynomial = ''] = /^([pq]) = (.*)$/.exec(formula) ?? [];
    if (letter !== '') given[letter] = byHand(polynomial, given);
  }
  return byHand(formulas.find((formula) => formula.startsWith('10^')) ?? '', given);
}

const place = { latitude: 54.43, longitude: -2.61 };
const wall = skyline([{ azimuthDegrees: 0, altitudeDegrees: 60 }]);
const at = (...time: readonly [day: number, hour: number, minute?: number, second?: number]) => {
  const [day, hour, minute = 0, second = 0] = time;
  return Date.UTC(2027, 2, day, hour, minute, second);
};

const situations = {
  'at dawn, clouds not known': { instantMs: at(20, 6, 24) },
  'at noon behind a wall, half covered': { instantMs: at(20, 12, 15), cloudShare: 0.5, skyline: wall },
  'at noon behind a wall, clouds not known': { instantMs: at(20, 12, 15), skyline: wall },
  'on a seam of the table, 7/8 covered': { instantMs: at(20, 6, 13, 45), cloudShare: 0.875 },
  'in twilight under 90 %, with a moon': { instantMs: at(20, 18, 55), cloudShare: 0.9 },
  'by the full moon': { instantMs: at(22, 0), cloudShare: 0.1 },
  'by a moon that the land hides': { instantMs: at(22, 0), skyline: wall },
  'on a moonless night': { instantMs: at(8, 0) },
};

describe.each(Object.entries(situations))('expected light %s', (_, situation) => {
  const light = expectedLight({ place, ...situation });
  const text = plainly(lightWorking(light));
  const sun = row(text, light.parts.sunAltitudeDegrees < -18 ? 'night sky' : 'sun and sky');

  test('sun and sky: the table at the altitude without refraction', () => {
    expect(amount(sun.working)).toBeCloseTo(light.parts.sunAltitudeDegrees, 1);
    expect(tableLux(sun.working) / amount(sun.result)).toBeCloseTo(1, 2);
    expect(amount(sun.result) / light.parts.clearLux).toBeCloseTo(1, 3);
  });

  test('clouds: 1 − 0.75 N^3.4, or half way in stops between 1 and a quarter', () => {
    const clouds = row(text, 'clouds');
    expect(byHand(codes(clouds.working)[0] ?? '')).toBeCloseTo(amount(clouds.result), 4);
  });

  test('sun, clouds, land and moon add up to the light on level ground, and that to the exposure value', () => {
    const sum = row(text, 'level ground');
    const terms = codes(sum.working)[0] ?? '';
    expect(terms.startsWith(`${amount(sun.result)} × ${amount(row(text, 'clouds').result)}`)).toBe(true);
    expect(byHand(terms) / amount(sum.result)).toBeCloseTo(1, 2);
    expect(amount(sum.result) / light.lux).toBeCloseTo(1, 3);
    const ev = row(text, 'EV at ISO 100');
    expect(codes(ev.working)[0]).toBe(`log2(${amount(sum.result)} / 2.5)`);
    expect(byHand(codes(ev.working)[0] ?? '')).toBeCloseTo(amount(ev.result), 2);
  });

  test('the ±: each cause by its formula, and the root of the sum of squares', () => {
    const spread = row(text, '±');
    const [squares = ''] = codes(spread.working);
    expect(Math.abs(byHand(squares) - amount(spread.result))).toBeLessThan(0.011);
    const causes = spread.working.slice(spread.working.indexOf(': ') + 2).split(/; (?=clouds|shade)/);
    expect(causes).toHaveLength(squares.split(' + ').length);
    causes.forEach((cause, index) => {
      const stated = Number(cause.split(' = ').at(-1));
      expect(squares.replace(/^√\(|\)$/g, '').split(' + ')[index]).toBe(`${stated.toFixed(2)}²`);
      const formula = codes(cause).at(-1);
      if (formula !== undefined) expect(Math.abs(byHand(formula) - stated)).toBeLessThan(0.011);
    });
    expect(amount(spread.result)).toBeCloseTo(light.spreadStops, 2);
  });

  test('what the land takes of the sun, and what the moon gives', () => {
    const shaded = light.parts.sunBehindSkyline && light.parts.clearLux > 100;
    expect(text.includes('| skyline |')).toBe(shaded);
    if (shaded) {
      const land = row(text, 'skyline');
      const formulas = codes(land.working);
      const letters = formulas.slice(1, 3).map((formula) => formula.split(' = '));
      const given = Object.fromEntries(letters.map(([letter = '', of = '']) => [letter, byHand(of)]));
      expect(byHand(formulas[0] ?? '', given)).toBeCloseTo(amount(land.working), 3);
      expect(byHand(formulas[3] ?? '') / amount(land.result.replace('− ', ''))).toBeCloseTo(1, 2);
    }
    const dark = light.parts.sunAltitudeDegrees < -2;
    expect(text.includes('| moon |')).toBe(dark);
    if (light.parts.moonLux > 0) {
      const moon = row(text, 'moon');
      const near = (codes(moon.working).at(-1) ?? '').replace('× ', '');
      expect((tableLux(moon.working) * byHand(near)) / amount(moon.result)).toBeCloseTo(1, 1);
      expect(amount(moon.result) / light.parts.moonLux).toBeCloseTo(1, 3);
    } else if (dark) expect(row(text, 'moon').result).toBe('+ 0 lx');
  });

  test('what the sky sends alone, where that is asked for', () => {
    expect(text).not.toContain('| from the sky |');
    const whole = plainly(lightWorking(light, { skyPart: true }));
    const sky = row(whole, 'from the sky');
    expect(byHand(codes(sky.working).at(-1) ?? '') / amount(sky.result)).toBeCloseTo(1, 2);
    expect(amount(sky.result) / light.parts.skyLux).toBeCloseTo(1, 3);
  });

  test('the sources', () => {
    expect(text).toContain('Explanatory Supplement to the Astronomical Almanac (1992), section 9.3');
    expect(text).toContain('Kasten and Czeplak, Solar Energy 24 (1980)');
    expect(text).toContain('ISO 2720, incident light, C = 250');
    expect(text.includes('IES RP-21 (1984), from memory')).toBe(text.includes('| skyline |'));
  });
});

test('the sun at −6°, clear: 10^(2.70 − 0.8113 − 1.9186 + 0.5629) = 3.41 lx, EV 0.45', () => {
  // The same source, worked by hand at x = −6/90: 12.17x = −0.8113, −431.69x² = −1.9186, −1899.83x³ = +0.5629.
  // AMS Glossary of Meteorology: 3.5 to 2 lux at −6°.
  expect(10 ** (2.7 - 0.8113 - 1.9186 + 0.5629)).toBeCloseTo(3.41, 2);
  const find = (low: number, high: number): number => {
    const middle = Math.round((low + high) / 2);
    if (high - low < 100) return middle;
    const { sunAltitudeDegrees } = expectedLight({ place, instantMs: middle }).parts;
    return sunAltitudeDegrees < -6 ? find(middle, high) : find(low, middle);
  };
  const text = plainly(
    lightWorking(expectedLight({ place, instantMs: find(at(20, 4), at(20, 7)), cloudShare: 0 })),
  );
  expect(amount(row(text, 'sun and sky').result)).toBeCloseTo(3.41, 1);
  expect(amount(row(text, 'sun and sky').working)).toBeCloseTo(-6, 2);
});

describe('the working stands', () => {
  const shown = (from: string, to: string, plan = demoPlan) => {
    expect(plan).toContain(from);
    const { text, offset } = caret(plan.replace(from, to));
    return plainly(hover(analysePlan(text), offset)?.markdown ?? '');
  };

  test('on a moment, beside its figure', () => {
    const text = shown('start: sunrise + 10 min', 'start: sun‸rise + 10 min');
    const [, ev = '', spread = ''] = /about EV ([\d.]+) ± ([\d.]+) at ISO 100/.exec(text) ?? [];
    expect(amount(row(text, 'EV at ISO 100').result)).toBeCloseTo(Number(ev), 0);
    expect(amount(row(text, '±').result)).toBeCloseTo(Number(spread), 0);
  });

  test('on a reading, beside the light that it is compared with', () => {
    const text = shown('metered: 1/2 s', 'metered: 1/‸2 s');
    const [, ev = ''] = /expected about EV ([\d.]+) ±/.exec(text) ?? [];
    const lines = text.slice(text.indexOf('| expected light |'));
    expect(amount(row(lines, 'EV at ISO 100').result)).toBeCloseTo(Number(ev), 0);
  });

  test('on a scene whose sky and foreground are estimated: their lux are those of the working', () => {
    const text = shown(
      'frames: 2',
      'scene: { horizon: str‸aight }',
      demoPlan.replace('facing: 118°', 'facing: 300°').replace('start: sunrise + 10 min', 'start: 12:00'),
    );
    const [, sky = ''] = /(\d+) lx from the sky make/.exec(text) ?? [];
    expect(amount(row(text, 'from the sky').result) / Number(sky)).toBeCloseTo(1, 2);
    const [, ground = ''] = /`0\.\d+ × (\d+) lx \/ π`/.exec(text) ?? [];
    expect(amount(row(text, 'level ground').result) / Number(ground)).toBeCloseTo(1, 2);
  });

  test('on the filters of a shot without a reading; with one it is not needed there', () => {
    const unmetered = shown('[nd6]', '[n‸d6]', demoPlan.replace('        metered: 1/2 s\n', ''));
    const step = row(unmetered, 'expected light').working;
    expect(step).toContain(`EV ${amount(row(unmetered, 'EV at ISO 100').result).toFixed(2)}: `);
    expect(shown('[nd6]', '[n‸d6]')).not.toContain('Kasten');
  });
});
