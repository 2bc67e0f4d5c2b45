import { describe, expect, test } from 'vitest';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlayHints.ts';
import { caret } from '../support/marked.ts';
import { analysePlan, demoKit, demoPlan } from './demo.ts';

/** The demo with replacements, one of which marks the place of the pointer by ‸. */
function hovered(pairs: readonly (readonly [string, string])[], kit = demoKit): string {
  let marked = demoPlan;
  for (const [from, to] of pairs) {
    if (!marked.includes(from)) throw new Error(`The demo has no “${from}”.`);
    marked = marked.replace(from, to);
  }
  const { text, offset } = caret(marked);
  const markdown = hover(analysePlan(text, kit), offset)?.markdown ?? '';
  // Without the blanks that only keep columns and lines apart.
  return markdown
    .replace(/\(data:image[^)]*\)/g, '(picture)')
    .replaceAll('&ensp;', '')
    .replaceAll('\u00a0', ' ');
}

function cell(markdown: string, label: string): string | undefined {
  const starts = [`| ${label}: | `, `| ${label} | `];
  for (const row of markdown.split('\n')) {
    const start = starts.find((each) => row.startsWith(each));
    if (start !== undefined) return row.slice(start.length, -2);
  }
  return undefined;
}

function rows(markdown: string, head: string): readonly string[] {
  const lines = markdown.split('\n');
  const first = lines.findIndex((line) => line.startsWith(head));
  const after = first < 0 ? [] : lines.slice(first + 2);
  const end = after.findIndex((line) => !line.startsWith('|'));
  return end < 0 ? after : after.slice(0, end);
}

describe('the ladder', () => {
  test('on the reading: third stops, one either way; 0.5 s · 2^(1/3) · 64 = 40.3 s', () => {
    const found = rows(hovered([['metered: 1/2 s', 'metered: 1/‸2 s']]), '| if the meter says');
    expect(found).toHaveLength(7);
    expect(found[0]).toBe('| 1/4 s | 15 s | 16 s |');
    expect(found[4]).toContain('| 40.3 s |');
    expect(32 * 2 ** (1 / 3)).toBeCloseTo(40.3, 1);
    expect(found[6]).toContain('| 1 min 4 s |');
  });

  test('a reading beyond the dial is written out: 64 s is 1 min 4 s, twice that 2 min 8 s', () => {
    const long = hovered([
      ['metered: 1/2 s', 'metered: 64 s'],
      ['filters: [nd6]', 'filters: [nd‸6]'],
    ]);
    expect(rows(long, '| if the meter says').map((row) => row.split(' | ')[0])).toEqual([
      '| 15 s',
      '| 30 s',
      '| **1 min 4 s**',
      '| 2 min 8 s',
      '| 4 min 16 s',
    ]);
  });

  test('on a filter and on the key of the filters: whole stops, two either way', () => {
    const ladder = (pair: readonly [string, string]) => rows(hovered([pair]), '| if the meter says');
    expect(ladder(['filters: [nd6]', 'filters: [nd‸6]'])).toHaveLength(5);
    expect(ladder(['filters: [nd6]', 'filt‸ers: [nd6]'])).toEqual(
      ladder(['filters: [nd6]', 'filters: [nd‸6]']),
    );
    expect(hovered([['filters: [nd6]', 'filt‸ers: [nd6]']])).toContain('The filters on the lens.');
  });
});

