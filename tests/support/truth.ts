import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';

/** The input of a case: numbers, fractions written as text ("1/125"), words, lists. */
export type TruthInput = Readonly<Record<string, unknown>>;

/** One published or independently computed value. */
export interface TruthCase {
  readonly id: string;
  readonly input: TruthInput;
  readonly expected: Readonly<Record<string, unknown>>;
  /** Absolute, or relative where `unit` says so; one for all numbers or one for each expected key. */
  readonly tolerance: number | Readonly<Record<string, number>>;
  readonly unit: string;
}

export interface TruthGroup {
  readonly key: string;
  readonly name: string;
  readonly source: string;
  readonly cases: readonly TruthCase[];
}

/** A group of published values: `tests/truth/<key>.yaml`. */
export function truthGroup(key: string): TruthGroup {
  return parse(readFileSync(new URL(`../truth/${key}.yaml`, import.meta.url), 'utf8')) as TruthGroup;
}

/**
 * Tests every case of a group. `answer` computes, from the input of a case, whatever it can under the names that the group
 * uses; an expected name that it leaves out is a failure. `count` guards that no case was dropped from the file.
 */
export function checkTruth(key: string, count: number, answer: (input: TruthInput) => object): void {
  const group = truthGroup(key);
  describe(`${group.name} (${group.source})`, () => {
    it('has all its cases', () => {
      expect(group.cases.map(({ id }) => id)).toEqual(
        Array.from({ length: count }, (_, place) => `${key}-${String(place + 1).padStart(2, '0')}`),
      );
      for (const { expected } of group.cases) expect(Object.keys(expected)).not.toEqual([]);
    });
    for (const { id, input, expected, tolerance, unit } of group.cases) {
      it(`${id}: ${JSON.stringify(input)}`, () => {
        const computed = new Map<string, unknown>(Object.entries(answer(input)));
        for (const [name, value] of Object.entries(expected)) {
          const allowed = typeof tolerance === 'number' ? tolerance : (tolerance[name] ?? 0);
          expect(computed.has(name), `${id} is not asked for ${name}`).toBe(true);
          expectClose(computed.get(name), value, allowed, unit.startsWith('relative'), `${id} ${name}`);
        }
      });
    }
  });
}

/** A number of the input; "1/125" is a number too. */
export function numberOf(value: unknown): number {
  if (typeof value === 'number') return value;
  const [above, below = '1'] = String(value).split('/');
  const result = Number(above) / Number(below);
  if (Number.isNaN(result)) throw new Error(`not a number: ${String(value)}`);
  return result;
}

function expectClose(
  actual: unknown,
  wanted: unknown,
  allowed: number,
  relative: boolean,
  what: string,
): void {
  if (Array.isArray(wanted)) {
    expect(Array.isArray(actual), what).toBe(true);
    const list = actual as unknown[];
    expect(list.length, what).toBe(wanted.length);
    wanted.forEach((value, at) => {
      expectClose(list[at], value, allowed, relative, `${what}[${at}]`);
    });
  } else if (typeof wanted === 'number') {
    expect(actual, what).toBeTypeOf('number');
    const off = Math.abs((actual as number) - wanted);
    // A billionth for the rounding of binary fractions where the tolerance is none.
    const limit = (relative ? allowed * Math.abs(wanted) : allowed) + 1e-9;
    expect(off, `${what}: ${String(actual)} instead of ${wanted}`).toBeLessThanOrEqual(limit);
  } else {
    expect(actual, what).toEqual(wanted);
  }
}
