import { describe, expect, test } from 'vitest';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlayHints.ts';
import { truthGroup } from '../support/truth.ts';
import { analysePlan } from './demo.ts';

/** The published name, and the event of the language that it is. */
const names = [
  ['sun_civil_dawn', 'civil dawn'],
  ['sun_rise', 'sunrise'],
  ['sun_set', 'sunset'],
  ['sun_civil_dusk', 'civil dusk'],
  ['moon_rise', 'moonrise'],
  ['moon_set', 'moonset'],
] as const;

function minutes(clock: string): number {
  return Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
}

/** The cases whose times are given in UT for a whole day, with the tolerance of a minute. */
const group = truthGroup('usno_minutes');
const cases = group.cases.filter(({ input, tolerance }) => input.time_zone === 'UTC' && tolerance === 60);

describe(`what the editor shows against published minutes (${group.source})`, () => {
  test('no case was dropped', () => {
    expect(cases).toHaveLength(8);
  });

  test.each(cases)('$id', ({ input, expected }) => {
    const known = names.filter(([name]) => typeof expected[name] === 'string');
    expect(known.length).toBeGreaterThan(0);
    const text = [
      'plan: P',
      `date: ${input.date}`,
      'timezone: UTC',
      'spots:',
      '  - id: s',
      `    at: "${input.latitude}, ${input.longitude}"`,
      '    arrive: 00:00',
      '    shots:',
      ...known.map(([name, event]) => `      - { id: ${name}, start: ${event} }`),
      '',
    ].join('\n');
    const analysis = analysePlan(text);
    const hints = inlayHints(analysis, undefined, { moments: true, shutter: false, light: false });
    const sky = hover(analysis, text.indexOf(String(input.date)) + 1)?.markdown ?? '';
    for (const [name, event] of known) {
      const published = minutes(String(expected[name]));
      const end = text.indexOf(`start: ${event} }`) + `start: ${event} }`.length;
      const hint = hints.find(({ offset }) => offset === end);
      // Both sides are rounded to the minute.
      expect(Math.abs(minutes(hint?.label ?? '') - published), `${name} as a hint`).toBeLessThanOrEqual(1);
      const row = new RegExp(`^\\| ${event}&ensp; \\| (\\d\\d:\\d\\d)`, 'm').exec(sky);
      expect(Math.abs(minutes(row?.[1] ?? '') - published), `${name} on hover`).toBeLessThanOrEqual(1);
    }
  });
});