describe('light that changes', () => {
  const dusk = [
    ['start: sunrise + 10 min', 'start: civil dusk'],
    ['metered: 1/2 s', 'metered: 4 s'],
  ] as const;

  test('at dusk more time is needed than in light that stays, and both are said', () => {
    const text = hovered([...dusk, ['filters: [nd6]', 'filters: [nd‸6]']]);
    const [, found = '', plain = ''] =
      /The light fades meanwhile: about \*\*(.+)\*\* collects the planned light, against (.+) if/.exec(
        text,
      ) ?? [];
    // 4 s · 64 = 256 s, of which the dial has nothing: 4 min 16 s.
    expect(plain).toBe('4 min 16 s');
    const seconds = (time: string) => {
      const [, minutes = '0', rest = '0'] = /(?:(\d+) min)? ?(?:(\d+) s)?/.exec(time) ?? [];
      return Number(minutes) * 60 + Number(rest);
    };
    expect(seconds(found)).toBeGreaterThan(256);
  });

  test('an exposure that never completes is said so, on hover and in the hint', () => {
    const never = [
      ['start: sunrise + 10 min', 'start: civil dusk'],
      ['metered: 1/2 s', 'metered: 60 s'],
    ] as const;
    expect(hovered([...never, ['filters: [nd6]', 'filters: [nd‸6]']])).toContain('**Never completes:**');
    const text = never.reduce((plan, [from, to]) => plan.replace(from, to), demoPlan);
    const labels = inlayHints(analysePlan(text)).map(({ label }) => label);
    expect(labels.filter((label) => label.endsWith('never completes: the light fades'))).toHaveLength(1);
  });

  test('a reading that the estimate cannot explain is said to be one', () => {
    // EV 2 some minutes after sunrise: five stops and more below what is expected.
    expect(hovered([['metered: 1/2 s', 'metered: EV ‸2']])).toContain('more than the estimate can explain.');
    expect(hovered([['metered: 1/2 s', 'metered: 1/‸2 s']])).not.toContain('than the estimate can explain');
  });

  test('below the threshold nothing is said', () => {
    const text = hovered([...dusk, ['filters: [nd6]', 'filters: [nd‸6]']]);
    const quiet = hovered([
      ...dusk,
      ['filters: [nd6]', 'filters: [nd‸6]'],
      ['spots:', 'thresholds: { drift: 9 }\nspots:'],
    ]);
    expect(text).toContain('collects the planned light');
    expect(quiet).not.toContain('collects the planned light');
  });

  test('the expected light beside the reading: f/14, 0.5 s, ISO 64 is EV 9.3', () => {
    expect(hovered([['metered: 1/2 s', 'metered: 1/‸2 s']])).toMatch(
      /^Metered \*\*EV 9\.3\*\*; expected about EV [\d.]+ ± [\d.]+ \(clouds not known\): [+−]\d/,
    );
  });
});

describe('the subject', () => {
  test('bearing, distance, angle, size, place in the frame, what stands in line', () => {
    const text = hovered([['height: 34 m', 'height: 3‸4 m']]);
    // 345 m south and 337 m east: 482 m towards 180° − atan(337 / 345) = 135.7°; atan(34 / 482.4) = 4.0°.
    expect(cell(text, 'subject')).toMatch(/^48[23] m away towards 135\.\d° true$/);
    expect((Math.atan2(34, 482.4) * 180) / Math.PI).toBeCloseTo(4.03, 2);
    expect(cell(text, 'its height')).toBe('from 0.0° to +4.0°, its foot taken as level with the camera');
    // Faced head on and level: in the middle, half its 7 % over the axis.
    expect(cell(text, 'in the frame')).toBe('yes: 4 % of the height above the middle');
    expect(cell(text, 'in line with it')).toMatch(/sun above it at 09:\d\d, \+2\d\.\d°/);
  });

  test('a tall subject has the sun behind it: 260 m at 482 m reach 28.3°', () => {
    expect((Math.atan2(260, 482.4) * 180) / Math.PI).toBeCloseTo(28.3, 1);
    const text = hovered([['height: 34 m', 'height: 26‸0 m']]);
    expect(cell(text, 'in line with it')).toMatch(/sun \*\*behind it\*\* at 09:\d\d, \+2\d\.\d°/);
    const high = hovered([
      ['height: 34 m', 'height: 3‸4 m, elevation: 600 m'],
      ['skyline: { E: 1°', 'elevation: 200 m\n    skyline: { E: 1°'],
    ]);
    // 400 m up at 482 m: its foot stands at 39.7°, over the sun.
    expect(cell(high, 'in line with it')).toMatch(/sun below its foot at 09:\d\d/);
  });
});

