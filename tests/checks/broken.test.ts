import { describe, expect, test } from 'vitest';
import { type Analysis, analyse, createAnalysisMemory } from '../../server/analysis.ts';
import { rules } from '../../server/checks/list.ts';
import { kitUri, planUri, smallKit } from '../support/check.ts';
import { planWithShot } from '../support/plan.ts';

/** A plan in which many rules have something to say. */
const rich = `plan: A day
date: 2027-03-28
timezone: Europe/London
kit: ../kit/field-bag.shootkit.yaml
party: { contact: not told, back-by: 06:30 }
start: { from: "54.395, -2.640", leave: sunrise - 100 min }
forecast: { hours: [{ at: 05:00, cloud: 95 %, wind: 3 km/h }] }
checks: { time/nothing: off }
spots:
  - id: steps
    at: 54.4301, -2.6102
    drive: 3 min
    walk: { distance: 600 m, climb: 40 m }
    arrive: 01:30
    setup: 10 min
    open: 06:00 .. 21:00
    hazards: [deep water]
    shots:
      - id: mirror
        effect: mirror
        facing: 118°
        lens: wide @ 50 mm
        aperture: f/2.8
        metered: 1/2 s
        filters: [nd6, pol, pol]
        start: sunrise + 10 min
        frames: 2
      - { id: strands, lens: wide, shutter: 40 min, start: after mirror }
      - { id: last, shutter: 2 min, start: 00:30, frames: 3 }
  - id: far
    at: -2.6102, 54.4301
    arrive: 05:00
`;

