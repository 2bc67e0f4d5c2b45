import { expect, it } from 'vitest';
import { analyse, type Rule } from '../server/analysis.ts';

const failing: Rule = {
  code: 'plan/failing',
  severity: 'error',
  doc: 'A rule with a fault in it.',
  check: () => {
    throw new Error('a fault');
  },
};
const speaking: Rule = {
  code: 'plan/speaking',
  severity: 'hint',
  doc: 'A rule that speaks of every plan.',
  check: ({ uri }, report) => report({ uri, span: { start: 0, end: 4 } }, 'Here.'),
};
const source = { uri: 'file:///a/b.shootplan.yaml', text: 'plan: A\ndate: 2027-03-20\n' };

it('passes over a rule that fails, says which, and runs the others', () => {
  const faults: string[] = [];
  const { findings } = analyse(source, { rules: [failing, speaking], onFault: (code) => faults.push(code) });
  expect(findings.map(({ code }) => code)).toEqual(['plan/speaking']);
  expect(faults).toEqual(['plan/failing']);
});

it('throws the fault of a rule when nobody asks to be told of it', () => {
  expect(() => analyse(source, { rules: [failing] })).toThrow('a fault');
});