describe('the moon beside the frame', () => {
  const night = [
    ['start: sunrise + 10 min', 'start: 21:00'],
    ['tilt: -3°', 'tilt: 30°'],
  ] as const;

  test('where it stands, and whether the frame or the land has it', () => {
    const facing = (to: string) => ['facing: 118°', `facing: ${to}`] as const;
    // 142°, +36° at 21:00 (astronomy-engine); the frame is 74° wide.
    expect(cell(hovered([...night, facing('14‸0°')]), 'moon')).toBe(
      '142.4°, +35.7°, **in the frame**, 97 % lit',
    );
    expect(cell(hovered([...night, facing('30‸0°')]), 'moon')).toBe('142.4°, +35.7°, 97 % lit');
    const wall = ['skyline: { E: 1°, SE: 2°, S: 4° }', 'skyline: { SE: 50°, S: 50° }'] as const;
    expect(cell(hovered([...night, wall, facing('30‸0°')]), 'moon')).toBe(
      '142.4°, +35.7°, behind the skyline, 97 % lit',
    );
    // It goes from 142° to 163° in 1 h 8 min: into a frame on its right, out of one on its left.
    const long = ['frames: 2', 'frames: 120\n        gap: 2 s'] as const;
    expect(cell(hovered([...night, long, facing('19‸4°')]), 'moon')).toMatch(
      /^142\.4°, \+35\.7°, \*\*in the frame\*\* from 21:\d\d, 97 % lit$/,
    );
    expect(cell(hovered([...night, long, facing('11‸0°')]), 'moon')).toMatch(
      /^142\.4°, \+35\.7°, \*\*in the frame\*\* until 2[12]:\d\d, 97 % lit$/,
    );
    expect(cell(hovered([facing('11‸8°')]), 'moon')).toMatch(/^\d{3}\.\d°, −\d+\.\d°, down, 94 % lit$/);
  });
});

describe('a polarizer', () => {
  const text = hovered([
    ['tilt: -3°', 'tilt: -36.9°'],
    ['filters: [nd6]', 'filters: [nd6, p‸ol]'],
  ]);

  test('on water at Brewster’s angle: p vanishes, s = ((1 − n²)/(1 + n²))² = 7.8 % (E. Hecht, Optics)', () => {
    const n = 1.333;
    expect(100 * ((1 - n * n) / (1 + n * n)) ** 2).toBeCloseTo(7.8, 1);
    expect(cell(text, 'on the lens axis')).toBe(
      '36.9° to the surface: reflects s 7.8 %, p 0.0 %; takes away nearly all of the reflection',
    );
    expect(cell(text, 'best')).toContain('36.9° between line of sight and surface');
  });

  test('can erase a rainbow, and leaves a sky under cloud alone', () => {
    expect(cell(text, 'rainbow')).toContain('the filter can erase it');
    const cloudy = hovered([
      ['filters: [nd6]', 'filters: [nd6, p‸ol]'],
      ['spots:', 'forecast: { hours: [ { at: 05:00, cloud: 100 % } ] }\nspots:'],
    ]);
    expect(cell(cloudy, 'sky')).toBe('nothing on the sky: overcast');
    expect(cloudy).toContain('under cloud too');
  });

  test('another filter says nothing of it', () => {
    expect(hovered([['filters: [nd6]', 'filters: [nd‸6, pol]']])).not.toContain('on the lens axis');
  });
});

