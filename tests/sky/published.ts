import { describe, expect, it } from 'vitest';
import { type TruthCase, truthGroup } from '../support/truth.ts';

/**
 * Tests every case of a group with a check of its own, for what one number per name cannot express. `count` guards that
 * no case was dropped from the file, and `skipped` names those that the program has nothing for, with the reason.
 */
export function checkPublished(
  key: string,
  count: number,
  skipped: Readonly<Record<string, string>>,
  check: (one: TruthCase) => void,
): void {
  const group = truthGroup(key);
  describe(`${group.name} (${group.source})`, () => {
    it('has all its cases, and says why it leaves some out', () => {
      const ids = group.cases.map(({ id }) => id);
      expect(ids).toEqual(
        Array.from({ length: count }, (_, place) => `${key}-${String(place + 1).padStart(2, '0')}`),
      );
      for (const [id, reason] of Object.entries(skipped)) {
        expect(ids).toContain(id);
        expect(reason.length, `${id} is left out for a reason`).toBeGreaterThan(20);
      }
    });
    for (const one of group.cases.filter(({ id }) => !Object.hasOwn(skipped, id))) {
      it(`${one.id}: ${JSON.stringify(one.input)}`, () => {
        expect.hasAssertions();
        check(one);
      });
    }
  });
}

/** The tolerance of one expected name. */
export function toleranceOf(one: TruthCase, name: string): number {
  const { tolerance } = one;
  const allowed = typeof tolerance === 'number' ? tolerance : tolerance[name];
  if (allowed === undefined) throw new Error(`${one.id} has no tolerance for ${name}`);
  return allowed;
}

/** Fails unless the value is a number within the case's tolerance of what is expected under that name. */
export function expectNear(one: TruthCase, name: string, actual: number, factor = 1): void {
  const expected = one.expected[name];
  expect(expected, `${one.id} ${name}`).toBeTypeOf('number');
  const off = Math.abs(actual - (expected as number)) * factor;
  expect(off, `${one.id} ${name}: ${actual} instead of ${expected}`).toBeLessThanOrEqual(
    toleranceOf(one, name) + 1e-9,
  );
}

/** A text of the input. */
export function textOf(value: unknown): string {
  if (typeof value !== 'string') throw new Error(`not a text: ${String(value)}`);
  return value;
}

/** A number of the input. */
export function amountOf(value: unknown): number {
  if (typeof value !== 'number') throw new Error(`not a number: ${String(value)}`);
  return value;
}

/** `2026-03-20` as a civil date. */
export function dateOf(value: unknown): { year: number; month: number; day: number } {
  const [year = Number.NaN, month = Number.NaN, day = Number.NaN] = textOf(value).split('-').map(Number);
  return { year, month, day };
}

/** The place of an input. */
export function placeOf(input: Readonly<Record<string, unknown>>): { latitude: number; longitude: number } {
  return { latitude: amountOf(input.latitude), longitude: amountOf(input.longitude) };
}
