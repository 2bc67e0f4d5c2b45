import fc from 'fast-check';
import { angle, sweepAngle } from '../../server/quantities/angle.ts';
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
  ['90°', 90],
  ['-90°', -90],
]);

refuses(angle, [
  ['95°', 'plan/impossible-value', 'Straight up is 90°'],
  ['120°', 'plan/impossible-value', 'no angle to the horizontal is larger'],
  ['-91', 'plan/impossible-value', 'straight down -90°'],
  ['90°00\'01"', 'plan/impossible-value', 'Straight up is 90°'],
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
  fc.integer({ min: -90e6, max: 90e6 }).map((millionths) => millionths / 1e6 + 0),
);

accepts(sweepAngle, [
  ['120°', 120],
  ['120', 120],
  ['120 deg', 120],
  ['360°', 360],
  ["22°30'", 22.5],
]);

refuses(sweepAngle, [
  ['361°', 'plan/impossible-value', 'at most 360°'],
  ['0°', 'plan/impossible-value', 'more than 0°'],
  ['-120°', 'plan/impossible-value', 'more than 0°'],
  ['12,5°', 'plan/decimal-comma', '12.5', '12.5°'],
  ['120° left', 'plan/unreadable', 'nothing more'],
  ['all around', 'plan/unreadable', 'an angle, as in 120°'],
]);

keepsTheContract(
  sweepAngle,
  fc.integer({ min: 1, max: 360e6 }).map((millionths) => millionths / 1e6),
);
