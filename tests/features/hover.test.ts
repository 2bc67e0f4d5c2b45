import { describe, expect, test } from 'vitest';
import type { Analysis, Rule } from '../../server/analysis.ts';
import { hover } from '../../server/features/hover.ts';
import { caret } from '../support/marked.ts';
import { analyseKit, analysePlan, demoKit, demoPlan } from './demo.ts';

/** The demo with the first `from` replaced by `to`, in which ‸ marks the place of the pointer. */
function demoWith(from: string, to: string): string {
  if (!demoPlan.includes(from)) throw new Error(`The demo has no “${from}”.`);
  return demoPlan.replace(from, to);
}

function hovered(marked: string, rules: readonly Rule[] = []): string {
  const { text, offset } = caret(marked);
  return withoutPictures(hover(analysePlan(text), offset, rules)?.markdown ?? '');
}

function withoutPictures(markdown: string): string {
  return plainly(markdown.replace(/\(data:image[^)]*\)/g, '(picture)'));
}

/** Without the blanks that only keep columns and lines apart. */
function plainly(markdown: string): string {
  return markdown.replaceAll('&ensp;', '').replaceAll('\u00a0', ' ');
}

/** The second cell of the row that begins with a label. */
function cell(markdown: string, label: string): string | undefined {
  const starts = [`| ${label}: | `, `| ${label} | `];
  for (const row of markdown.split('\n')) {
    const start = starts.find((each) => row.startsWith(each));
    if (start !== undefined) return row.slice(start.length, -2);
  }
  return undefined;
}

