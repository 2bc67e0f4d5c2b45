import { describe, expect, test } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import { dayReport } from '../../server/features/dayReport.ts';
import { analyseAs, samplePlans, sampleText } from '../samples/folder.ts';

/** What a day comes to, as plain data. */
function figures({ day }: Analysis): unknown {
  const found = {
    moments: day?.moments.map(({ name, resolution }) => [name, resolution]),
    spots: day?.spots.map(({ spot, shots, ...rest }) => [
      spot.id?.value,
      Object.entries(rest).filter(([, value]) => typeof value === 'number'),
      shots.map(({ shot, exposure, frames, startMs, endMs, light, facing }) => [
        shot.id?.value,
        { exposure, frames, startMs, endMs, light, facing },
      ]),
    ]),
  };
  return JSON.parse(JSON.stringify(found));
}

/** A model without its places: what was read, wherever it stood. */
function withoutPlaces(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPlaces);
  if (value instanceof Map) return [...value.keys()].sort();
  if (value instanceof Set) return [...value].sort();
  if (typeof value !== 'object' || value === null) return value;
  const places = new Set(['span', 'key', 'head', 'uri', 'lensSpan']);
  return Object.fromEntries(
    Object.entries(value)
      .filter(([key]) => !places.has(key))
      .map(([key, inner]) => [key, withoutPlaces(inner)]),
  );
}

const names = samplePlans();

describe('The same text', () => {
  test.each(names)('gives the same findings and the same day twice: %s', (name) => {
    const text = sampleText(name);
    const [first, second] = [analyseAs(name, text), analyseAs(name, text)];
    expect(second.findings).toEqual(first.findings);
    expect(figures(second)).toEqual(figures(first));
    expect(dayReport(second)).toBe(dayReport(first));
  });

  test.each(names)('gives the same whether or not something else was read before: %s', (name) => {
    const text = sampleText(name);
    const { memory } = analyseAs(
      name,
      text.replace(/date: .*/, 'date: 2027-06-01').replaceAll('f/11', 'f/8'),
    );
    const after = analyseAs(name, text, { memory });
    const fresh = analyseAs(name, text);
    expect(after.findings).toEqual(fresh.findings);
    expect(figures(after)).toEqual(figures(fresh));
  });

  test.each(names)('gives the same with every kind of line end: %s', (name) => {
    const text = sampleText(name);
    const plain = analyseAs(name, text);
    for (const end of ['\r\n', '\r']) {
      const other = analyseAs(name, text.replaceAll('\n', end));
      expect(withoutPlaces(other.plan?.model)).toEqual(withoutPlaces(plain.plan?.model));
      expect(other.findings.map(({ code, message }) => [code, message])).toEqual(
        plain.findings.map(({ code, message }) => [code, message]),
      );
      expect(figures(other)).toEqual(figures(plain));
    }
  });
});