describe('a scene', () => {
  test('15 stops on a body that holds 12: 1 + ceil(3 / 1) = 4 frames; 8, 16, 32, 64, at halves 11.3 to 90.5 s', () => {
    const text = hovered([['frames: 2', 'scene: { range: 15‸ stops }']]);
    expect(text).toContain('**The scene spans 15 stops**, 3 stops more than one frame holds.');
    expect(cell(text, 'bracket')).toMatch(/^`1 \+ ceil\(\(15\.0 − 12\.0\) \/ 1\.0\)` = \*\*4 frames\*\*: /);
    expect(cell(text, 'graduated filter')).toContain('`15.0 − 12.0` = **3 stops**');
  });

  test('sky EV 12 over a foreground of EV 8 keeps one stop: a filter of 3 stops, soft on a broken horizon', () => {
    const text = hovered([
      ['frames: 2', 'scene: { sky: EV ‸12, foreground: EV 8, horizon: broken }'],
      ['facing: 118°', 'facing: 300°'],
    ]);
    expect(cell(text, 'graduated filter')).toBe(
      '`4.0 − 1.0` = **3 stops**, soft edge: a hard one darkens what stands up into the sky',
    );
    expect(cell(text, 'bracket')).toBe('not needed: one frame');
  });
});

describe('a scene that is not metered', () => {
  const estimated = (scene: string, start = '12:00') =>
    hovered([
      ['frames: 2', `scene: { ${scene} }`],
      ['facing: 118°', 'facing: 300°'],
      ['start: sunrise + 10 min', `start: ${start}`],
    ]);

  test('is estimated, marked so, with its ± and its working', () => {
    const text = estimated('horizon: str‸aight');
    expect(text).toMatch(
      /^\*\*The scene spans about \d\.\d ± \d\.\d stops\*\*, estimated; one frame holds it\./,
    );
    expect(cell(text, 'sky')).toMatch(
      /^about EV \d+\.\d ± \d\.\d, estimated: \d+ lx from the sky make \d+ cd\/m² at \+\d+°, \d+° from the sun on the compass; `log2\(\d+ × 100 \/ 12\.5\)`$/,
    );
    const foreground = cell(text, 'foreground') ?? '';
    const [, ev, reflectance, lux, luminance] = (
      /EV ([\d.]+) ± [\d.]+, estimated: `([\d.]+) × (\d+) lx \/ π` = (\d+) cd\/m²/.exec(foreground) ?? []
    ).map(Number);
    // Lambert, L = ρ·E / π, and a spot meter, 2^EV = L · S / K with K = 12.5 (ISO 2720).
    // Three figures are shown.
    expect(((reflectance ?? 0) * (lux ?? 0)) / Math.PI / (luminance ?? 1)).toBeCloseTo(1, 2);
    expect(ev).toBeCloseTo(Math.log2((luminance ?? 0) * 8), 1);
    expect(text).toContain('ISO 15469');
  });

  test('goes by the part that is metered', () => {
    const text = estimated('foreground: EV ‸11');
    expect(cell(text, 'foreground')).toBe('EV 11.0, metered');
    expect(cell(text, 'sky')).toMatch(/^about EV \d+\.\d ± \d\.\d, estimated: /);
  });

  test('says why there is none', () => {
    expect(estimated('horizon: str‸aight', '22:00')).toContain(
      'Sky and foreground cannot be estimated: it is too dark. Write `sky` and `foreground` as metered, or `range`.',
    );
  });
});

