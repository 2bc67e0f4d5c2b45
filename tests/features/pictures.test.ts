import { Body as EngineBody, Equator, Horizon, Observer } from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import { hover } from '../../server/features/hover.ts';
import { colours, picture, words } from '../../server/features/pictures/svg.ts';
import { caret } from '../support/marked.ts';
import { analysePlan, demoPlan } from './demo.ts';

interface Shown {
  readonly alternative: string;
  readonly svg: string;
}

function picturesIn(markdown: string): readonly Shown[] {
  return [
    ...markdown.matchAll(/!\[((?:\\.|[^\]])*)\]\(data:image\/svg\+xml;base64,([A-Za-z0-9+/]+=*)\)/g),
  ].map(([, alternative = '', data = '']) => ({
    alternative: alternative.replace(/\\(.)/g, '$1'),
    svg: Buffer.from(data, 'base64').toString('utf8'),
  }));
}

function at(marked: string): Shown {
  const { text, offset } = caret(marked);
  const [shown, ...more] = picturesIn(hover(analysePlan(text), offset)?.markdown ?? '');
  if (shown === undefined || more.length > 0) throw new Error('One picture is expected.');
  return shown;
}

const facing = demoPlan.replace('facing: 118°', 'facing: 11‸8°');
const moment = demoPlan.replace('start: sunrise + 10 min', 'start: sun‸rise + 10 min');
/** An hour and eight minutes under a moon that stands in the frame. */
const moonlit = demoPlan
  .replace('start: sunrise + 10 min', 'start: 21:00')
  .replace('frames: 2', 'frames: 120\n        gap: 2 s')
  .replace('tilt: -3°', 'tilt: 30°')
  .replace('facing: 118°', 'facing: 14‸0°');
const effect = demoPlan.replace('effect: mirror', 'effect: mi‸rror');

/** Bearing and height of the moon as seen from the demo's spot, whole degrees, by another library. */
function moonAt(time: string): readonly number[] {
  const observer = new Observer(54.4301, -2.6102, 0);
  const { ra, dec } = Equator(EngineBody.Moon, new Date(time), observer, true, true);
  const { azimuth, altitude } = Horizon(new Date(time), observer, ra, dec, 'normal');
  return [Math.round(azimuth), Math.round(altitude)];
}

