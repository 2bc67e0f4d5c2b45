import { describe, expect, test } from 'vitest';
import { planSection } from '../../server/plan/fields.ts';
import { kitSection } from '../../server/plan/kitFields.ts';
import type { Kind, Section } from '../../server/plan/table.ts';
import { check, unmarked } from '../support/check.ts';
import { analyseSample, kitText, samplePlans, sampleText } from './folder.ts';

const mistakes = 'mistakes.shootplan.yaml';
const clean = samplePlans().filter((name) => name !== mistakes);
const conflicts = samplePlans('conflicts/');

describe('The clean samples', () => {
  test('are all there', () => {
    expect(clean).toEqual([
      'coast.shootplan.yaml',
      'dawn-to-noon.shootplan.yaml',
      'far-north-winter.shootplan.yaml',
      'night.shootplan.yaml',
    ]);
  });

  test.each(clean)('%s has no errors and no warnings', (name) => {
    const { findings } = analyseSample(name);
    const loud = findings.filter(({ severity }) => severity !== 'hint');
    expect(loud.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  });

  test('dawn-to-noon has nothing to be said about it: a hazard that is minded is no finding', () => {
    const { findings } = analyseSample('dawn-to-noon.shootplan.yaml');
    expect(findings.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  });

  test('the kit has no findings at all', () => {
    expect(analyseSample('kit/field-bag.shootkit.yaml').findings).toEqual([]);
  });

  test.each(clean)('%s is resolved to the last shot', (name) => {
    const { day, bag } = analyseSample(name);
    expect(bag.state).toBe('ready');
    const unresolved = day?.moments.filter(({ resolution }) => resolution.kind !== 'at') ?? [];
    expect(unresolved.map(({ value }) => value.text)).toEqual([]);
    const shots = day?.spots.flatMap((spot) => spot.shots) ?? [];
    expect(shots.length).toBeGreaterThanOrEqual(3);
    for (const { shot, exposure, startMs, endMs, facing } of shots) {
      expect({ id: shot.id?.value, exposure, startMs, endMs, facing }).toEqual({
        id: shot.id?.value,
        exposure: expect.any(Object),
        startMs: expect.any(Number),
        endMs: expect.any(Number),
        facing: expect.any(Object),
      });
    }
  });
});

describe('The samples with mistakes', () => {
  test.each(conflicts)('%s is found, and nothing else', (name) => {
    const text = sampleText(name);
    expect(unmarked(text).marks.length, 'at least one mark').toBeGreaterThan(0);
    check(text, { kit: kitText });
  });

  test(`${mistakes} is found, every one of them, and nothing else`, () => {
    // The helper reads plans one folder deeper than the samples stand.
    const text = sampleText(mistakes).replace('kit: kit/', 'kit: ../kit/');
    expect(unmarked(text).marks.length).toBeGreaterThan(20);
    check(text, { kit: kitText });
  });
});

/** Every `section key` of a table, at any depth. */
function keysOf(section: Section, found = new Set<string>()): Set<string> {
  for (const [key, { kind }] of Object.entries(section.fields)) {
    found.add(`${section.name} ${key}`);
    inside(kind, found);
  }
  return found;
}

function inside(kind: Kind, found: Set<string>): void {
  if (kind.shape === 'list') inside(kind.of, found);
  else if (kind.shape === 'section' || kind.shape === 'either') keysOf(kind.section, found);
}

test('together, the samples use every key of the table but a few', () => {
  const used = new Set<string>();
  for (const name of [...clean, 'kit/field-bag.shootkit.yaml']) {
    const { plan, kit } = analyseSample(name);
    for (const mark of [...(plan?.marks ?? []), ...(kit?.marks ?? [])]) {
      used.add(`${mark.section.name} ${mark.name}`);
      // The keys above a scalar are used too: a section has no mark of its own.
    }
  }
  const scalars = (section: Section) =>
    [...keysOf(section)].filter((key) => !sections(section).has(key) && !key.startsWith('inline kit'));
  const unused = [...new Set([...scalars(planSection), ...scalars(kitSection)])].filter(
    (key) => !used.has(key),
  );
  // Notes are free text wherever they stand; the data sheet of a film is either an exponent or a table.
  expect(unused.filter((key) => !key.endsWith(' note') && !key.startsWith('reciprocity '))).toEqual([]);
});

/** The keys of a table that hold sections or lists of them. */
function sections(section: Section, found = new Set<string>()): Set<string> {
  for (const [key, { kind }] of Object.entries(section.fields)) {
    const of: Kind = kind.shape === 'list' ? kind.of : kind;
    if (of.shape !== 'section' && of.shape !== 'either') continue;
    if (of.shape === 'section') found.add(`${section.name} ${key}`);
    sections(of.section, found);
  }
  return found;
}
