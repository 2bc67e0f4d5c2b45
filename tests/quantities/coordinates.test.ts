import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { coordinates } from '../../server/quantities/coordinates.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

const place = (latitude: number, longitude: number) => ({ latitude, longitude });
const here = place(54.4301, -2.6102);

accepts(coordinates, [
  ['54.4301, -2.6102', here],
  ['54.4301 -2.6102', here],
  ['54.4301; -2.6102', here],
  ['54.4301,-2.6102', here],
  ['+54.4301, -2.6102', here],
  ['  54.4301 ,\t-2.6102  ', here],
  ['54.4301\u00a0\u22122.6102', here],
  ['54.4301 N, 2.6102 W', here],
  ['N54.4301 W2.6102', here],
  ['54.4301n 2.6102w', here],
  ['54.4301N,2.6102W', here],
  ['54.4301 N -2.6102', here],
  ["N 54° 25.806' W 002° 36.612'", here],
  ['54 25.806 N 2 36.612 W', here],
  ['54 25.806, -2 36.612', here],
  ['54 deg 25.806 N, 2 deg 36.612 W', here],
  ['54°25\'48.36"N 2°36\'36.72"W', here],
  ['54°25′48.36″N 2°36′36.72″W', here],
  ['54, -2', place(54, -2)],
  ['0, 0', place(0, 0)],
  ['-0, -0', place(0, 0)],
  ['90, 180', place(90, 180)],
  ['-90, -180', place(-90, -180)],
]);

describe('quote marks of every kind', () => {
  // 59 + 12/60 + 7.7/3600 and 2 + 15/60 + 39.6/3600, by hand.
  accepts(
    coordinates,
    [
      '59°12’7.7”N 2°15’39.6”E',
      '59°12\'7.7"N 2°15\'39.6"E',
      '59°12′7.7″N 2°15′39.6″E',
      "59°12'7.7''N 2°15'39.6''E",
      '59°12‘7.7“N 2°15‘39.6“E',
      '59º12’7.7”N 2º15’39.6”E',
      '59˚12’7.7”N 2˚15’39.6”E',
      '59°\u00a012’\u00a07.7”\u00a0N 2°\u00a015’\u00a039.6”\u00a0E',
      '59°12’7.7”, 2°15’39.6”',
      '59°12’7.7” 2°15’39.6”',
      'N59°12’7.7” E2°15’39.6”',
    ].map((text) => [text, place(59.202138889, 2.261)] as const),
  );
});

describe('the sign is that of the whole angle', () => {
  accepts(coordinates, [
    ["0°30'S, 0°07'W", place(-0.5, -0.116666667)],
    ["-0° 30', -0° 07'", place(-0.5, -0.116666667)],
    ["-0° 30' \u22120° 07'", place(-0.5, -0.116666667)],
    ["-54° 30', -2° 15'", place(-54.5, -2.25)],
  ]);
});

describe('letters give the order', () => {
  accepts(coordinates, [
    ['0.12W, 51.5N', place(51.5, -0.12)],
    ['W 0.12; N 51.5', place(51.5, -0.12)],
    ['2.6 W, -54', place(-54, -2.6)],
    ['151.2 E 33.8 S', place(-33.8, 151.2)],
  ]);
});

describe('geo: URIs, RFC 5870', () => {
  accepts(coordinates, [
    ['geo:54.4301,-2.6102', here],
    ['GEO:54.4301,-2.6102;u=35', here],
    ['geo:54.4301,-2.6102,212;crs=wgs84;u=35', here],
    // The example of RFC 5870, section 1.
    ['geo:13.4125,103.8667', place(13.4125, 103.8667)],
    // In the URI a comma always parts the numbers.
    ['geo:52,37', place(52, 37)],
    ['geo:-0,0', place(0, 0)],
  ]);
});