describe('pictures', () => {
  test('say in words what they show', () => {
    expect(at(facing).alternative).toBe(
      'Plan with north up, 06:24 to 06:25: the frame looks towards 118°, 74° wide; the sun goes from 091°, +1° (behind the land) to 091°, +1°; the moon at 300°, −8° (down); the land stands +1° at 090°, +2° at 135°, +4° at 180°.',
    );
    expect(at(moment).alternative).toBe(
      'Height of the sun on 2027-03-20: from −36° to +35°; at 06:24 it stands at +1°, up.',
    );
    expect(at(effect).alternative).toBe('Shutter times for mirror: 20 s to 5 min; planned 30 s.');
  });

  test('the sun at 091° stands right of the middle, just on the ring of the horizon', () => {
    const { svg } = at(facing);
    const sun = new RegExp(`<circle cx="([\\d.]+)" cy="([\\d.]+)" r="6" fill="${colours.sun}"`).exec(svg);
    const [x, y] = [Number(sun?.[1]) - 130, Number(sun?.[2]) - 104];
    // Azimuth 91.3°, 1.0° high: 76 · 89/90 px from the middle.
    expect(Math.hypot(x, y)).toBeCloseTo((76 * 89) / 90, 0);
    expect((Math.atan2(x, -y) * 180) / Math.PI).toBeCloseTo(91.3, 0);
  });

  test('the edges of the frame are 73.7° apart around 118°', () => {
    const wedge = /<path d="M130,104L([\d.]+),([\d.]+)A76 76 0 0 1 ([\d.]+),([\d.]+)Z"/.exec(at(facing).svg);
    const bearing = (x: string | undefined, y: string | undefined) =>
      (Math.atan2(Number(x) - 130, 104 - Number(y)) * 180) / Math.PI;
    expect(bearing(wedge?.[1], wedge?.[2])).toBeCloseTo(118 - 36.9, 0);
    expect(bearing(wedge?.[3], wedge?.[4])).toBeCloseTo(118 + 36.9, 0);
  });

  test('both ends of both ways, and the land that the plan gives; of a long skyline its highest', () => {
    const { alternative } = at(moonlit);
    expect(alternative).toMatch(
      /^Plan with north up, 21:00 to 22:08: the frame looks towards 140°, 74° wide; the sun goes from 305°, −22° \(down\) to 322°, −29° \(down\); the moon goes from 142°, \+36° to 163°, \+40°; /,
    );
    // astronomy-engine, topocentric with refraction: the same directions to a degree.
    expect(moonAt('2027-03-20T21:00:00Z')).toEqual([142, 36]);
    expect(moonAt('2027-03-20T22:08:00Z')).toEqual([163, 40]);
    const many = ['N: 3°', 'NE: 4°', 'E: 5°', 'SE: 7°', 'S: 6°', 'SW: 5°', 'W: 4°', 'NW: 3°', '100: 6°'];
    const long = moonlit.replace(/skyline: .*/, `skyline: { ${many.join(', ')} }`);
    expect(at(long).alternative).toMatch(/; the land stands up to \+7° at 135°\.$/);
    const hidden = moonlit.replace(/skyline: .*/, 'skyline: { E: 50°, SE: 50°, S: 20° }');
    expect(at(hidden).alternative).toContain('the moon goes from 142°, +36° (behind the land) to 163°, +40°');
    expect(at(moonlit.replace(/ +skyline: .*\n/, '')).alternative).toMatch(/to 163°, \+40°\.$/);
  });

  test('the moon’s way: dotted over its day, dashed and thick while the shot lasts, through where the moon stands', () => {
    const { svg } = at(moonlit);
    const ways = [
      ...svg.matchAll(
        /<polyline points="([^"]+)" fill="none" stroke="(#\w+)" stroke-width="([\d.]+)"([^>]*)>/g,
      ),
    ].map(([, points = '', stroke, width, more = '']) => ({
      points: points.split(' ').map((pair) => pair.split(',').map(Number)),
      stroke,
      width: Number(width),
      dashed: more.includes('stroke-dasharray'),
    }));
    const moon = ways.filter(({ stroke }) => stroke === colours.moon);
    const sun = ways.filter(({ stroke }) => stroke === colours.sun);
    // The sun is down all through the shot: only its day is drawn.
    expect(sun.every(({ dashed, width }) => !dashed && width < 2)).toBe(true);
    expect(moon.every(({ dashed }) => dashed)).toBe(true);
    const during = moon.filter(({ width }) => width >= 4);
    expect(during).toHaveLength(1);
    const direction = ([x = 0, y = 0]: readonly number[]) => [
      (Math.atan2(x - 130, 104 - y) * 180) / Math.PI,
      90 - (90 * Math.hypot(x - 130, y - 104)) / 76,
    ];
    const [first, last] = [during[0]?.points[0], during[0]?.points.at(-1)].map((point) =>
      direction(point ?? []),
    );
    expect(first?.[0]).toBeCloseTo(142.4, 0);
    expect(first?.[1]).toBeCloseTo(35.7, 0);
    expect(last?.[0]).toBeCloseTo(163, -0.5);
    expect(last?.[1]).toBeCloseTo(40, 0);
  });

  test('labels stay inside and apart from each other and from sun and moon', () => {
    for (const marked of [
      facing,
      moonlit,
      facing.replace('11‸8°', '9‸1°'),
      moonlit.replace('14‸0°', '23‸0°'),
    ]) {
      const { svg } = at(marked);
      const labels = [
        ...svg.matchAll(/<text x="([\d.-]+)" y="([\d.-]+)" fill="#\w+" text-anchor="(\w+)">([^<]+)</g),
      ].map(([, x, y, anchor, text = '']) => {
        const width = 5.5 * text.length;
        const left = Number(x) - (anchor === 'end' ? width : anchor === 'middle' ? width / 2 : 0);
        return { text, left, right: left + width, top: Number(y) - 8, bottom: Number(y) + 2 };
      });
      const discs = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="(?:6|5.5)"/g)].map(
        ([, x, y]) => ({
          text: 'disc',
          left: Number(x) - 6,
          right: Number(x) + 6,
          top: Number(y) - 6,
          bottom: Number(y) + 6,
        }),
      );
      expect(labels).toHaveLength(7);
      expect(discs).toHaveLength(2);
      for (const [place, a] of labels.entries()) {
        expect(a.left, a.text).toBeGreaterThanOrEqual(0);
        expect(a.right, a.text).toBeLessThanOrEqual(260);
        for (const b of [...labels.slice(place + 1), ...discs]) {
          const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
          expect(apart, `${a.text} and ${b.text}`).toBe(true);
        }
      }
    }
  });

  test('are small, closed, and in letters of 10 px and more', () => {
    for (const marked of [facing, moonlit, moment, effect]) {
      const { svg } = at(marked);
      expect(Number(/ width="(\d+)"/.exec(svg)?.[1])).toBeLessThanOrEqual(320);
      expect(Number(/ font-size="(\d+)"/.exec(svg)?.[1])).toBeGreaterThanOrEqual(10);
      expect(svg.match(/font-size/g)).toHaveLength(1);
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
      expect(svg.replace(/fill-opacity="[\d.]+"/g, '')).not.toMatch(/\.\d\d/);
      expect(svg.length).toBeLessThan(8000);
      expect(svg.startsWith('<svg xmlns="http://www.w3.org/2000/svg"')).toBe(true);
      expect(svg).not.toMatch(/<script|href|style=|@import/);
    }
  });

  test('are the same every time', () => {
    for (const marked of [facing, moonlit, moment, effect]) expect(at(marked)).toEqual(at(marked));
  });

  test('text in them is escaped', () => {
    const [shown] = picturesIn(picture(10, 10, [words(1, 1, '<&"°')], 'a ] b'));
    expect(shown?.svg).toContain('>&#60;&#38;&#34;&#176;</text>');
    expect(shown?.alternative).toBe('a ] b');
  });

  test('stand high in the hover: before the figures', () => {
    for (const marked of [facing, moonlit, moment, effect]) {
      const { text, offset } = caret(marked);
      const markdown = hover(analysePlan(text), offset)?.markdown ?? '';
      expect(markdown.indexOf('](data:image')).toBeLessThan(markdown.indexOf('| :--- | :--- |'));
    }
  });

  test('each band of twilight is darker than the one above it, on white and on #1e1e1e', () => {
    const opacities = [...at(moment).svg.matchAll(/fill="#000000" fill-opacity="([\d.]+)"/g)].map(
      ([, opacity]) => Number(opacity),
    );
    expect(opacities).toHaveLength(4);
    for (const ground of [255, 0x1e]) {
      const shades = opacities.map((opacity) => ground * (1 - opacity));
      expect(shades).toEqual([...new Set(shades)].sort((a, b) => b - a));
    }
  });

  test('their colours stand out by 3 to 1 on white and on #1e1e1e (WCAG 2.2, success criterion 1.4.11)', () => {
    const luminance = (hex: string) => {
      const [r = 0, g = 0, b = 0] = [1, 3, 5]
        .map((place) => Number.parseInt(hex.slice(place, place + 2), 16) / 255)
        .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const contrast = (a: string, b: string) => {
      const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
      return (light + 0.05) / (dark + 0.05);
    };
    for (const colour of Object.values(colours)) {
      expect(contrast(colour, '#ffffff')).toBeGreaterThanOrEqual(3);
      expect(contrast(colour, '#1e1e1e')).toBeGreaterThanOrEqual(3);
    }
  });
});