describe('exposure', () => {
  const filters = hovered(demoWith('filters: [nd6]', 'filters: [nd‸6]'));

  test('every step of ½ s through six stops: 32 s, the dial’s 30 s (common practice, no source)', () => {
    expect(filters).toMatchInlineSnapshot(`
      "**30 s** (the shutter keeps 32 s).

      **At 06:24 the sun stands in the frame, 1° high.** The skyline hides most of it yet. Never look at the sun through an optical finder, and this body has one: compose on the screen, or before the sun is there. A dark filter is never eye protection.

      | step | working | result |
      | :--- | :--- | :--- |
      | metered | \`1/2 s at f/14, ISO 64\` | **1/2 s** |
      | filtered time | \`1/2 s × 2^6\` · filters 6 ± 0.33 stops | **32 s** (25.4 s to 40.3 s) |
      | dial | \`30 s\` · the dial's 30 s is 32 s | **32 s** |

      | if the meter says | set | exactly |
      | ---: | ---: | ---: |
      | 1/8 s | 8 s | 8 s |
      | 1/4 s | 15 s | 16 s |
      | **1/2 s** | **30 s** | **32 s** |
      | 1 s | 1 min 4 s bulb | 1 min 4 s |
      | 2 s | 2 min 8 s bulb | 2 min 8 s |

      | filter | takes | spread |
      | :--- | :--- | :--- |
      | \`nd6\` | 6 stops, label | ± 1/3 stop |

      2 frames: the shutter is open for 1 min 4 s, all takes 1 min 4 s.

      t × 2^stops (ISO 2720; strengths add as densities do, ISO 5). Spreads of filters: common practice, no source."
    `);
  });

  test('the spread: 32 s × 2^(∓1/3) is 25.4 s and 40.3 s', () => {
    expect(32 * 2 ** (-1 / 3)).toBeCloseTo(25.4, 1);
    expect(32 * 2 ** (1 / 3)).toBeCloseTo(40.3, 1);
    expect(filters).toContain('(25.4 s to 40.3 s)');
  });

  test('the ladder doubles from row to row', () => {
    expect(filters).toContain('| 1/8 s | 8 s | 8 s |');
    expect(filters).toContain('| 1/4 s | 15 s | 16 s |');
    expect(filters).toContain('| 1 s | 1 min 4 s bulb | 1 min 4 s |');
    expect(filters).toContain('| 2 s | 2 min 8 s bulb | 2 min 8 s |');
  });

  test('measured beside label: 6.4 against 6 is 2^0.4 = 1.32 times the time', () => {
    const text = hovered(demoWith('filters: [nd6m]', 'filters: [n‸d6m]'));
    expect(text).toContain('6.4 stops, measured, label 6.00: +0.4 stop');
    expect(text).toContain('| **42.2 s** (39.4 s to 45.3 s) |');
  });

  test('a stack adds its stops and the squares of its spreads: 6 + 1.5, √(1/9 + 1/9) = 0.47', () => {
    const text = hovered(demoWith('filters: [nd6]', 'filters: [nd‸6, pol]'));
    expect(text).toContain('| together | **7.50 stops** | ± 1/2 stop |');
    expect(text).toContain('`1/2 s × 2^7.5` · filters 7.5 ± 0.47 stops | **1 min 31 s**');
  });

  test('film: 32^1.31 = 93.7 s', () => {
    const text = hovered(demoWith('iso: 64', 'film: slide-50').replace('filters: [nd6]', 'filters: [nd‸6]'));
    expect(text).toContain('| film correction | `32^1.31` | **1 min 34 s**');
    expect(text).toContain('film corrected');
  });

  test('the reading: EV 100 = log2(14.25²/0.5) − log2(0.63) = 9.33, 2^9.33 · 12.5/100 = 80.6 cd/m²', () => {
    const text = hovered(demoWith('metered: 1/2 s', 'metered: 1/‸2 s'));
    // f/14 is 2^(23/6), ISO 64 is 100 · 2^(−2/3): 23/3 + 1 + 2/3 = 28/3 (ISO 2720; markings by ISO 517 and 12232).
    expect(cell(text, 'EV at ISO 100')).toBe('`log2(14.25² / 1/2 s) − log2(63.0 / 100)` = **9.33**');
    expect(cell(text, 'luminance')).toContain('= 80.6 cd/m²');
    expect(2 ** (28 / 3) * 0.125).toBeCloseTo(80.6, 1);
  });

  test('an estimate says “about” and its spread', () => {
    const text = hovered(demoWith('        metered: 1/2 s\n', '').replace('[nd6]', '[n‸d6]'));
    expect(text).toMatch(/^About \*\*.+\*\*, estimated: the shot has no `metered`/);
    expect(text).toContain('| expected light |');
    expect(text).toMatch(/The light is that expected at 06:24, ± [\d.]+ stops\./);
  });

  test('an exposure value: EV 10 at f/8, ISO 200 is 8² / (2^10 · 2) = 1/32 s; no filter, no step', () => {
    const text = hovered(
      demoWith('metered: 1/2 s', 'metered: EV 1‸0')
        .replace('aperture: f/14', 'aperture: f/8')
        .replace('iso: 64', 'iso: 200')
        .replace('        filters: [nd6]\n', ''),
    );
    expect(text).toContain('| metered | EV 10.00: `8² / (2^10.00 × 200 / 100)` | **1/32 s** |');
    expect(text).not.toContain('filtered time');
  });

  test('an exposure value at f/11, ISO 64 counts with f/11.31 and ISO 63 (ISO 517, ISO 12232): 1/81 s', () => {
    // 11.314² / (2^14 × 0.63) = 128 / 10321 = 1/80.6 s; with the markings as they stand it would be 1/87 s.
    const text = hovered(
      demoWith('metered: 1/2 s', 'metered: EV 1‸4').replace('aperture: f/14', 'aperture: f/11'),
    );
    expect(text).toContain('| metered | EV 14.00: `11.31² / (2^14.00 × 63 / 100)` | **1/81 s** |');
  });

  test('what is missing is said', () => {
    const noAperture = demoPlan.replaceAll('        aperture: f/14\n', '');
    expect(hovered(noAperture.replace('[nd6]', '[n‸d6]'))).toContain('For a time, write `aperture`.');
    expect(hovered(demoWith('[nd6]', '[nd6, lo‸st]'))).toContain('while a filter is not known');
  });

  test('a dark filter with the sun in the frame brings the caution', () => {
    expect(filters).toContain('A dark filter is never eye protection.');
    const away = hovered(demoWith('[nd6]', '[n‸d6]').replace('facing: 118°', 'facing: 300°'));
    expect(away).not.toContain('eye protection');
  });
});

