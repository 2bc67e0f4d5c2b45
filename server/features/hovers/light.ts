import {
  type Coefficients,
  DOUBT_STOPS,
  degreesFromFull,
  type ExpectedLight,
  LUX_AT_EV_0,
  MEAN_MOON_PARALLAX_DEGREES,
  moonReading,
  skyShare,
  sunIlluminanceLux,
  sunReading,
  type TableReading,
} from '../../sky/light.ts';
import { paragraphs, table } from '../markdown.ts';
import { altitudeText, decimal } from '../numbers.ts';

type Row = readonly [what: string, working: string, result: string];

/** Less than this is not worth a row of its own. */
const leastLux = 0.0001;

/**
 * The working of an expected light, to be followed by hand: sun, clouds, land and moon to the illuminance, that to an
 * exposure value, and what its ± is made of, with the sources. `skyPart` adds what of it comes from the sky.
 */
export function lightWorking(light: ExpectedLight, show = { skyPart: false }): string {
  return paragraphs(
    table(
      ['expected light', 'working', 'result'],
      [
        ...sunRows(light),
        cloudRow(light),
        ...shadeRows(light),
        ...moonRows(light),
        sumRow(light),
        ...(show.skyPart ? [skyRow(light)] : []),
        ['EV at ISO 100', `\`log2(${lux(light.lux)} / ${LUX_AT_EV_0})\``, `**${decimal(light.ev100, 2)}**`],
        spreadRow(light),
      ],
    ),
    sources(light, show),
  );
}

/** The table at the sun's altitude: by day, in twilight, and the night sky that is left. */
function sunRows({ parts }: ExpectedLight): readonly Row[] {
  const { sunAltitudeDegrees: altitude, clearLux } = parts;
  const name = altitude < -18 ? 'night sky' : 'sun and sky';
  const where =
    altitude < -18
      ? `sun ${altitudeText(altitude, 1)}; below −18° as at −18°`
      : `sun ${altitudeText(altitude, 3)} without refraction`;
  return [[name, `${where}, clear: ${readingText(sunReading(altitude))}`, `${lux(clearLux)} lx`]];
}

/** `x = −3.704 / 90 = −0.04116: 10^(2.88 + 21.81x − 258.11x² − 858.36x³)`. */
function readingText({ x, row, next }: TableReading, more = ''): string {
  const altitude = (90 * x).toFixed(3);
  const start = `\`x = ${decimal(90 * x, 3)} / 90 = ${decimal(Number(altitude) / 90, 5)}\``;
  if (next === undefined) return `${start}, \`10^(${polynomialText(row)}${more})\``;
  const [p, q] = [1 - next.share, next.share].map((share) => decimal(share, 3));
  return `${start}, between two rows of the table \`p = ${polynomialText(row)}\` and \`q = ${polynomialText(next.row)}\`: \`10^(${p}p + ${q}q${more})\``;
}

function polynomialText(row: Coefficients): string {
  const powers = ['', 'x', 'x²', 'x³'];
  return row.reduce((text, value, place) => {
    const size = `${decimal(Math.abs(value), 2)}${powers[place]}`;
    if (place === 0) return value < 0 ? `−${size}` : size;
    return `${text} ${value < 0 ? '−' : '+'} ${size}`;
  }, '');
}

function cloudRow({ cloudShare, parts }: ExpectedLight): Row {
  const leave = `× ${factor(parts.cloudFactor)}`;
  if (cloudShare === undefined) {
    return ['clouds', 'not known: half way, in stops, between clear and overcast: `√(1 × 0.25)`', leave];
  }
  return [
    'clouds',
    `${factor(100 * cloudShare)} % of the sky: \`1 − 0.75 × ${factor(cloudShare)}^3.4\``,
    leave,
  ];
}

/** What the land takes: the sun's own beam, as far as the clouds let it through. */
function shadeRows(light: ExpectedLight): readonly Row[] {
  const taken = heldBackLux(light.parts);
  if (taken < leastLux) return [];
  return [['skyline', `hides the sun: ${beamText(light)}`, `− ${lux(taken)} lx`]];
}

/** The sun's share of a clear sky's light, and what comes of it through the clouds. */
function beamText({ parts, cloudShare }: ExpectedLight): string {
  const altitude = parts.sunAltitudeDegrees;
  const sine = `sin ${decimal(altitude, 3)}°`;
  const beam = factor(1 - skyShare(altitude));
  const open = cloudShare === undefined ? 'what clouds leave' : 'the share of open sky';
  return `of a clear sky’s light its beam is \`b / (b + s)\` = ${beam}, with \`b = 127500 × e^(−0.21 / ${sine}) × ${sine}\` and the sky \`s = 800 + 15500 × √(${sine})\`; times ${open}: \`${lux(parts.clearLux)} × ${beam} × ${factor(parts.openShare)}\``;
}

function heldBackLux(parts: ExpectedLight['parts']): number {
  return parts.sunBehindSkyline ? beamLux(parts) : 0;
}

function beamLux({ clearLux, cloudFactor, skyLux }: ExpectedLight['parts']): number {
  return clearLux * cloudFactor - skyLux;
}

/** What the sky alone sends, without the sun's beam. */
function skyRow(light: ExpectedLight): Row {
  const { parts } = light;
  const beam = beamLux(parts);
  const both = `${lux(parts.clearLux)} × ${factor(parts.cloudFactor)}`;
  if (beam < leastLux) return ['from the sky', `\`${both}\``, `${lux(parts.skyLux)} lx`];
  const found = heldBackLux(parts) > 0 ? '' : `without the sun: ${beamText(light)} = ${lux(beam)} lx; `;
  return ['from the sky', `${found}\`${both} − ${lux(beam)}\``, `${lux(parts.skyLux)} lx`];
}