describe('focus and panorama', () => {
  test('near grass at 0.4 m wants f/24: a stack where f/14 cannot', () => {
    const text = hovered([['frames: 2', 'nearest: 0.‸4 m']]);
    // From near to infinity: focus at 2 · near, H = 2 · near. f² / (c · (H − f)) = 576 / (0.03 · 776) = 24.7.
    expect(576 / (0.03 * 776)).toBeCloseTo(24.7, 1);
    expect(cell(text, 'for the nearest')).toMatch(/focus at 0\.8\d? m/);
    expect(cell(text, 'focus stack')).toMatch(
      /^one frame at f\/14 cannot; \*\*2 frames\*\* can, focused at /,
    );
    expect(cell(text, 'circle of confusion')).toContain('0.030 mm');
    expect(hovered([['frames: 2', 'nearest: 3‸ m']])).not.toContain('focus stack');
  });

  test('what no aperture holds is not given as an aperture', () => {
    // From 0.2 m at 24 mm: H = 0.4 m, N = 576 / (0.03 · 376) = 51, and the lens ends at f/22.
    const text = hovered([['frames: 2', 'nearest: 0.‸2 m']]);
    expect(cell(text, 'for the nearest')).toBe(
      'from 0.20 m to infinity: focus at 0.40 m, yet down to f/22 no aperture holds it in one frame',
    );
  });

  test('the subject ends what shall be sharp, and takes the focus where none is given', () => {
    const text = hovered([['frames: 2', 'nearest: ‸1 m\n        subject: { distance: 4 m }']]);
    // Harmonic mean of 1 and 4 m: 2 · 4 / 5 = 1.6 m. Focused at 4 m with H = 1.39 m at f/14 (14.25): to infinity.
    expect(cell(text, 'for the nearest')).toMatch(/^from 1\.00 m to 4\.00 m: focus at 1\.60 m, f\//);
    expect(cell(text, 'sharp')).toMatch(/^focused on the subject, at 4\.00 m: from 1\.0\d m to infinity$/);
  });

  test('without a focal length it says so', () => {
    const text = hovered([
      ['wide @ 24 mm', 'wide'],
      ['frames: 2', 'nearest: ‸1 m'],
    ]);
    expect(cell(text, 'sharp')).toBe('near and far limits need the focal length (`lens: wide @ 24 mm`)');
  });

  test('180° in frames of 73.7° with 30 % overlap: 1 + ceil(106.3 / 51.6) = 4, 35.4° apart', () => {
    const text = hovered([['frames: 2', 'sweep: 18‸0°']]);
    expect(106.3 / 51.6).toBeGreaterThan(2);
    expect(106.3 / 51.6).toBeLessThan(3);
    expect(text).toContain('**4 frames** side by side, 35.4° from one to the next.');
    expect(cell(text, 'takes')).toBe(
      '2 min 8 s for 4 exposures, and `3 × 5 s` = 15 s to turn (common practice, no source; set `gap` to your own): about **2 min 23 s**',
    );
    expect(cell(text, 'light meanwhile')).toMatch(/^about \+0\.\d stop from first to last frame/);
  });

  test('short exposures take the time that it takes to turn; a stated gap goes before', () => {
    const short = [
      ['frames: 2', 'sweep: 18‸0°'],
      ['metered: 1/2 s', 'metered: 1/4000 s'],
    ] as const;
    // 64 × 1/4000 s = 1/62.5 s, four times: 1/16 s.
    expect(cell(hovered(short), 'takes')).toMatch(
      /^1\/16 s for 4 exposures, and `3 × 5 s` = 15 s to turn .*: about \*\*15 s\*\*$/,
    );
    const gap = ['filters: [nd6]', 'filters: [nd6]\n        gap: 8 s'] as const;
    expect(cell(hovered([...short, gap]), 'takes')).toBe('24 s for 4 exposures, gaps as written');
    expect(cell(hovered([['frames: 2', 'sweep: 6‸0°']]), 'takes')).toBe('32 s for one exposure');
  });
});

describe('effects', () => {
  test('other ways to a silky cascade, each with its setting', () => {
    const found = rows(
      hovered([['effect: mirror', 'water: { kind: cascade }\n        effect: si‸lky']]),
      '| filters | aperture | ISO | set |',
    );
    expect(found).toHaveLength(3);
    for (const row of found)
      expect(row).toMatch(/^\| (none|`\w+`( \+ `\w+`)*) \| f\/[\d.]+ \| \d+ \| .+ \|$/);
  });

  test('a dial’s 30 s keeps 32 s and still counts as within 30 s; 64 s is log2(64 / 30) = 1.1 stops too long', () => {
    const silky = ['effect: mirror', 'effect: si‸lky'] as const;
    expect(cell(hovered([silky]), 'planned')).toBe('30 s: within');
    expect(cell(hovered([silky]), 'water will look')).toBeUndefined();
    const long = hovered([silky, ['metered: 1/2 s', 'metered: 1 s']]);
    expect(cell(long, 'planned')).toBe('1 min 4 s bulb: 1.1 stops too long');
    expect(cell(long, 'water will look')).toBe('mist');
  });

  test('star trails are as long as all frames and gaps: 30 × 240 s + 29 × 2 s; no rules for points', () => {
    const text = hovered([
      ['effect: mirror', 'effect: star‸ trails'],
      ['metered: 1/2 s', 'shutter: 4 min'],
      ['frames: 2', 'frames: 30\n        gap: 2 s'],
      ['start: sunrise + 10 min', 'start: 22:00'],
    ]);
    expect(30 * 240 + 29 * 2).toBe(2 * 3600 + 58);
    expect(cell(text, 'planned')).toBe('30 × 4 min bulb = 2 h 58 s with gaps: within');
    // 7258 s at 15.041° an hour (IERS).
    expect((7258 / 3600) * 15.041).toBeCloseTo(30.32, 2);
    expect(cell(text, 'turn of the sky')).toContain('; 30.32° in all frames');
    // 36 mm / 8256 = 4.36 µm over 24 mm · 7.292e-5 rad/s · cos 0°.
    expect(0.00436 / (24 * 7.292e-5)).toBeCloseTo(2.49, 2);
    expect(cell(text, 'gaps')).toContain('do not show up to 2.49 s');
    for (const row of ['one pixel', 'points by the NPF rule', 'by the rule of 500', 'streak'])
      expect(cell(text, row)).toBeUndefined();
  });

  test('clouds and water that run through the whole frame are said to; what is no water has no streak', () => {
    const forecast =
      'forecast: { hours: [ { at: 05:00, cloud-base: 1000 m, wind-aloft: 36 km/h } ] }\nspots:';
    const water = [
      'setup: 10 min',
      'setup: 10 min\n    water: { kind: cascade, speed: 2 m/s, distance: 10 m }',
    ] as const;
    const clouds = hovered([
      ['effect: mirror', 'effect: cloud ‸streaks'],
      ['metered: 1/2 s', 'metered: 8 s'],
      ['spots:', forecast],
      water,
    ]);
    // 24 · 10 · sin 20° / 1000 · 60 = 4.93 mm a minute; 36 mm in 7.3 min.
    expect(24 * 0.01 * Math.sin(Math.PI / 9) * 60).toBeCloseTo(4.93, 2);
    expect(cell(clouds, 'clouds')).toMatch(
      /^through the whole frame, in about 7 min 20 s: `24 mm × 10\.0 m\/s × sin 20° \/ 1000 m × 60 s` = 4\.93 mm a minute/,
    );
    expect(cell(clouds, 'streak')).toBeUndefined();
    const silky = ['effect: mirror', 'effect: si‸lky'] as const;
    // 24 mm · 2 m/s · 32 s / 10 m = 153.6 mm.
    expect(cell(hovered([silky, water]), 'streak')).toBe(
      '`24 mm × 2.00 m/s × 32 s / 10.0 m` = 154 mm, through the whole frame: 4.3 times its width',
    );
  });

  test('the picture tells the planned time as the dial does: 1/16 s is its 1/15 s, 32 s its 30 s', () => {
    const label = (...pairs: readonly (readonly [string, string])[]) =>
      /planned [^\]]*?(?=\\\.\])/
        .exec(hovered([['effect: mirror', 'effect: si‸lky'], ...pairs]))?.[0]
        .replace(/\\/g, '');
    expect(label()).toBe('planned 30 s');
    expect(label(['metered: 1/2 s', 'metered: 1/1000 s'], ['frames: 2', 'frames: 1'])).toBe('planned 1/15 s');
  });

  test('stars: the moon and how far it stands from the axis', () => {
    const text = hovered([
      ['effect: mirror', 'effect: star ‸points'],
      ['start: sunrise + 10 min', 'start: 22:00'],
    ]);
    expect(cell(text, 'moon')).toMatch(
      /^up at \d{3}°, \+\d+°, \d+° from the lens axis.*; waxing gibbous, 9\d % lit$/,
    );
    expect(cell(text, 'points by the NPF rule')).toContain('coefficients from memory');
    expect(cell(text, 'one pixel')).toMatch(/geometry; planned: \d+\.\d pixels$/);
    // It is so from the start to the end of the shot: nothing more to say.
    expect(text).not.toContain('moon meanwhile');
  });
});