describe('moments', () => {
  test('an event and an offset: both figures, and what stands in the sky', () => {
    expect(hovered(demoWith('start: sunrise + 10 min', 'start: sun‸rise + 10 min'))).toMatchInlineSnapshot(`
      "**06:23:38** UTC+00:00 (\`Europe/London\`), found from the coordinates

      ![Height of the sun on 2027\\-03\\-20\\: from −36° to \\+35°\\; at 06\\:24 it stands at \\+1°\\, up\\.](picture)

      |  |  |
      | :--- | :--- |
      | working: | \`sunrise\` 06:13:38 + 10 min |
      | sun: | 091.3°, +1.0° as seen |
      | moon: | 299.5°, −8.3°, down; waxing gibbous, 94 % lit |
      | light: | about EV 7.7 ± 2.0 at ISO 100 (clouds not known) |
      | before: | sun clears skyline 06:22, 2 min earlier |
      | next: | morning golden hour end 07:01, 37 min later |

      *sunrise*: The upper edge of the sun comes up over the level horizon, with mean refraction.

      | expected light | working | result |
      | :--- | :--- | :--- |
      | sun and sky | sun +0.623° without refraction, clear: \`x = 0.623 / 90 = 0.00692\`, \`10^(2.88 + 22.26x − 207.64x² + 1034.30x³)\` | 1058 lx |
      | clouds | not known: half way, in stops, between clear and overcast: \`√(1 × 0.25)\` | × 0.5 |
      | level ground | \`1058 × 0.5\` | 529.1 lx |
      | EV at ISO 100 | \`log2(529.1 / 2.5)\` | **7.73** |
      | ± | \`√(0.33² + 1.65² + 1.00²)\`: real skies against the table \`0.1 × log2 10\` = 0.33; clouds not known \`1 + 1.3 / 2\` = 1.65; shade, since it is not known how much of the sky the land hides = 1.00 | 1.96 stops |

      Light: Explanatory Supplement to the Astronomical Almanac (1992), section 9.3, and its notes: clear skies differ by 0.1 in log10, overcast takes a factor of 3 to 10. Clouds: Kasten and Czeplak, Solar Energy 24 (1980), found for sunlight. ± 1 stop in shade: common practice, no source. EV: ISO 2720, incident light, C = 250. An estimate for level ground in the open; under trees or cliffs it is darker.

      Sun and moon: Meeus, Astronomical Algorithms; heights as seen include mean refraction. Real air and land move a rise or set by a minute or more."
    `);
  });

  test('the resolved time is the event plus the offset, to the second', () => {
    const text = hovered(demoWith('start: sunrise + 10 min', 'start: sun‸rise + 10 min'));
    const seconds = (pattern: RegExp) => {
      const [, minutes, rest] = pattern.exec(text) ?? [];
      return Number(minutes) * 60 + Number(rest);
    };
    expect(seconds(/^\*\*06:(\d\d):(\d\d)\*\*/) - seconds(/`sunrise` 06:(\d\d):(\d\d)/)).toBe(600);
  });

  test('earlier and later name their parts', () => {
    const text = hovered(demoWith('start: sunrise + 10 min', 'start: later o‸f ready, civil dawn'));
    expect(cell(text, 'working')).toMatch(/^the later of `ready` 05:38:\d\d and `civil dawn` 05:3\d:\d\d$/);
  });

  test('an event that does not happen says why, and when it does next', () => {
    const text = hovered(
      demoWith('54.4301, -2.6102', '69.4301, 18.6102')
        .replace('2027-03-20', '2027-06-20')
        .replace('start: sunrise + 10 min', 'start: sunr‸ise'),
    );
    expect(text).toMatch(/^There is no sunrise on this date: the sun stays above the horizon all day/);
    expect(text).toMatch(/The next is on 2027-07-2\d/);
    const second = hovered(demoWith('start: sunrise + 10 min', 'start: second sunr‸ise'));
    expect(second).toMatch(/^There is no second sunrise on this date: sunrise comes only once that day\.$/m);
  });

  test('a time that the clocks skip, and one that they show twice', () => {
    const skipped = demoWith('2027-03-20', '2027-03-28').replace('start: sunrise + 10 min', 'start: 01:3‸0');
    expect(hovered(skipped)).toContain('The clocks skip 01:30 on that day. It may mean 00:30 or 02:30.');
    const repeated = demoWith('2027-03-20', '2027-10-31').replace('start: sunrise + 10 min', 'start: 01:3‸0');
    expect(hovered(repeated)).toContain('show 01:30 twice: UTC+01:00 (`Europe/London`) and UTC+00:00');
  });

  test('an arrival shows its slack and the departure that makes it', () => {
    const text = hovered(demoWith('arrive: sunrise - 45 min', 'arrive: sunri‸se - 45 min'));
    expect(cell(text, 'to spare')).toBe(
      '9 min to spare; the way there takes until 05:20; leave the place before by 04:42',
    );
  });

  test('opening hours show both ends', () => {
    const text = hovered(demoWith('setup: 10 min', 'open: sunrise ..‸ sunset\n    setup: 10 min'));
    expect(text).toMatch(/^Open \*\*06:13:\d\d\*\* to \*\*18:23:\d\d\*\*, UTC\+00:00/);
  });
});