const comma = 'plan/decimal-comma';
refuses(coordinates, [
  ['52,37', comma, '“52,37” may be the one number 52.37 with a decimal comma'],
  ['52,37N', comma, 'a space after the comma: 52, 37N.'],
  ['52,37, 4,90', comma, 'decimal point', '52.37, 4.90'],
  ['52,37,4,90', comma, 'decimal point', '52.37, 4.90'],
  ['52,37 4,90', comma, 'not a decimal comma: 52.37 4.90.', '52.37 4.90'],
  ['52,37; 4,90', comma, 'decimal point', '52.37; 4.90'],
  ['52,37, -4.90', comma, 'decimal point', '52.37, -4.90'],
  ['52,37N 4,90E', comma, 'decimal point', '52.37N 4.90E'],
  ["52°12,5'N 4°30,2'E", comma, 'decimal point', "52°12.5'N 4°30.2'E"],
  ['151.2, -33.8', 'plan/swapped-coordinates', '151.2 is beyond 90°', '-33.8, 151.2'],
  ['geo:151.2,-33.8', 'plan/swapped-coordinates', '151.2 is beyond 90°', 'geo:-33.8,151.2'],
  ["120°30', 45°15'", 'plan/swapped-coordinates', 'swapped', "45°15', 120°30'"],
  ['95, 100', 'plan/impossible-value', 'Latitude 95 is beyond 90°'],
  ['95 N, 3 W', 'plan/impossible-value', 'Latitude 95 N is beyond 90°'],
  ['10, 190', 'plan/impossible-value', 'Longitude 190 is beyond 180°'],
  ["54°61'N, 2 W", 'plan/impossible-value', '61 minutes'],
  ['54°20\'60"N, 2 W', 'plan/impossible-value', '60 seconds'],
  ['54 N, 3 S', 'plan/unreadable', 'Both coordinates are given as latitude'],
  ['5 E 5 E', 'plan/unreadable', 'Both coordinates are given as longitude'],
  ['-2.6 E, 54', 'plan/ambiguous-value', 'the sign says one side'],
  ['54 N, -2.6 W', 'plan/ambiguous-value', 'both a minus and W'],
  ['54-25-48N 2-36-37W', 'plan/ambiguous-value', 'hyphen', '54°25\'48"N 2°36\'37"W'],
  ['54.43-2.61', 'plan/ambiguous-value', 'hyphen'],
  ['1- N', 'plan/ambiguous-value', 'hyphen'],
  ['54-25-48-7N 2W', 'plan/ambiguous-value', 'hyphen'],
  ['54 25 48 2 36 37', 'plan/ambiguous-value', 'comma between latitude and longitude'],
  ['N 54 N, 2 W', 'plan/unreadable', 'two letters'],
  ['54.4301, -2.6102 ‽', 'plan/unreadable', '“‽” (U+203D)'],
  ['54.4301, -2.6102 \u0663', 'plan/unreadable', 'U+0663'],
  ['54.4301, -2.6102\u0007', 'plan/unreadable', 'U+0007'],
  ['north steps', 'plan/unreadable', '“steps”'],
  ['54.4301', 'plan/unreadable', 'only one coordinate'],
  ['54.4301,', 'plan/unreadable', 'only one coordinate'],
  ['', 'plan/unreadable', 'missing'],
  ['N, 3', 'plan/unreadable', 'degrees is missing'],
  ['54.43, -2.61, 212', 'plan/unreadable', 'Two numbers are enough'],
  ["12.5°30', 3", 'plan/unreadable', 'Only the last'],
  ['54°30"N, 2 W', 'plan/unreadable', 'degrees, then minutes, then seconds'],
  ['geo:54.43', 'plan/unreadable', 'geo: URI'],
  ['geo:54,43,2,61', 'plan/unreadable', 'geo: URI'],
  ['geo:54.43,-2.61;crs=nad27', 'plan/unreadable', 'crs=nad27'],
]);

test('the problem lies under the part that is wrong', () => {
  const text = "54°61'N, 2 W";
  const [problem] = coordinates.parse(text).problems;
  expect(text.slice(problem?.span.start, problem?.span.end)).toBe('61');
});

const axis = (limit: number) =>
  fc.integer({ min: -limit * 1e9, max: limit * 1e9 }).map((n) => Number((n / 1e9).toFixed(9)));
keepsTheContract(coordinates, fc.record({ latitude: axis(90), longitude: axis(180) }));

test('an angle comes back from degrees, minutes and seconds', () => {
  const part = (max: number) => fc.integer({ min: 0, max });
  fc.assert(
    fc.property(
      part(89),
      part(59),
      part(59),
      part(179),
      fc.constantFrom('N', 'S'),
      (deg, min, sec, lon, side) => {
        const reading = coordinates.parse(`${deg}°${min}'${sec}"${side} ${lon} W`);
        const sign = side === 'S' ? -1 : 1;
        expect(reading.value?.latitude).toBeCloseTo(sign * ((deg * 3600 + min * 60 + sec) / 3600), 8);
        expect(reading.value?.longitude).toBe(0 - lon);
      },
    ),
  );
});
