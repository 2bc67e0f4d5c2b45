import { describe, expect, test } from 'vitest';
import { inlayHints } from '../../server/features/inlayHints.ts';
import { linesWithLabels, spliced } from '../support/marked.ts';
import { analysePlan, demoPlan } from './demo.ts';

const everything = { moments: true, shutter: true, light: true };
const nothing = { moments: false, shutter: false, light: false };

function hinted(text: string, settings = everything): string {
  return linesWithLabels(spliced(text, inlayHints(analysePlan(text), undefined, settings)));
}

/** One shot at the demo's spot, with the lines that a test is about. */
function shotPlan(...lines: readonly string[]): string {
  return [
    'plan: P',
    'date: 2027-03-20',
    'kit: ../kit/field-bag.shootkit.yaml',
    'spots:',
    '  - id: s',
    '    at: 54.4301, -2.6102',
    '    arrive: 05:00',
    '    shots:',
    '      - id: a',
    ...lines.map((line) => `        ${line}`),
    '',
  ].join('\n');
}

describe('inlay hints', () => {
  test('a whole plan', () => {
    expect(hinted(demoPlan)).toMatchInlineSnapshot(`
      "start: { from: "54.395, -2.640", leave: sunrise - 100 min }«04:34»
      arrive: sunrise - 45 min«05:29, 9 min to spare»
      facing: 118°«sun behind skyline, 091° +1°»
      filters: [nd6]«→ 30 s ± 1/3 stop»
      start: sunrise + 10 min«06:24»
      - id: strands«start 06:25»
      subject: { at: "54.4270, -2.6050", height: 34 m }«back-lit, sun 091° +1°»
      filters: [nd6m]«→ 42 s bulb ± 0.1 stop»"
    `);
  });

  test('1/2 s through six stops is 32 s, the dial’s 30 s (½ · 2^6, common practice, no source)', () => {
    const text = shotPlan('aperture: f/14', 'iso: 64', 'metered: 1/2 s', 'filters: [nd6]');
    expect(hinted(text, { ...nothing, shutter: true })).toBe('filters: [nd6]«→ 30 s ± 1/3 stop»');
  });

  test('6.4 stops measured make 42 s: beyond the dial, by bulb (½ · 2^6.4 = 42.2)', () => {
    const text = shotPlan('aperture: f/14', 'iso: 64', 'metered: 1/2 s', 'filters: [nd6m]');
    expect(hinted(text, { ...nothing, shutter: true })).toBe('filters: [nd6m]«→ 42 s bulb ± 0.1 stop»');
  });

  test('without filters the setting stands behind the reading, and has no spread', () => {
    const text = shotPlan('aperture: f/16', 'iso: 100', 'metered: 1/2 s @ f/8, ISO 100');
    // f/8 to f/16 is two stops: 2 s (ISO 517 markings).
    expect(hinted(text, { ...nothing, shutter: true })).toBe('metered: 1/2 s @ f/8, ISO 100«→ 2 s»');
  });

  test('film is corrected last: 32 s becomes 32^1.31 = 93.7 s', () => {
    const text = shotPlan('film: slide-50', 'aperture: f/14', 'metered: 1/2 s', 'filters: [nd6]');
    expect(hinted(text, { ...nothing, shutter: true })).toBe('filters: [nd6]«→ 1 min 34 s bulb ± 1/3 stop»');
  });

  test('a stated shutter time says how far it lies from the meter (16 s against 32 s: one stop less)', () => {
    const text = shotPlan('aperture: f/14', 'metered: 1/2 s', 'filters: [nd6]', 'shutter: 15 s');
    expect(hinted(text, { ...nothing, shutter: true })).toContain(
      'shutter: 15 s«−1.0 stop against the meter»',
    );
  });

  test('an unknown filter, no aperture, an unreadable reading: no shutter hint', () => {
    for (const lines of [
      ['aperture: f/14', 'metered: 1/2 s', 'filters: [nd9]'],
      ['metered: 1/2 s', 'filters: [nd6]'],
      ['aperture: f/14', 'metered: soon', 'filters: [nd6]'],
    ]) {
      expect(hinted(shotPlan(...lines), { ...nothing, shutter: true })).toBe('');
    }
  });

  test('without a reading the light that is expected stands in, and is called an estimate', () => {
    const text = shotPlan('aperture: f/14', 'filters: [nd6]', 'start: sunrise + 30 min');
    expect(hinted(text, { ...nothing, shutter: true })).toMatch(
      /^filters: \[nd6\]«→ about [\d.]+ (s|min)( \d+ s)?( bulb)? ± \d.* stops»$/,
    );
    const open = shotPlan('aperture: f/8', 'start: solar noon');
    expect(hinted(open, { ...nothing, shutter: true })).toMatch(
      /^aperture: f\/8«→ about 1\/\d+ s ± .* stops»$/,
    );
  });

  test('a value that an alias repeats is hinted once, with what it comes to in each place', () => {
    const text = shotPlan('start: &when ready + 10 min', 'aperture: f/14', 'shutter: 30 s').concat(
      '  - id: t\n    at: 54.4270, -2.6050\n    arrive: 07:00\n    shots:\n      - id: b\n        start: *when\n',
    );
    expect(hinted(text, { ...nothing, moments: true })).toContain(
      'start: &when ready + 10 min«05:10 / 07:10»',
    );
  });

  test('what cannot be found has no moment hint, and a plain clock time needs none', () => {
    const text = shotPlan('start: 06:30');
    expect(hinted(text, { ...nothing, moments: true })).toBe('');
    expect(hinted(shotPlan('start: sun clears skyline'), { ...nothing, moments: true })).toBe('');
    expect(hinted(shotPlan('start: after nothing'), { ...nothing, moments: true })).toBe('');
  });

  test('a moment on another civil day says so', () => {
    expect(hinted(shotPlan('start: sunrise next day - 6 h'), { ...nothing, moments: true })).toBe(
      'start: sunrise next day - 6 h«00:11 +1 day»',
    );
    expect(hinted(shotPlan('start: 00:12 next day'), { ...nothing, moments: true })).toBe('');
  });

  test('a hint alone on its line stands behind its braces, before a comment; several keep to their values', () => {
    const one = shotPlan('subject: { at: "54.4270, -2.6050", name: "a # b" }   # east', 'start: 07:00');
    expect(hinted(one, { ...nothing, light: true })).toBe(
      'subject: { at: "54.4270, -2.6050", name: "a # b" }«back-lit, sun 099° +6°»   # east',
    );
    const lines = shotPlan('subject: {', '  at: "54.4270, -2.6050",', '  height: 34 m }', 'start: 07:00');
    expect(hinted(lines, { ...nothing, light: true })).toBe(
      'at: "54.4270, -2.6050",«back-lit, sun 099° +6°»',
    );
    const several = demoPlan
      .replace('subject: { at: "54.4270, -2.6050", height: 34 m }', 'note: none')
      .replace(
        '      - id: strands\n',
        '      - { id: short, facing: 118°, start: ready, effect: mist }\n      - id: strands\n',
      );
    expect(hinted(several)).toContain(
      '- { id: short, facing: 118°«sun down, 082° −6°», start: ready«05:39», effect: mist }',
    );
  });

  test('a hint stands at the same place whether the whole text or its value alone is asked for', () => {
    const analysis = analysePlan(demoPlan);
    const start = demoPlan.indexOf('subject: {');
    const span = { start, end: demoPlan.indexOf('\n', start) };
    const all = inlayHints(analysis).filter(({ offset }) => offset >= span.start && offset <= span.end);
    expect(all).toHaveLength(1);
    expect(inlayHints(analysis, span)).toEqual(all);
  });

  test('a late arrival says by how much', () => {
    const text = demoPlan.replace('sunrise - 45 min', 'sunrise - 60 min');
    expect(hinted(text)).toContain('arrive: sunrise - 60 min«05:14, 6 min late»');
  });

  test('each sort can be switched off', () => {
    expect(hinted(demoPlan, nothing)).toBe('');
    for (const key of ['moments', 'shutter', 'light'] as const) {
      const only = hinted(demoPlan, { ...nothing, [key]: true });
      expect(only).not.toBe('');
      const without = hinted(demoPlan, { ...everything, [key]: false });
      expect(without.match(/«/g)?.length ?? 0).toBeLessThan(hinted(demoPlan).match(/«/g)?.length ?? 0);
    }
  });

  test('only those in the span that is asked for', () => {
    const analysis = analysePlan(demoPlan);
    const start = demoPlan.indexOf('- id: strands');
    const inside = inlayHints(analysis, { start, end: demoPlan.length });
    expect(inside.length).toBe(3);
    expect(inside.every((hint) => hint.offset >= start)).toBe(true);
    expect(inlayHints(analysis).slice(-3)).toEqual(inside);
  });

  test('CRLF, a byte order mark and emoji move no hint off its value', () => {
    const changed = `\ufeff${demoPlan.replaceAll('\n', '\r\n').replace('North steps', 'North 🌊 steps')}`;
    expect(hinted(changed)).toBe(hinted(demoPlan));
  });

  test('behind quotes and behind lists of several lines', () => {
    const text = shotPlan(
      'aperture: f/14',
      'metered: "1/2 s"',
      'filters:',
      '  - nd6',
      '  - "pol"',
      'start: "sunrise + 10 min"',
    );
    expect(hinted(text)).toMatchInlineSnapshot(`
      "- "pol"«→ 1 min 31 s bulb ± 1/2 stop»
      start: "sunrise + 10 min"«06:24»"
    `);
  });

  test('light: the sun down, behind the skyline, overcast, in the frame', () => {
    const light = (start: string, more = '') =>
      hinted(shotPlan(`start: ${start}`, 'facing: 91°', 'lens: wide @ 24 mm') + more, {
        ...nothing,
        light: true,
      });
    expect(light('sunrise - 30 min')).toMatchInlineSnapshot(`"facing: 91°«sun down, 083° −5°»"`);
    expect(light('sunrise + 30 min')).toMatchInlineSnapshot(`"facing: 91°«back-lit, sun in frame 095° +4°»"`);
    const cloudy = 'forecast:\n  hours:\n    - { at: 06:00, cloud: 100 % }\n';
    expect(light('sunrise + 30 min', cloudy)).toMatchInlineSnapshot(`"facing: 91°«overcast, sun 095° +4°»"`);
    expect(light('astronomical dusk')).toMatchInlineSnapshot(`"facing: 91°«sun −18°, moon 133° +33°»"`);
    expect(light('astronomical dawn + 80 min')).toMatchInlineSnapshot(`"facing: 91°«sun −7°, no moon»"`);
    expect(light('solar noon')).toMatchInlineSnapshot(`"facing: 91°«side-lit, sun 180° +35°»"`);
  });

  test('a kit has none, and no text makes it throw', () => {
    for (const text of ['', 'kit: K\n', 'plan: [', 'spots:\n  - id: x\n    shots:\n      - start: sun']) {
      expect(inlayHints(analysePlan(text))).toEqual([]);
    }
  });
});
