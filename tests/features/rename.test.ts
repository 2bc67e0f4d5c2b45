import { describe, expect, test } from 'vitest';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { rename, renameable } from '../../server/features/rename.ts';
import { applyEdits } from '../../server/text/edit.ts';
import { analyseKit, analysePlan, demoKit, demoPlan, kitUri, planUri } from './demo.ts';

function renamed(analyses: readonly Analysis[], analysis: Analysis, offset: number, name: string) {
  const result = rename(analyses, analysis, offset, name);
  if ('refused' in result) return result.refused;
  const texts = new Map([[kitUri, demoKit], ...[analysis, ...analyses].map((a) => [a.uri, a.text] as const)]);
  const changed = new Set(result.edits.map(({ uri }) => uri));
  return Object.fromEntries(
    [...changed].map((uri) => [
      uri,
      applyEdits(
        texts.get(uri) ?? '',
        result.edits.filter((edit) => edit.uri === uri),
      ),
    ]),
  );
}

describe('quotes stay', () => {
  const text = [
    'spots:',
    '  - id: "cascade"',
    '    shots:',
    '      - { id: mirror, lens: "wide @ 24 mm" }',
    "      - { id: late, start: 'after mirror + 5 min' }",
    '      - { id: last, start: later of sunset, after: x }',
    '  - id: b',
    "    otherwise: 'cascade'",
    '  - id: c',
    '    otherwise: cascade   # cascade',
    '',
  ].join('\n');

  test('only the text of a spot is replaced, from each of its places', () => {
    const wanted = text
      .replace('"cascade"', '"fall"')
      .replace("'cascade'", "'fall'")
      .replace('otherwise: cascade', 'otherwise: fall');
    const analysis = analysePlan(text);
    for (const part of ['"cascade', "'cascade", 'otherwise: cascade']) {
      const offset = text.indexOf(part) + part.length;
      expect(renamed([analysis], analysis, offset, 'fall')).toEqual({ [planUri]: wanted });
    }
  });

  test('a shot inside a moment', () => {
    const analysis = analysePlan(text);
    const offset = text.indexOf('id: mirror') + 4;
    expect(renamed([], analysis, offset, 'glass')).toEqual({ [planUri]: text.replaceAll('mirror', 'glass') });
  });

  test('CRLF', () => {
    const windows = text.replaceAll('\n', '\r\n');
    const analysis = analysePlan(windows);
    const offset = windows.indexOf('id: mirror') + 4;
    expect(renamed([], analysis, offset, 'glass')).toEqual({
      [planUri]: windows.replaceAll('mirror', 'glass'),
    });
  });
});

test('a lens: in the kit and in every plan of that kit, whether the client escapes the URI or not', () => {
  const plan = analysePlan(demoPlan);
  const kit = analyseKit(demoKit);
  const otherUri = 'file:///outing/plans/other.shootplan.yaml';
  const other = analyse(
    { uri: otherUri, text: 'kit: ../kit/field-bag.shootkit.yaml\nspots:\n  - shots: [{ lens: wide }]\n' },
    { rules: [], open: () => ({ kind: 'text', uri: kitUri.replace('-', '%2D'), text: demoKit }) },
  );
  const wanted = {
    [planUri]: demoPlan.replaceAll('wide @', 'broad @'),
    [kitUri]: demoKit.replace('id: wide', 'id: broad'),
    [otherUri]: other.text.replace('wide', 'broad'),
  };
  expect(renamed([kit, other], plan, demoPlan.indexOf('wide @') + 2, 'broad')).toEqual(wanted);
  expect(renamed([plan, other], kit, demoKit.indexOf('id: wide') + 4, 'broad')).toEqual(wanted);
});

describe('refused', () => {
  const plan = analysePlan(demoPlan);
  const at = demoPlan.indexOf('id: mirror') + 4;
  test.each([
    ['a name that is no id', at, 'two words', /cannot have a blank/],
    ['a name that begins with a digit', at, '6nd', /begins with a letter/],
    ['an empty name', at, ' ', /missing/],
    ['a name that is taken', at, 'strands', /already a shot “strands”/],
    ['a name that is taken in the kit', demoPlan.indexOf('nd6]'), 'pol', /already a filter “pol”/],
    ['no id', demoPlan.indexOf('date:'), 'x', /no id here/],
  ])('%s', (_, offset, name, message) => {
    expect(renamed([], plan, offset, name)).toMatch(message);
  });

  test('an id that nothing declares, or that is declared twice', () => {
    const lost = analysePlan(demoPlan.replace('[nd6]', '[nd7]'));
    expect(renamed([], lost, lost.text.indexOf('nd7'), 'nd8')).toMatch(/Nothing declares/);
    const twice = analysePlan(demoPlan.replace('id: strands', 'id: mirror'));
    expect(renamed([], twice, at, 'glass')).toMatch(/2 things/);
  });

  test('the same name changes nothing', () => {
    expect(renamed([], plan, at, 'mirror')).toEqual({});
  });

  test('a shot may have the name of a filter', () => {
    expect(renamed([], plan, at, 'pol')).toEqual({ [planUri]: demoPlan.replace('id: mirror', 'id: pol') });
  });
});

test('what can be renamed is shown without its quotes', () => {
  const text = 'spots:\n  - id: "steps"\n';
  const start = text.indexOf('steps');
  expect(renameable(analysePlan(text), start + 2)).toEqual({
    span: { start, end: start + 5 },
    text: 'steps',
  });
  expect(renameable(analysePlan(text), 2)).toBeUndefined();
});