/** What holds for every finding: it is known, it lies in the text, and its fixes do too. */
function judge(analysis: Analysis): void {
  for (const finding of analysis.findings) {
    const rule = rules.find(({ code }) => code === finding.code);
    expect(rule, finding.code).toBeDefined();
    expect(finding.message, finding.code).not.toMatch(/undefined|NaN|Infinity|\[object/);
    expect(finding.span.start).toBeGreaterThanOrEqual(0);
    expect(finding.span.end).toBeLessThanOrEqual(analysis.text.length);
    for (const { title, edits } of rule?.fixes?.(finding, analysis) ?? []) {
      expect(title).not.toMatch(/undefined|NaN/);
      for (const { uri, span } of edits) {
        if (uri !== analysis.uri) continue;
        expect(span.start).toBeLessThanOrEqual(span.end);
        expect(span.end).toBeLessThanOrEqual(analysis.text.length);
      }
    }
  }
}

describe('plans that are being written', () => {
  const open = () =>
    ({ kind: 'text', uri: kitUri, text: smallKit({ more: 'carried: [headlamp]' }) }) as const;
  const memory = createAnalysisMemory();
  const analysed = (text: string) => analyse({ uri: planUri, text }, { rules, open, memory });

  test('the whole plan sets off many rules', () => {
    const { findings } = analysed(rich);
    expect(new Set(findings.map(({ code }) => code)).size).toBeGreaterThan(12);
  });

  test('no beginning of it makes a rule fail', () => {
    for (let end = 0; end <= rich.length; end += 9) judge(analysed(rich.slice(0, end)));
  });

  test('no line taken out of it makes a rule fail', () => {
    const lines = rich.split('\n');
    for (let line = 0; line < lines.length; line += 1) judge(analysed(lines.toSpliced(line, 1).join('\n')));
  });

  test('no value taken out of it makes a rule fail', () => {
    for (const { index } of rich.matchAll(/: /g)) {
      const end = rich.indexOf('\n', index);
      judge(analysed(`${rich.slice(0, index + 1)}${rich.slice(end)}`));
    }
  });
});

describe('what cannot be read is not replaced by a guess', () => {
  const open = () => ({ kind: 'text', uri: kitUri, text: smallKit() }) as const;
  const gearOf = (line: string) => {
    const text = planWithShot(
      `        metered: 1/2 s\n        aperture: f/11\n        filters: [nd6]\n${line}`,
    );
    const shot = analyse({ uri: planUri, text }, { rules, open }).day?.spots[0]?.shots[0];
    expect(shot).toBeDefined();
    return { body: shot?.gear.body, exposure: shot?.exposure };
  };

  test('a body that is half typed is not the first of the kit', () => {
    expect(gearOf('').body).toBeDefined();
    for (const line of ['        body:\n', '        body: [fold\n', '        body: nobody\n']) {
      expect(gearOf(line).body, line).toBeUndefined();
    }
  });

  const spotWith = (line: string, shot = '        metered: 1/2 s @ f/11\n') => {
    const text = planWithShot(`${shot}        start: 06:30\n`, { spot: line });
    return analyse({ uri: planUri, text }, { rules, open });
  };
  const codesOf = ({ findings }: Analysis) => findings.map(({ code }) => code);
  const noSkylines = [
    '    skyline: {\n',
    '    skyline: { E: 40°,\n',
    '    skyline: xx\n',
    '    skyline:\n',
    '    skyline: { E: 40°, S: \n',
    '    skyline: "\n',
  ];

  test('land that cannot be read is not taken for level ground: no light is expected', () => {
    // Half a minute at f/11 is far too little light for a sun that has risen; behind a wall of rock it may be right.
    const dark = '        metered: 30 s @ f/11\n';
    expect(codesOf(spotWith('', dark))).toContain('light/differs-from-expected');
    for (const line of noSkylines) {
      const found = spotWith(line, dark);
      expect(codesOf(found), line).not.toContain('light/differs-from-expected');
      expect(found.day?.spots[0]?.shots[0]?.light?.sun, line).toBeDefined();
      expect(found.day?.spots[0]?.shots[0]?.light?.expected, line).toBeUndefined();
    }
  });

  test('no time is estimated from it, and no event over it looked for', () => {
    const estimated = '        aperture: f/11\n';
    expect(spotWith('', estimated).day?.shots[0]?.exposure?.basis).toBe('expected');
    for (const line of noSkylines) {
      const shot = spotWith(line, estimated).day?.shots[0];
      expect(shot?.startMs, line).toBeDefined();
      expect(shot?.exposure, line).toBeUndefined();
      expect(shot?.endMs, line).toBeUndefined();
      const clears = spotWith(`${line}    decide: sun clears skyline\n`);
      expect(codesOf(clears), line).not.toContain('time/no-such-event');
      expect(clears.day?.moments.find(({ name }) => name === 'decide')?.resolution.kind, line).toBe(
        'unknown',
      );
    }
    expect(codesOf(spotWith('    decide: sun clears skyline\n'))).toContain('time/no-such-event');
  });

  test('water that cannot be read has no usual times of its own', () => {
    const silky = '        metered: 1/30 s @ f/11\n        effect: silky\n';
    const mirror = '        metered: 1/30 s @ f/11\n        effect: mirror\n';
    for (const shot of [silky, mirror]) {
      for (const line of ['', '    water: { kind: sea }\n', '    water: { speed: 2 m/s }\n']) {
        expect(codesOf(spotWith(line, shot)), line).toContain('effect/outside-range');
      }
      for (const water of [
        'water:\n',
        'water: {\n',
        'water: { kin\n',
        'water: { kind: spill\n',
        'water: { kind:\n',
        'water: sea\n',
      ]) {
        expect(codesOf(spotWith(`    ${water}`, shot)), water).not.toContain('effect/outside-range');
        expect(codesOf(spotWith('', `${shot}        ${water}`)), water).not.toContain('effect/outside-range');
      }
    }
    // The shot's own water goes before the spot's; people do not ask for water.
    const own = `${silky}        water: { kind: river, state: running }\n`;
    expect(codesOf(spotWith('    water: { kin\n', own))).toContain('effect/outside-range');
    const people = '        metered: 1/30 s @ f/11\n        effect: cleared of people\n';
    expect(codesOf(spotWith('    water:\n', people))).toContain('effect/outside-range');
  });

  test('a bracket that is only opened does not say that there are no filters', () => {
    const found = (filters: string) =>
      spotWith('', `        metered: 1/30 s @ f/11\n        effect: silky\n        filters: ${filters}\n`);
    for (const filters of ['[', '[ ', '[ # none yet', '']) {
      expect(found(filters).day?.shots[0]?.exposure, filters).toBeUndefined();
      expect(codesOf(found(filters)), filters).not.toContain('effect/outside-range');
    }
    expect(found('[]').day?.shots[0]?.exposure?.setting.seconds).toBeCloseTo(1 / 32, 5);
    expect(codesOf(found('[]'))).toContain('effect/outside-range');
    // What stands behind the bracket already counts: six stops from 1/30 s.
    for (const filters of ['[nd6', '[nd6,', '[nd6, ']) {
      expect(found(filters).day?.shots[0]?.exposure?.setting.seconds, filters).toBe(2);
    }
  });

  test('a film that is not known gives no time: it could lose speed', () => {
    expect(gearOf('').exposure).toBeDefined();
    for (const line of ['        film:\n', '        film: no-such-film\n']) {
      expect(gearOf(line).exposure, line).toBeUndefined();
    }
  });
});
