import fc from 'fast-check';
import { metered } from '../../server/quantities/metered.ts';
import { holdsContract } from '../support/contract.ts';

holdsContract(metered, {
  accepted: [
    ['1/2 s', { kind: 'time', seconds: 0.5 }],
    ['1/250', { kind: 'time', seconds: 1 / 250 }],
    ['1/2 s @ f/8', { kind: 'time', seconds: 0.5, aperture: 8 }],
    ['1/2 s@f/8', { kind: 'time', seconds: 0.5, aperture: 8 }],
    ['1/2 s @ f/5.6, ISO 100', { kind: 'time', seconds: 0.5, aperture: 5.6, iso: 100 }],
    ['1/2 s @ f/8,ISO 100', { kind: 'time', seconds: 0.5, aperture: 8, iso: 100 }],
    ['1/2 s, ISO 100', { kind: 'time', seconds: 0.5, iso: 100 }],
    ['EV 12', { kind: 'ev', ev100: 12 }],
    ['12 EV', { kind: 'ev', ev100: 12 }],
    ['12EV', { kind: 'ev', ev100: 12 }],
    ['12⅓ EV', { kind: 'ev', ev100: 37 / 3 }],
  ],
  refused: [
    ['30', 'plan/ambiguous-time', '1/30 s or 30 s'],
    ['30 @ f/8', 'plan/ambiguous-time', '1/30 s or 30 s'],
    ['0,5 s @ f/8', 'plan/decimal-comma', '0.5', '0.5 s @ f/8'],
    ['1/2 s @ f/5,6, ISO 100', 'plan/decimal-comma', '5.6', '1/2 s @ f/5.6, ISO 100'],
    ['1/2 s f/8', 'plan/unreadable', 'A mark is missing', '1/2 s @ f/8'],
    ['1/2 s ISO 100', 'plan/unreadable', 'A mark is missing', '1/2 s, ISO 100'],
    ['1/2 s @ f/8 ISO 100', 'plan/unreadable', 'A comma is missing', '1/2 s @ f/8, ISO 100'],
    ['1/2 s f/8 ISO 100', 'plan/unreadable', 'A mark is missing', '1/2 s @ f/8, ISO 100'],
    ['1/2 s, 100', 'plan/unreadable', 'expected the ISO behind the comma, as in 1/2 s, ISO 100'],
    ['1/2 s @ f/8, ISO 0', 'plan/impossible-value', 'from 1 to 1000000'],
    ['1/2 s @', 'plan/unreadable', 'expected'],
    ['EV 12, ISO 400', 'plan/unreadable', 'leave the ISO out'],
    ['12 EV, ISO 400', 'plan/unreadable', 'leave the ISO out'],
    ['f/8', 'plan/unreadable', 'expected a shutter time'],
    ['', 'plan/unreadable', 'expected a shutter time'],
  ],
  values: fc.oneof(
    fc.record(
      {
        kind: fc.constant('time' as const),
        seconds: fc.double({ min: 1e-6, max: 86_400, noNaN: true }),
        aperture: fc.integer({ min: 10, max: 640 }).map((tenths) => tenths / 10),
        iso: fc.integer({ min: 1, max: 1_000_000 }),
      },
      { requiredKeys: ['kind', 'seconds'] },
    ),
    fc.record({
      kind: fc.constant('ev' as const),
      ev100: fc.integer({ min: -60, max: 200 }).map((tenths) => tenths / 10),
    }),
  ),
});
