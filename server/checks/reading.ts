import type { Rule } from '../analysis.ts';
import { syntaxCodes } from '../plan/syntax.ts';
import type { Severity } from '../text/finding.ts';
import { duplicateKeyFixes } from './duplicateKey.ts';
import { missingKeyFixes } from './missingKey.ts';
import { rewriteFixes } from './rewrite.ts';
import { syntaxFixes } from './syntaxFixes.ts';

/** Codes that reading reports before any rule is asked: code, usual severity, what it says. */
const reported: readonly (readonly [code: string, severity: Severity, doc: string])[] = [
  [
    'plan/unknown-key',
    'warning',
    'A key that this part of a plan or kit does not have; it is ignored. The nearest known key is offered.',
  ],
  ['plan/missing-key', 'error', 'A key that must be there, such as the date of a plan or the id of a shot.'],
  [
    'plan/wrong-shape',
    'error',
    'A list where one value belongs, one value where keys belong, and the like; that value is ignored.',
  ],
  ['plan/empty-value', 'hint', 'A key without a value; what depends on it waits until it has one.'],
  [
    'plan/comma-in-value',
    'error',
    'A value between braces or brackets that is cut in two by its comma, as coordinates are; it needs quotes.',
  ],
  [
    'plan/unreadable',
    'error',
    'A value that is not spelt as its kind of value is; the message says what is expected.',
  ],
  [
    'plan/ambiguous-time',
    'error',
    'A time that may be meant in two ways, such as `30` on a shutter dial or `1:30` without a unit.',
  ],
  ['plan/ambiguous-date', 'error', 'A date such as `03/04/2027`, in which day and month can be swapped.'],
  ['plan/ambiguous-value', 'error', 'A value that may be meant in two ways; the message names both.'],
  ['plan/decimal-comma', 'error', 'A decimal comma. Decimals are written with a point, as in `0.5 s`.'],
  ['plan/unknown-event', 'error', 'A word in a moment that names no event of the day.'],
  ['plan/unknown-unit', 'error', 'A unit that is not known, or that does not measure this.'],
  [
    'plan/missing-unit',
    'error',
    'A number without its unit. Only bare numbers of a scale, such as ISO, need none.',
  ],
  ['plan/impossible-value', 'error', 'A value that cannot be: minute 75, latitude 95°, an aperture of 0.'],
  [
    'plan/swapped-coordinates',
    'error',
    'A latitude beyond 90°: longitude and latitude have changed places. Latitude comes first.',
  ],
  ['plan/unknown-word', 'error', 'A word that is not in the list of words for this key.'],
  ['plan/unknown-zone', 'error', 'A time zone that is not in the zone data, which names them `Area/City`.'],
  [
    'plan/duplicate-id',
    'error',
    'An id that two things of one sort share, so that nobody can say which is meant.',
  ],
  ['plan/unknown-id', 'error', 'The id of a spot, a shot or a piece of equipment that nothing declares.'],
  [
    'filter/ambiguous-strength',
    'error',
    'A bare number as the strength of a filter. `3` may be three stops, density 3 (ten stops) or a factor.',
  ],
  [
    'kit/unreadable',
    'error',
    'The kit that the plan names is not there, or may not be read. What depends on equipment stays empty.',
  ],
  [
    'kit/has-errors',
    'warning',
    'The kit has mistakes of its own; what depends on them stays empty in the plan.',
  ],
];

/** Mends that need more than what the reader itself has changed. */
const ownFixes: ReadonlyMap<string, NonNullable<Rule['fixes']>> = new Map([
  ['syntax/duplicate-key', duplicateKeyFixes],
  ['plan/missing-key', missingKeyFixes],
]);

/** Every code that reading itself reports, with the mends that the readers propose. */
export const readingCodes: readonly Rule[] = [
  ...syntaxCodes.map((rule) => ({ ...rule, fixes: ownFixes.get(rule.code) ?? syntaxFixes })),
  ...reported.map(([code, severity, doc]) => ({
    code,
    severity,
    doc,
    fixes: ownFixes.get(code) ?? rewriteFixes,
  })),
];