describe('the sky of a day', () => {
  const sky = hovered(demoWith('date: 2027-03-20', 'date: 2027-0‸3-20'));

  test('sunrise before noon before sunset, the zone and where it is from', () => {
    const order = ['civil dawn', 'sunrise', 'solar noon', 'sunset', 'civil dusk'].map((name) =>
      sky.indexOf(`| ${name} |`),
    );
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order.every((place) => place > 0)).toBe(true);
    expect(cell(sky, 'zone')).toBe('UTC+00:00 (`Europe/London`), found from the coordinates');
    // At the equinox, by the definition with refraction and semidiameter, the day is a little over 12 h.
    expect(cell(sky, 'daylight')).toMatch(/^sun 06:1\d – 18:2\d, 12 h 1\d min$/);
  });

  test('the height at noon is 90° − latitude + declination of the sun: 35.5° a few hours before the equinox', () => {
    expect(90 - 54.43).toBeCloseTo(35.57, 2);
    expect(cell(sky, 'solar noon')).toBe('12:18 | 180°, +35.5°');
  });

  test('coordinates in other forms: 0.4301 × 60 = 25.806 min, 0.806 × 60 = 48.4 s', () => {
    const text = hovered(demoWith('at: 54.4301, -2.6102', 'at: 54.4‸301, -2.6102'));
    expect(cell(text, 'minutes, seconds')).toBe('`54°25\'48.4"N 2°36\'36.7"W`');
    expect(cell(text, 'address')).toBe('`geo:54.43010,-2.61020`');
    expect(cell(text, 'compass')).toMatch(/WMM2025/);
  });

  test('a polar day has no sunrise, and says so', () => {
    const text = hovered(
      demoWith('54.4301, -2.6102', '69.4301, 18.6102').replace('date: 2027-03-20', 'date: 2027-06-2‸0'),
    );
    // By hand: at midnight the sun stands at latitude + declination − 90° = 69.43° + 23.43° − 90° = 2.9° (20 June).
    const missing = text.split('\n').filter((line) => line.startsWith('no '));
    expect(missing).toHaveLength(1);
    expect(missing[0]?.split('; ')[0]).toBe(
      'no astronomical dawn, nautical dawn, civil dawn, blue hour, sunrise, sunset, civil dusk, nautical dusk, astronomical dusk: the sun stays above the horizon all day (lowest 2.9°)',
    );
    expect(text).not.toContain('—');
    expect(cell(text, 'daylight')).toBe('the sun does not set');
  });
});

test('in the weeks around midsummer twilights are missing, each for the reason that says most', () => {
  // By hand: 60° N on 20 June, 60 + 23.4 − 90 = −6.6° at midnight: no nautical and no astronomical twilight ends.
  const text = hovered(
    demoWith('54.4301, -2.6102', '60.0000, -2.6102').replace('date: 2027-03-20', 'date: 2027-06-2‸0'),
  );
  const said = text.split('\n').find((line) => line.startsWith('no '));
  expect(said).toMatch(
    /^no astronomical dawn, nautical dawn, nautical dusk, astronomical dusk: the sun stays above −12° all day \(lowest −6\.[56]°\)/,
  );
});

