import fc from 'fast-check';
import { sensitivity } from '../../server/quantities/sensitivity.ts';
import { holdsContract } from '../support/contract.ts';

holdsContract(sensitivity, {
  // The pairs of arithmetic and logarithmic speed are those customary on film boxes (ISO 5800), from memory.
  accepted: [
    ['64', 64],
    ['ISO 64', 64],
    ['iso64', 64],
    ['102400', 102_400],
    ['ISO 25/15°', 25],
    ['ISO 50/18°', 50],
    ['ISO 64/19°', 64],
    ['ISO 100/21°', 100],
    ['ISO 125/22', 125],
    ['ISO 400/27°', 400],
    ['64/19°', 64],
    ['ISO 80/20°', 80],
    ['ISO 160/23°', 160],
    ['ISO 320/26°', 320],
    ['ISO 3200/36°', 3200],
  ],
  refused: [
    ['0', 'plan/impossible-value', 'from 1 to 1000000, not 0'],
    ['-100', 'plan/impossible-value', 'not -100'],
    ['6.4', 'plan/impossible-value', 'a whole number'],
    ['6,4', 'plan/impossible-value', 'a whole number'],
    ['2000000', 'plan/impossible-value', 'from 1 to 1000000'],
    ['1,600', 'plan/unreadable', 'no comma or point: 1600', '1600'],
    ['ISO 12.800', 'plan/unreadable', 'no comma or point: 12800', 'ISO 12800'],
    ['ASA 100', 'plan/unreadable', 'Write ISO instead of ASA', 'ISO 100'],
    ['ISO 100/27°', 'plan/impossible-value', 'ISO 100 is 21°, not 27°'],
    ['ISO 100/22°', 'plan/impossible-value', 'ISO 100 is 21°, not 22°: the two do not fit'],
    ['1/2', 'plan/impossible-value', 'ISO 1 is 1°, not 2°'],
    ['1/125', 'plan/impossible-value', 'not 125°'],
    ['64/20', 'plan/impossible-value', 'ISO 64 is 19°, not 20°'],
    ['ISO 100/', 'plan/unreadable', 'the speed in degrees'],
    ['ISO', 'plan/unreadable', 'expected an ISO speed'],
    ['auto', 'plan/unreadable', 'expected an ISO speed'],
    ['100 s', 'plan/unreadable', '“s” is not understood'],
    ['', 'plan/unreadable', 'expected an ISO speed'],
  ],
  values: fc.integer({ min: 1, max: 1_000_000 }),
});