describe('safety', () => {
  const sun = [['facing: 118°', 'facing: 9‸1°']] as const;

  test('the sun in the frame, by the finder', () => {
    expect(hovered(sun)).toContain('Never look at the sun through an optical finder, and this body has one');
    const electronic = hovered(sun, demoKit.replace('finder: optical', 'finder: electronic'));
    expect(electronic).toContain('Never look at the sun with the naked eye');
    expect(electronic).toContain('A dark filter is never eye protection.');
  });

  test('a long lens harms the body too', () => {
    const kit = demoKit.replace('focal: 16-35 mm', 'focal: 100-400 mm');
    expect(hovered([...sun, ['wide @ 24 mm', 'wide @ 300 mm'], ['tilt: -3°', 'tilt: 1°']], kit)).toContain(
      'At 300 mm it harms sensor and shutter too',
    );
  });

  test.each([
    ['spillway upstream', 'without warning'],
    ['deep water', 'never wade alone'],
    ['cold water', 'within minutes'],
    ['tide', 'high water'],
    ['cliff edge', 'Keep away from the edge'],
    ['ice', 'carry only where'],
  ])('%s: the usual caution, and who decides', (hazard, caution) => {
    const text = hovered([['setup: 10 min', `hazards: [‸${hazard}]\n    setup: 10 min`]]);
    expect(text).toContain(caution);
    expect(text).toContain('Local rules and the people responsible there decide.');
  });

  test('the key says all of them, each once', () => {
    const text = hovered([['setup: 10 min', 'haz‸ards: [cliff edge, tide, rock edge]\n    setup: 10 min']]);
    expect(text.split('Keep away from the edge')).toHaveLength(2);
    expect(text).toContain('never turn your back on the sea');
    expect(text).toContain('Local rules and the people responsible there decide.');
  });
});

