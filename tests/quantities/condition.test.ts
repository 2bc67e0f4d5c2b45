import fc from 'fast-check';
import { type Condition, condition } from '../../server/quantities/condition.ts';
import { holdsContract } from '../support/contract.ts';

const comparison = fc.constantFrom('<' as const, '<=' as const, '>' as const, '>=' as const);
const values: fc.Arbitrary<Condition> = fc.oneof(
  fc.record({
    quantity: fc.constantFrom('wind' as const, 'gusts' as const),
    comparison,
    value: fc.integer({ min: 0, max: 300 }).map((tenths) => tenths / 10),
  }),
  fc.record({
    quantity: fc.constantFrom('cloud' as const, 'rain' as const),
    comparison,
    value: fc.integer({ min: 0, max: 100 }).map((percent) => percent / 100),
  }),
  fc.record({
    quantity: fc.constantFrom('air' as const, 'dew-point' as const, 'tide' as const),
    comparison,
    value: fc.integer({ min: -20, max: 40 }),
  }),
  fc.record({
    quantity: fc.constant('water' as const),
    state: fc.constantFrom('running' as const, 'calm' as const, 'full' as const, 'low' as const),
  }),
);

holdsContract(condition, {
  accepted: [
    // 5 km/h = 5/3.6 m/s: the definitions of metre and hour.
    ['wind < 18 km/h', { quantity: 'wind', comparison: '<', value: 5 }],
    ['Wind<5 m/s', { quantity: 'wind', comparison: '<', value: 5 }],
    ['gusts ≤ 8 m/s', { quantity: 'gusts', comparison: '<=', value: 8 }],
    ['gusts =< 8 m/s', { quantity: 'gusts', comparison: '<=', value: 8 }],
    ['cloud < 95 %', { quantity: 'cloud', comparison: '<', value: 0.95 }],
    ['cloud >= 3/8', { quantity: 'cloud', comparison: '>=', value: 0.375 }],
    ['rain < 30 %', { quantity: 'rain', comparison: '<', value: 0.3 }],
    ['air > -5 °C', { quantity: 'air', comparison: '>', value: -5 }],
    ['air > \u22125 °C', { quantity: 'air', comparison: '>', value: -5 }],
    ['dew-point < 3 °C', { quantity: 'dew-point', comparison: '<', value: 3 }],
    ['dew point < 3 °C', { quantity: 'dew-point', comparison: '<', value: 3 }],
    ['tide < 1.5 m', { quantity: 'tide', comparison: '<', value: 1.5 }],
    ['tide > -0.2 m', { quantity: 'tide', comparison: '>', value: -0.2 }],
    ['water running', { quantity: 'water', state: 'running' }],
  ],
  refused: [
    ['wnid < 5 km/h', 'plan/unreadable', 'write wind', 'wind < 5 km/h'],
    ['temperature > 0 °C', 'plan/unreadable', 'write air', 'air > 0 °C'],
    ['humidity < 80 %', 'plan/unreadable', 'use wind, gusts, cloud'],
    ['constructor < 1', 'plan/unreadable', 'is nothing a forecast gives'],
    ['wind below 5 m/s', 'plan/unreadable', 'Write < instead of “below”', 'wind < 5 m/s'],
    ['wind 5 m/s', 'plan/unreadable', 'expected one of < <= > >='],
    ['wind = 5 m/s', 'plan/unreadable', 'expected one of < <= > >='],
    ['wind <', 'plan/unreadable', 'expected a limit'],
    ['wind < 5', 'plan/missing-unit', 'unit'],
    ['wind < 1,5 m/s', 'plan/decimal-comma', '1.5', 'wind < 1.5 m/s'],
    ['water runing', 'plan/unreadable', 'use running, calm, full, low', 'water running'],
    ['water', 'plan/unreadable', 'how the water is'],
    ['water running fast', 'plan/unreadable', '“fast” is not understood'],
    ['< 5 km/h', 'plan/unreadable', 'expected a condition'],
    ['', 'plan/unreadable', 'expected a condition'],
  ],
  values,
});
