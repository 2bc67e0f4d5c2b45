import { describe, expect, test } from 'vitest';
import { type Analysis, analyse, type Rule } from '../../server/analysis.ts';
import { rules } from '../../server/checks/list.ts';
import { codeActions } from '../../server/features/codeActions.ts';
import { applyEdits } from '../../server/text/edit.ts';
import type { Fix } from '../../server/text/finding.ts';
import { demoKit, kitUri, planUri } from './demo.ts';

function read(text: string, list: readonly Rule[] = rules): Analysis {
  return analyse(
    { uri: planUri, text },
    {
      rules: list,
      open: (uri) => (uri === kitUri ? { kind: 'text', uri, text: demoKit } : { kind: 'missing' }),
    },
  );
}

/** Each mend at the cursor `|` with the text that it leaves. */
function mends(marked: string): readonly (readonly [string, string])[] {
  const offset = marked.indexOf('|');
  const text = marked.slice(0, offset) + marked.slice(offset + 1);
  const analysis = read(text);
  const span = { start: offset, end: offset };
  return codeActions(analysis, span, rules).map(({ title, edits }) => [title, applyEdits(text, edits)]);
}

describe('mends', () => {
  test('a key that is misspelt', () => {
    expect(mends('plan: a\ndate: 2027-03-20\ntimezo|n: Europe/London\n')).toEqual([
      ['Write timezone', 'plan: a\ndate: 2027-03-20\ntimezone: Europe/London\n'],
    ]);
  });

  test('an id that is misspelt keeps its quotes', () => {
    const head = 'spots:\n  - id: steps\n    at: 54.43, -2.61\n    otherwise: ';
    expect(mends(`${head}"step|"\n`).map(([, text]) => text)).toEqual([`${head}"steps"\n`]);
  });

  test('a bare strength: each reading is offered, none is preferred', () => {
    const text = 'kit:\n  filters:\n    - { id: f, kind: neutral density, strength: 3.0 }\n';
    const analysis = read(text);
    const at = text.indexOf('3.0');
    const actions = codeActions(analysis, { start: at, end: at }, rules);
    expect(actions.length).toBeGreaterThan(1);
    for (const { edits, code, preferred } of actions) {
      expect(preferred).toBeUndefined();
      const after = read(applyEdits(text, edits));
      expect(after.findings.map((finding) => finding.code)).not.toContain(code);
    }
  });

  test('only findings that the span touches', () => {
    const text = 'plan: a\ndate: 2027-03-20\ntimezon: Europe/London\nbearing: true\n';
    const analysis = read(text);
    const span = (part: string) => ({ start: text.indexOf(part), end: text.indexOf(part) + part.length });
    expect(codeActions(analysis, span('plan'), rules)).toEqual([]);
    expect(codeActions(analysis, span('bearing:'), rules).map(({ title }) => title)).toEqual([
      'Write bearings',
    ]);
    expect(codeActions(analysis, { start: 0, end: text.length }, rules).length).toBe(2);
  });
});

describe('mends that would do harm are left out', () => {
  const text = 'plan: a\ndate: 2027-03-20\n';
  const offered = (fix: (uri: string) => Fix) => {
    const rule: Rule = {
      code: 'plan/example',
      severity: 'hint',
      doc: 'An example.',
      check: ({ uri }, report) => report({ uri, span: { start: 0, end: 4 } }, 'Example.'),
      fixes: ({ uri }) => [fix(uri)],
    };
    return codeActions(read(text, [rule]), { start: 0, end: 0 }, [rule]).length;
  };
  const edit = (start: number, end: number, inserted: string) => (uri: string) => ({
    title: 'Do it',
    edits: [{ uri, span: { start, end }, text: inserted }],
  });

  test.each([
    ['sound', edit(6, 7, 'b'), 1],
    ['nothing changes', edit(6, 7, 'a'), 0],
    ['outside the text', edit(20, 900, 'b'), 0],
    ['a bracket stays open', edit(6, 7, '[b'), 0],
    [
      'overlapping edits',
      (uri: string) => ({
        title: 'x',
        edits: [...edit(0, 7, 'plan: b')(uri).edits, ...edit(6, 7, 'c')(uri).edits],
      }),
      0,
    ],
    [
      'in another file',
      () => ({ title: 'x', edits: [{ uri: kitUri, span: { start: 0, end: 0 }, text: '#' }] }),
      1,
    ],
  ])('%s', (_, fix, count) => {
    expect(offered(fix)).toBe(count);
  });
});