describe('the skyline', () => {
  test('a height says when sun and moon clear it and leave it, as the table of the day does', () => {
    const text = hovered([['skyline: { E: 1°', 'skyline: { E: 1‸°']]);
    const day = hovered([['2027-03-20', '2027-03‸-20']]);
    for (const event of ['sun clears skyline', 'sun leaves skyline']) {
      const time = cell(day, event)?.slice(0, 5) ?? 'not found';
      expect(time).toMatch(/^\d\d:\d\d$/);
      expect(cell(text, event)?.slice(0, 5)).toBe(time);
    }
  });
});

describe('an effect speaks of what it is about', () => {
  const water = [
    'setup: 10 min',
    'setup: 10 min\n    water: { kind: lake, speed: 1 m/s, distance: 20 m }',
  ] as const;

  test('cleared of people: of people, and not of water', () => {
    const text = hovered([['effect: mirror', 'effect: cleared of ‸people'], water]);
    // 30 s keeps 32 s, a tenth is 3.2 s; what is black for a tenth hides log2(1 / 0.9) = 0.15 stop.
    expect(cell(text, 'people')).toMatch(/^whoever stands still for up to 3\.2 s, .* at most 0\.15 stop;/);
    expect(cell(text, 'streak')).toBeUndefined();
  });

  test('silky water: of its streak, and not of people', () => {
    const text = hovered([['effect: mirror', 'effect: ‸silky'], water]);
    expect(cell(text, 'streak')).toContain('24 mm × 1.00 m/s × 32 s / 20.0 m');
    expect(cell(text, 'people')).toBeUndefined();
  });
});