/** Only in the dark: the sun drowns the moon long before it rises. */
function moonRows({ parts }: ExpectedLight): readonly Row[] {
  const { moon } = parts;
  if (moon === undefined) return [];
  const altitude = `${altitudeText(moon.altitudeDegrees, 3)} without refraction`;
  if (parts.moonBehindSkyline && moon.altitudeDegrees >= -0.8) {
    return [['moon', `${altitude}, behind the skyline`, '+ 0 lx']];
  }
  if (moon.altitudeDegrees < -0.8) return [['moon', `${altitude}, down`, '+ 0 lx']];
  const fromFull = decimal(degreesFromFull(moon.elongationDegrees), 1);
  const phase = ` − 0.00868 × ${fromFull} − 2.2×10⁻⁹ × ${fromFull}⁴`;
  const reading = readingText(moonReading(moon.altitudeDegrees), phase);
  const near = `\`× (${decimal(moon.horizontalParallaxDegrees, 3)} / ${MEAN_MOON_PARALLAX_DEGREES})² × ${factor(parts.cloudFactor)}\``;
  return [
    [
      'moon',
      `${altitude}, ${fromFull}° from full: ${reading} ${near} (parallax against its mean; clouds)`,
      parts.moonLux < leastLux ? `under ${leastLux} lx` : `+ ${lux(parts.moonLux)} lx`,
    ],
  ];
}

function sumRow({ parts, lux: total }: ExpectedLight): Row {
  const held = heldBackLux(parts);
  const terms = [
    `${lux(parts.clearLux)} × ${factor(parts.cloudFactor)}`,
    held < leastLux ? '' : ` − ${lux(held)}`,
    parts.moonLux < leastLux ? '' : ` + ${lux(parts.moonLux)}`,
  ];
  return ['level ground', `\`${terms.join('')}\``, `${lux(total)} lx`];
}

/** Each cause with its stops, and their sum of squares. */
function spreadRow(light: ExpectedLight): Row {
  const { spread, spreadStops, cloudShare } = light;
  const { skyStops, cloudStops, shadeStops } = spread;
  const causes = [
    { stops: skyStops, text: skyCause(light) },
    {
      stops: cloudStops,
      text:
        cloudShare === undefined
          ? 'clouds not known `1 + 1.3 / 2`'
          : `clouds \`1.3 × ${factor(cloudShare)}\``,
    },
    { stops: shadeStops, text: 'shade, since it is not known how much of the sky the land hides' },
  ].filter(({ stops }) => stops >= 0.005);
  const squares = causes.map(({ stops }) => `${decimal(stops, 2)}²`).join(' + ');
  const parts = causes.map(({ stops, text }) => `${text} = ${decimal(stops, 2)}`).join('; ');
  return ['±', `\`√(${squares})\`: ${parts}`, `${decimal(spreadStops, 2)} stops`];
}

/** Clear sky, moon and starlight are known to different stops; each counts by its share of the light. */
function skyCause(light: ExpectedLight): string {
  const { moonShare, nightShare } = light.spread;
  const [clear, moon, night] = [DOUBT_STOPS.clear, DOUBT_STOPS.moon, DOUBT_STOPS.night].map((stops) =>
    decimal(stops, 2),
  );
  if (!inTheDark(light)) return 'real skies against the table `0.1 × log2 10`';
  const [m, n] = [moonShare, nightShare].map((share) => decimal(share, 2));
  return `real skies ${clear}, moonlight ${moon}, starlight ${night}; ${m} of the light is the moon’s, ${n} the night sky’s (${lux(sunIlluminanceLux(-18))} lx if clear): \`${moon} × ${m} + (${clear} + (${night} − ${clear}) × ${n}) × (1 − ${m})\``;
}

/** Whether moon or stars count for the ±. */
function inTheDark({ spread }: ExpectedLight): boolean {
  return spread.moonShare >= 0.005 || spread.nightShare >= 0.005;
}

function sources(light: ExpectedLight, show: { readonly skyPart: boolean }): string {
  const split = heldBackLux(light.parts) >= leastLux || (show.skyPart && beamLux(light.parts) >= leastLux);
  const lines = [
    'Light: Explanatory Supplement to the Astronomical Almanac (1992), section 9.3, and its notes: clear skies differ by 0.1 in log10, overcast takes a factor of 3 to 10.',
    'Clouds: Kasten and Czeplak, Solar Energy 24 (1980), found for sunlight.',
    split ? 'Beam and sky: IES RP-21 (1984), from memory.' : '',
    light.spread.shadeStops > 0 ? '± 1 stop in shade: common practice, no source.' : '',
    inTheDark(light)
      ? 'Moonlight: two published formulas differ by 0.19 in log10; a moonless sky is given as 0.0005 to 0.002 lx.'
      : '',
    'EV: ISO 2720, incident light, C = 250. An estimate for level ground in the open; under trees or cliffs it is darker.',
  ];
  return lines.filter((line) => line !== '').join(' ');
}

/** Four figures, so that the working can be followed to the hundredth of a stop; the ± says how much of that is known. */
function lux(value: number): string {
  return value < leastLux ? decimal(value, 4) : String(Number(value.toPrecision(4)));
}

/** A bare number to four places at most, without idle zeros. */
function factor(value: number): string {
  return String(Number(value.toFixed(4)));
}