describe('direction and lens', () => {
  test('facing: compass, sun, light, polarizer, caution', () => {
    const text = hovered(demoWith('facing: 118°', 'facing: 11‸8°'));
    expect(text).toContain('**118.0°** true, as written, from true north');
    expect(text).toContain(
      '**At 06:24 the sun stands in the frame, 1° high.** The skyline hides most of it yet. Never look at the sun through an optical finder, and this body has one',
    );
    // cos γ = sin a sin t + cos a cos t cos Δ, with a = 1.0°, t = −3°, Δ = 26.7°: γ = 27.0°.
    const rad = Math.PI / 180;
    const cosine =
      Math.sin(1 * rad) * Math.sin(-3 * rad) + Math.cos(1 * rad) * Math.cos(3 * rad) * Math.cos(26.7 * rad);
    expect(Math.acos(cosine) / rad).toBeCloseTo(27, 0);
    expect(cell(text, 'light')).toBe(
      '**back-lit**: the sun is 26.7° to the left on the compass, 27.0° from the lens axis in space',
    );
  });

  test('24 mm on 36 × 24 mm: 73.7° × 53.1° (2·atan(36/48), 2·atan(24/48))', () => {
    const text = hovered(demoWith('lens: wide @ 24 mm', 'lens: wi‸de @ 24 mm'));
    expect(cell(text, 'field of view')).toContain('73.7° × 53.1°');
    // 24²/(14.254 · 0.03) + 24 mm = 1371 mm; 2.44 · 0.55 · 14.254 = 19.1 µm; 36 mm / 8256 = 4.36 µm.
    expect(cell(text, 'hyperfocal')).toContain('**1.37 m**');
    expect(cell(text, 'Airy disc')).toContain('= 19.1 µm, 4.4 pixels of 4.36 µm');
  });

  test('an effect: its shutter times and where the plan lies', () => {
    const text = hovered(demoWith('effect: mirror', 'effect: mir‸ror'));
    expect(cell(text, 'shutter times')).toBe('20 s to 5 min');
    expect(cell(text, 'planned')).toBe('30 s: within');
    const clouds = demoWith('effect: mirror', 'effect: cloud ‸streaks');
    expect(cell(hovered(clouds), 'planned')).toBe('2 × 30 s = 1 min 4 s, averaged: within');
    const short = hovered(clouds.replace('frames: 2', 'frames: 1'));
    // 60 s / 32 s = 2^0.91.
    expect(cell(short, 'planned')).toBe('30 s: 0.9 stop too short');
  });

  test('the walk by Naismith: 600 m at 5 km/h is 7 min 12 s, 40 m at 600 m/h is 4 min', () => {
    const text = hovered(demoWith('distance: 600 m', 'distance: 6‸00 m'));
    expect(cell(text, 'walk there')).toBe('`600 m / 5 km/h + 40 m / 600 m/h` = about **11 min**');
    expect(cell(text, 'walk back')).toBe('about 7 min, without the climb');
  });
});

describe('the kit', () => {
  const at = (marked: string) => {
    const { text, offset } = caret(marked);
    return plainly(hover(analyseKit(text), offset)?.markdown ?? '');
  };

  test('a filter in every unit: 6 stops are 10^1.806, 64 times, 1/64 = 1.56 %', () => {
    const text = at(demoKit.replace('id: nd6m', 'id: nd‸6m'));
    expect(cell(text, 'label')).toBe('6 stops = density 1.81 = factor 64.0, passes 1.56 %');
    expect(text).toContain('A dark filter is no eye protection.');
  });

  test('a film: 10^1.31 = 20.4 s', () => {
    expect(at(demoKit.replace('exponent: 1.31', 'exponent: 1.3‸1'))).toContain('| 10 s | 20.4 s |');
  });

  test('a body: the longest marking keeps 32 s, 1 stop is three steps', () => {
    const text = at(demoKit.replace('dial: 1/3 stop', 'dial: 1/3‸ stop'));
    expect(cell(text, 'its longest')).toContain('marked 30 s, keeps 32 s');
  });
});

