import { expect, test } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import { references } from '../../server/features/references.ts';
import { analyseKit, analysePlan, demoKit, demoPlan, kitUri, planUri } from './demo.ts';

const otherUri = 'file:///outing/plans/other.shootplan.yaml';
const other = analyse(
  {
    uri: otherUri,
    text: 'plan: Other\nkit: ../kit/field-bag.shootkit.yaml\nspots:\n  - id: x\n    shots:\n      - { id: mirror, lens: wide @ 20 mm }\n',
  },
  { rules: [], open: (uri) => (uri === kitUri ? { kind: 'text', uri, text: demoKit } : { kind: 'missing' }) },
);
const unrelated = analyse(
  { uri: 'file:///outing/plans/inline.shootplan.yaml', text: 'plan: I\nkit: { lenses: [{ id: wide }] }\n' },
  { rules: [] },
);
const plan = analysePlan(demoPlan);
const kit = analyseKit(demoKit);
const all = [plan, kit, other, unrelated];

function found(from: typeof plan, offset: number, includeDeclaration = true) {
  return references(all, from, offset, includeDeclaration).map(({ uri, span }) => {
    const text = all.find((analysis) => analysis.uri === uri)?.text ?? '';
    return [uri, text.slice(span.start, span.end)];
  });
}

test('of a lens, from its use and from its declaration: every plan of that kit, no other', () => {
  const fromUse = found(plan, demoPlan.indexOf('wide'));
  expect(fromUse).toEqual([
    [planUri, 'wide'],
    [planUri, 'wide'],
    [kitUri, 'wide'],
    [otherUri, 'wide'],
  ]);
  const fromDeclaration = found(kit, demoKit.indexOf('wide'));
  expect([...fromDeclaration].sort()).toEqual([...fromUse].sort());
  expect(found(kit, demoKit.indexOf('wide'), false)).not.toContainEqual([kitUri, 'wide']);
});

test('of a shot: its own plan only', () => {
  expect(found(plan, demoPlan.indexOf('id: mirror') + 5)).toEqual([[planUri, 'mirror']]);
});

test('each place once, though it is reached through an alias', () => {
  const text =
    'spots:\n  - id: a\n    otherwise: &o b\n  - id: b\n    otherwise: a\n  - id: c\n    otherwise: *o\n';
  const analysis = analysePlan(text);
  const places = references([analysis], analysis, text.indexOf('id: b') + 4, true);
  expect(places.map(({ span }) => span.start)).toEqual([text.indexOf('&o b') + 3, text.indexOf('id: b') + 4]);
});

test('nothing where no id stands', () => {
  expect(found(plan, demoPlan.indexOf('date:'))).toEqual([]);
});
