import fc from 'fast-check';
import { temperature } from '../../server/quantities/temperature.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

// Fixed points of the scales: water freezes at 32 °F and boils at 212 °F; -40 is the same on both.
accepts(temperature, [
  ['4 °C', 4],
  ['4°C', 4],
  ['4 C', 4],
  ['4 ° C', 4],
  ['4 ℃', 4],
  ['-3°C', -3],
  ['\u22123 °C', -3],
  ['-0 °C', 0],
  ['32 °F', 0],
  ['212 °F', 100],
  ['-40 °F', -40],
  ['41 F', 5],
  ['50 ℉', 10],
  ['39 °F', 3.88888888889],
  ['-273.15 °C', -273.15],
  ['-459.67 °F', -273.15],
]);

refuses(temperature, [
  ['4', 'plan/missing-unit', 'Write 4 °C or 4 °F'],
  ['4°', 'plan/missing-unit', 'Write 4 °C or 4 °F'],
  ['4 K', 'plan/unknown-unit', '“K” is not a unit of temperature'],
  ['4,5 °C', 'plan/decimal-comma', '4.5', '4.5 °C'],
  ['-300 °C', 'plan/impossible-value', 'absolute zero'],
  ['-500 °F', 'plan/impossible-value', 'absolute zero'],
  ['400 °C', 'plan/impossible-value', 'not hotter than 100 °C'],
  ['4 °C warm', 'plan/unreadable', 'nothing more'],
  ['cold', 'plan/unreadable', 'a temperature'],
  ['', 'plan/unreadable', 'a temperature'],
]);

keepsTheContract(
  temperature,
  fc.double({ min: -273.15, max: 100, noNaN: true }).map((t) => Number(t.toPrecision(12)) + 0),
);