describe('frames, stars, units', () => {
  test('a bracket of three, a stop apart, around 32 s: 16, 32 and 64 s', () => {
    const text = hovered(demoWith('frames: 2', 'bracket: { frames: ‸3 }'));
    expect(text).toContain('3 exposures, 1 stop apart');
    expect(text).toContain('| −1.0 | 16 s | 15 s |');
    expect(text).toContain('| 0.0 | 32 s | 30 s |');
    expect(text).toContain('| +1.0 | 1 min 4 s | 1 min 4 s bulb |');
    expect(text).toContain('3 exposures, set to 15 s, 30 s, 1 min 4 s bulb: the shutter is open for');
  });

  test('a bracket of an even number goes the same way about its middle as in the findings', () => {
    // ±½, ±1½, ±2½ stops about 1/2 s: half a step of the dial, and all to the longer side.
    const text = hovered(
      demoWith('frames: 2', 'bracket: { frames: ‸6 }').replace('filters: [nd6]', 'filters: []'),
    );
    const list = ['1/10 s', '1/5 s', '0.4 s', '0.8 s', '1.6 s', '3.2 s'];
    expect(text).toContain(`6 exposures, set to ${list.join(', ')}: the shutter is open for`);
    for (const set of list) expect(text).toContain(`| ${set} |`);
  });

  test('stars turn 15.04° an hour: 0.13° in 32 s; 500 / 24 = 20.8 s', () => {
    const text = hovered(demoWith('effect: mirror', 'effect: star ‸points'));
    expect(cell(text, 'turn of the sky')).toBe('15.04° an hour: 0.13° in 32 s; 0.27° in all frames');
    expect(cell(text, 'by the rule of 500')).toBe(
      '`500 / (1.00 × 24)` = about 20.8 s, for small prints; custom',
    );
    // 4.36 µm / (24 000 µm · 7.292e-5 s⁻¹) = 2.49 s at the equator of the sky.
    expect(cell(text, 'one pixel')).toMatch(/^2.49 s at declination 0°/);
  });

  test('the streak of water: 24 mm · 1 m/s · 32 s / 20 m = 38.4 mm, 38.4 / 36 = 1.1', () => {
    const text = hovered(
      demoWith(
        'effect: mirror',
        'water: { kind: cascade, speed: 1 m/s, distance: 20 m }\n        effect: si‸lky',
      ),
    );
    expect(cell(text, 'streak')).toMatch(
      /^`24 mm × 1.00 m\/s × 32 s \/ 20.0 m` = 38.4 mm, through the whole frame: 1.1 times its width$/,
    );
    expect(cell(text, 'shutter times')).toBe('1 s to 15 s on a cascade');
    expect(cell(text, 'planned')).toBe('30 s: 1.1 stops too long');
  });

  test('clouds: 10 m/s · sin 20° / 1000 m · 32 s · 24 mm = 2.63 mm', () => {
    const forecast = 'forecast:\n  hours: [ { at: 05:00, cloud-base: 1000 m, wind-aloft: 36 km/h } ]\n';
    const text = hovered(demoWith('effect: mirror', 'effect: cloud str‸eaks') + forecast);
    expect(10 * Math.sin(Math.PI / 9) * 0.001 * 32 * 24).toBeCloseTo(2.63, 2);
    expect(cell(text, 'clouds')).toMatch(
      /^`24 mm × 10\.0 m\/s × sin 20° \/ 1000 m × 32 s` = about 2\.63 mm, 602 pixels, .*flat layer.*± half/,
    );
  });

  test('wind and temperature in other units (10 km/h is 2.8 m/s, 5.4 kn; 4 °C is 39.2 °F)', () => {
    const forecast = (hour: string) => `${demoPlan}forecast:\n  hours: [ { at: 05:00, ${hour} } ]\n`;
    const wind = hovered(forecast('wind: 10 k‸m/h'));
    expect([cell(wind, 'm/s'), cell(wind, 'mph'), cell(wind, 'kn')]).toEqual(['2.8', '6.2', '5.4']);
    expect(cell(wind, 'Beaufort')).toMatch(/^2 /);
    expect(cell(hovered(forecast('air: 4‸ °C')), '°F')).toBe('`4.0 × 9/5 + 32` = 39.2');
  });

  test('a moment that rests on something missing says so', () => {
    const text = demoWith('start: sunrise + 10 min', 'start: after no‸thing');
    expect(hovered(text)).toContain('`after nothing` is not known yet');
  });

  test('spots and shots by their ids', () => {
    const spot = hovered(demoWith('id: north-steps', 'id: north‸-steps'));
    expect(cell(spot, 'arrive')).toBe('05:29, 9 min to spare');
    expect(cell(spot, '`mirror`')).toBe('from 06:24 to 06:25, 30 s');
    const shot = hovered(demoWith('id: strands', 'id: str‸ands'));
    expect(shot).toContain('**42 s bulb**');
    expect(shot).toContain('from the spot to the subject, on the ellipsoid (WGS 84)');
    // 0.0031° of latitude are 345 m, 0.0052° of longitude 337 m: 482.4 m. 34 m there through 24 mm: 1.69 mm, and
    // 5504 pixels · 1.69 / 24 = 388 (similar triangles).
    expect(cell(shot, 'its size')).toContain('= 1.69 mm, 388 pixels, 7 % of the frame’s height');
  });
});

