import fc from 'fast-check';
import { angle } from '../../server/quantities/angle.ts';
import { accepts, keepsTheContract, refuses } from '../support/contract.ts';

accepts(angle, [
  ['-3°', -3],
  ['\u22123°', -3],
  ['+3°', 3],
  ['12.5°', 12.5],
  ['12.5 deg', 12.5],
  ['12.5 degrees', 12.5],
  ['12.5 º', 12.5],
  ['-3', -3],
  ['0', 0],
  ['-0°', 0],
  ["12°30'", 12.5],
  ['12° 30′', 12.5],
  ['12°30\'36"', 12.51],
  ["-0°30'", -0.5],
  ['360°', 360],
  ['-360°', -360],
]);

refuses(angle, [
  ['361°', 'plan/impossible-value', 'at most 360°'],
  ["12°61'", 'plan/impossible-value', '60 minutes of arc'],
  ["12.5°30'", 'plan/unreadable', 'Only the last'],
  ['12°30', 'plan/unreadable', "the mark '"],
  ['12,5°', 'plan/decimal-comma', '12.5', '12.5°'],
  ['3 rad', 'plan/unreadable', 'nothing more'],
  ['3° down', 'plan/unreadable', 'nothing more'],
  ['°', 'plan/unreadable', 'an angle'],
  ['', 'plan/unreadable', 'an angle'],
]);

keepsTheContract(
  angle,
  fc.integer({ min: -360e6, max: 360e6 }).map((millionths) => millionths / 1e6 + 0),
);
