import { plain } from '../markdown.ts';

/**
 * Small pictures for hovers, as data addresses in markdown. They have no background of their own: every colour is a
 * mid-tone that stands out by 3 to 1 or more on white and on #1e1e1e alike (WCAG 2.2, 1.4.11), and no meaning is carried
 * by colour alone. Nothing is smaller than 10 px. The text is ASCII, so that it can be encoded byte by byte.
 */

export const colours = {
  /** Words, axes, the land. */
  ink: '#7c7c7c',
  sun: '#c28000',
  moon: '#5a8ae0',
  frame: '#b06ab3',
} as const;

/** A number for an attribute, to a tenth of a pixel. */
export function px(value: number): string {
  const text = value.toFixed(1);
  return text.endsWith('.0') ? text.slice(0, -2).replace(/^-0$/, '0') : text;
}

type Attributes = { readonly [name: string]: string | number };

/** An element. Attribute values are this program's own; text goes through `words`. */
export function element(name: string, attributes: Attributes, inside = ''): string {
  const written = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? px(value) : value}"`)
    .join('');
  return inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** A label. */
export function words(
  x: number,
  y: number,
  text: string,
  anchor: 'start' | 'middle' | 'end' = 'start',
  fill: string = colours.ink,
): string {
  return element('text', { x, y, fill, 'text-anchor': anchor }, escaped(text));
}

export function line(x1: number, y1: number, x2: number, y2: number, more: Attributes = {}): string {
  return element('line', { x1, y1, x2, y2, stroke: colours.ink, ...more });
}

export type Point = readonly [x: number, y: number];

export function polyline(points: readonly Point[], more: Attributes): string {
  return element('polyline', { points: points.map(pair).join(' '), fill: 'none', ...more });
}

export function pair([x, y]: Point): string {
  return `${px(x)},${px(y)}`;
}

/** A picture as markdown. The alternative text says the same in words. */
export function picture(
  width: number,
  height: number,
  parts: readonly string[],
  alternative: string,
): string {
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${px(width)} ${px(height)}`,
      'font-family': 'sans-serif',
      'font-size': 11,
    },
    parts.join(''),
  );
  return `![${plain(alternative, 600)}](data:image/svg+xml;base64,${base64(svg)})`;
}

/** For text and attributes of XML, in ASCII. */
function escaped(text: string): string {
  return [...text]
    .map((character) =>
      /^[ -~]$/.test(character) && !/^[&<>"']$/.test(character)
        ? character
        : `&#${character.codePointAt(0) ?? 32};`,
    )
    .join('');
}

const digits = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Base64 of an ASCII text (RFC 4648, section 4). */
function base64(ascii: string): string {
  let encoded = '';
  for (let at = 0; at < ascii.length; at += 3) {
    const left = ascii.length - at;
    const bits =
      (ascii.charCodeAt(at) << 16) |
      ((left > 1 ? ascii.charCodeAt(at + 1) : 0) << 8) |
      (left > 2 ? ascii.charCodeAt(at + 2) : 0);
    encoded += digits.charAt(bits >> 18) + digits.charAt((bits >> 12) & 63);
    encoded += left > 1 ? digits.charAt((bits >> 6) & 63) : '=';
    encoded += left > 2 ? digits.charAt(bits & 63) : '=';
  }
  return encoded;
}
