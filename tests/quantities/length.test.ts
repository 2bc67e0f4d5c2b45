import fc from 'fast-check';
import {
  distance,
  height,
  length,
  pixelSize,
  sensorSize,
  threadSize,
} from '../../server/quantities/length.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

// Foot, yard and mile: international yard and pound agreement, 1959. Nautical mile: ISO 80000-3.
accepts(length, [
  ['600 m', 600],
  ['600m', 600],
  ['600 metres', 600],
  ['1.2 km', 1200],
  ['85 mm', 0.085],
  ['30 cm', 0.3],
  ['34 ft', 10.3632],
  ["6'", 1.8288],
  ['10 in', 0.254],
  ['10"', 0.254],
  ['5 ft 11 in', 1.8034],
  ['5\'11"', 1.8034],
  ['5′ 11″', 1.8034],
  ['100 yd', 91.44],
  ['2 mi', 3218.688],
  ['½ mile', 804.672],
  ['0.5 nmi', 926],
  ['1 KM', 1000],
  ['0 m', 0],
  ['-0 m', 0],
]);

refuses(length, [
  ['600', 'plan/missing-unit', 'Write 600 m or 600 ft.'],
  ['600 miels', 'plan/unknown-unit', '“miels” is not a unit of length'],
  ['5 nm', 'plan/unknown-unit', '“nm” is not a unit of length'],
  ['5 M', 'plan/ambiguous-value', 'm, mi or nmi'],
  ['1,2 km', 'plan/decimal-comma', '1.2', '1.2 km'],
  ['1,200 m', 'plan/decimal-comma', '1200'],
  ['-5 m', 'plan/impossible-value', 'cannot be negative'],
  ['999999999 km', 'plan/impossible-value', 'farther than anywhere'],
  ['5\'13"', 'plan/unreadable', 'fewer than 12 inches'],
  ['5.5\' 3"', 'plan/unreadable', 'whole feet'],
  ['5 ft 3 m', 'plan/unreadable', 'whole feet'],
  ['1 km 200 m', 'plan/unreadable', 'nothing more'],
  ['far', 'plan/unreadable', 'a length'],
  ['', 'plan/unreadable', 'a length'],
]);

/** As a sum of conversions leaves it: twelve significant digits. */
const twelveDigits = (value: number) => Number(value.toPrecision(12)) + 0;
const metres = fc.double({ min: 0, max: 1e8, noNaN: true }).map(twelveDigits);
keepsTheContract(length, metres);

accepts(distance, [
  ['1.2 km', 1200],
  ['600 m', 600],
  ['½ mile', 804.672],
  ['0 m', 0],
]);

refuses(distance, [
  ['2', 'plan/missing-unit', 'Write 2 km or 2 mi.'],
  ['600', 'plan/missing-unit', 'Write 600 m or 600 ft.'],
  ['-5 m', 'plan/impossible-value', 'cannot be negative'],
  ['2 kn', 'plan/unknown-unit', '“kn” is not a unit of length'],
  ['far', 'plan/unreadable', 'a length'],
]);

keepsTheContract(distance, metres);

accepts(height, [
  ['212 m', 212],
  ['-0.2 m', -0.2],
  ['\u22120.2 m', -0.2],
  ['1000 ft', 304.8],
  ['-1 ft 6 in', -0.4572],
]);

refuses(height, [
  ['212', 'plan/missing-unit', 'Write 212 m or 212 ft.'],
  ['0,9 m', 'plan/decimal-comma', '0.9', '0.9 m'],
]);

keepsTheContract(height, fc.double({ min: -1e4, max: 1e4, noNaN: true }).map(twelveDigits));

accepts(pixelSize, [
  ['8256 x 5504', { width: 8256, height: 5504 }],
  ['8256x5504', { width: 8256, height: 5504 }],
  ['8256 × 5504', { width: 8256, height: 5504 }],
  ['8256 x 5504 px', { width: 8256, height: 5504 }],
]);

refuses(pixelSize, [
  ['8256', 'plan/unreadable', 'x and the height'],
  ['8256 x', 'plan/unreadable', 'width x height'],
  ['82.5 x 55', 'plan/impossible-value', 'whole numbers'],
  ['0 x 5504', 'plan/impossible-value', 'whole numbers'],
  ['8256 x 5504 x 3', 'plan/unreadable', 'nothing more'],
  ['45 MP', 'plan/unreadable', 'x and the height'],
]);

const pixels = fc.integer({ min: 1, max: 1_000_000 });
keepsTheContract(pixelSize, fc.record({ width: pixels, height: pixels }));

const sides = (widthMillimetres: number, heightMillimetres: number) => ({
  widthMillimetres,
  heightMillimetres,
});

accepts(sensorSize, [
  ['36 x 24 mm', sides(36, 24)],
  ['36x24mm', sides(36, 24)],
  ['36 × 24 mm', sides(36, 24)],
  ['36 mm x 24 mm', sides(36, 24)],
  ['23.5 x 15.6 mm', sides(23.5, 15.6)],
  ['6 x 7 cm', sides(60, 70)],
  ['10 x 8 in', sides(254, 203.2)],
]);

refuses(sensorSize, [
  ['36 x 24', 'plan/missing-unit', 'Write 36 x 24 mm', '36 x 24 mm'],
  ['36 mm', 'plan/unreadable', 'x and the height'],
  ['36 x 24 px', 'plan/unknown-unit', '“px”'],
  ['23,5 x 15.6 mm', 'plan/decimal-comma', '23.5', '23.5 x 15.6 mm'],
  ['36 x 0 mm', 'plan/impossible-value', 'between 1 mm and 1000 mm'],
  ['full frame', 'plan/unreadable', '36 x 24 mm'],
]);

const side = fc.double({ min: 1, max: 1000, noNaN: true }).map(twelveDigits);
keepsTheContract(sensorSize, fc.record({ widthMillimetres: side, heightMillimetres: side }));

accepts(threadSize, [
  ['77 mm', 77],
  ['77mm', 77],
  ['77', 77],
  ['ø77', 77],
  ['⌀ 77 mm', 77],
  ['40.5 mm', 40.5],
]);

refuses(threadSize, [
  ['7.7 cm', 'plan/unknown-unit', '“cm”'],
  ['7 mm', 'plan/impossible-value', 'between 10 mm and 400 mm'],
  ['40,5 mm', 'plan/decimal-comma', '40.5', '40.5 mm'],
  ['77 mm 82 mm', 'plan/unreadable', 'nothing more'],
  ['big', 'plan/unreadable', 'a diameter'],
]);

keepsTheContract(threadSize, fc.double({ min: 10, max: 400, noNaN: true }));