describe('keys and codes', () => {
  test('a key says what the table of fields says', () => {
    expect(hovered(demoWith('        tilt: -3°', '        ti‸lt: -3°'))).toContain(
      'How far the lens points up',
    );
    expect(hovered(demoWith('    walk:', '    wa‸lk:'))).toContain('Keys: `distance`, `climb`, `time`');
    expect(hovered(demoWith('spots:', 'spo‸ts:'))).toContain('The spots, in the order of the day.');
  });

  test('a code under checks shows the rule’s own words', () => {
    const rule: Rule = { code: 'time/late-arrival', severity: 'warning', doc: 'You arrive late.' };
    const text = `${demoPlan}checks:\n  time/late-arr‸ival: hint\n`;
    expect(hovered(text, [rule])).toBe(
      '`time/late-arrival` (warning unless set otherwise)\n\nYou arrive late.',
    );
    expect(hovered(text.replace('late-arr‸ival', 'l‸ost'), [rule])).toBe('There is no finding `time/lost`.');
  });

  test('a threshold shows its value and its default', () => {
    const text = hovered(`${demoPlan}thresholds:\n  walking-factor: 1.‸5\n`);
    expect(text).toContain('`walking-factor`: 1.50 ×; 1.00 unless set otherwise');
  });

  test('between things there is nothing', () => {
    expect(hover(analysePlan('plan: P\n\n\ndate: 2027-03-20\n'), 8)).toBeUndefined();
    expect(hover(analysePlan(''), 0)).toBeUndefined();
  });
});

describe('what a plan says stays text', () => {
  const hostile = [
    '[x](command:workbench.action.quit)',
    '<img src=x onerror=alert(1)>',
    '**bold** `code` ``two``',
    '![p](https://example.invalid/p.png)',
    'a | b | c',
    'https://example.invalid',
    '$(alert) &amp; \\` end',
  ];

  /** The markdown without code spans, by the rule of CommonMark 6.1: a run of backticks closes with one as long. */
  function outsideCode(markdown: string): string {
    return markdown.replace(/(?<!`)(`+)(?!`)(.*?)(?<!`)\1(?!`)/gs, '');
  }

  test.each(hostile)('%s', (name) => {
    const yaml = `'${name.replaceAll("'", "''")}'`;
    const text = demoPlan
      .replace('name: North steps', `name: ${yaml}`)
      .replace('        effect: mirror', `        name: ${yaml}\n        effect: mirror`)
      .replace('plan: Dawn on the Hallin reservoirs', `plan: ${yaml}`);
    const analysis: Analysis = analysePlan(text);
    for (const mark of analysis.plan?.marks ?? []) {
      const markdown = withoutPictures(hover(analysis, mark.span.start)?.markdown ?? '');
      const outside = outsideCode(markdown);
      for (const part of ['command:', 'onerror', '**bold**', 'example.invalid', '$(alert)', '<img']) {
        expect(outside).not.toContain(part);
      }
    }
    const nameHover = hover(analysis, text.indexOf(yaml, text.indexOf('spots:')) + 3)?.markdown ?? '';
    expect(nameHover.split('\n')[0]).toContain(name.replace(/\\`.*/, ''));
  });
});

test('CRLF, a byte order mark and emoji: the span still holds the value', () => {
  const text = `\ufeff${demoPlan.replaceAll('\n', '\r\n').replace('North steps', '🌊 steps 🌊')}`;
  const analysis = analysePlan(text);
  for (const value of ['sunrise + 10 min', '118°', '1/2 s', '🌊 steps 🌊']) {
    const found = hover(analysis, text.indexOf(value) + 1);
    expect(text.slice(found?.span.start, found?.span.end)).toBe(value);
  }
});

test('every place of a plan, whole or cut short, has a hover or none, and none throws', () => {
  for (const length of [40, 160, 333, 512, 700, demoPlan.length]) {
    const text = demoPlan.slice(0, length);
    const analysis = analysePlan(text);
    for (let offset = 0; offset <= length; offset += 7) {
      const found = hover(analysis, offset);
      if (found === undefined) continue;
      expect(found.span.start).toBeLessThanOrEqual(offset);
      expect(found.span.end).toBeGreaterThanOrEqual(offset);
      expect(found.markdown).not.toMatch(/NaN|undefined|Infinity|\[object/);
    }
  }
});
