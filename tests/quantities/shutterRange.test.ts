import fc from 'fast-check';
import { shutterRange } from '../../server/quantities/shutterRange.ts';
import { holdsContract } from '../support/contract.ts';

const seconds = fc.double({ min: 1e-6, max: 86_400, noNaN: true });

holdsContract(shutterRange, {
  accepted: [
    ['1/8000 s .. 30 s', { shortest: 1 / 8000, longest: 30 }],
    ['1/8000..30 s', { shortest: 1 / 8000, longest: 30 }],
    ['1/4000 .. 1 min', { shortest: 1 / 4000, longest: 60 }],
    ['0"5 .. 30"', { shortest: 0.5, longest: 30 }],
    ['1/60 s .. 1/60 s', { shortest: 1 / 60, longest: 1 / 60 }],
  ],
  refused: [
    ['30 s .. 1/8000 s', 'plan/unreadable', 'The shortest time comes first', '1/8000 s .. 30 s'],
    ['1/8000 s - 30 s', 'plan/unreadable', 'Write “..” between', '1/8000 s .. 30 s'],
    ['1/8000 s–30 s', 'plan/unreadable', 'Write “..” between', '1/8000 s .. 30 s'],
    ['1/8000 to 30 s', 'plan/unreadable', 'Write “..” between', '1/8000 .. 30 s'],
    ['30 s to 1/8000', 'plan/unreadable', 'Write “..” between', '1/8000 .. 30 s'],
    ['1/8000 .. 30', 'plan/ambiguous-time', '“30” may be 1/30 s or 30 s'],
    ['8000 .. 30 s', 'plan/ambiguous-time', '“8000” may be'],
    ['1/8000 s', 'plan/unreadable', 'expected “..” and the longest time'],
    ['1/8000 s ..', 'plan/unreadable', 'expected the longest time'],
    ['1/8000 s .. 30 s .. 60 s', 'plan/unreadable', 'the end of the range'],
    ['1/8000 s ... 30 s', 'plan/unreadable', 'expected the longest time'],
    ['bulb', 'plan/unreadable', 'expected two shutter times'],
    ['1/8000 s .. 30,5 s', 'plan/decimal-comma', '30.5', '1/8000 s .. 30.5 s'],
    ['0 s .. 30 s', 'plan/impossible-value', 'longer than 0 s'],
  ],
  values: fc.tuple(seconds, seconds).map(([a, b]) => ({ shortest: Math.min(a, b), longest: Math.max(a, b) })),
});
