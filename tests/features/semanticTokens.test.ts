import { expect, test } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import { semanticTokens, tokenTypes } from '../../server/features/semanticTokens.ts';
import { analyseKit, analysePlan, demoKit, demoPlan } from './demo.ts';

/** Each token as `type text`, of a line. */
function tokens(analysis: Analysis, line = ''): readonly string[] {
  const { text } = analysis;
  const start = text.indexOf(line);
  const end = line === '' ? text.length : text.indexOf('\n', start);
  return semanticTokens(analysis)
    .filter(({ span }) => span.start >= start && span.end <= end)
    .map(({ span, type, modifiers }) =>
      [type, ...(modifiers ?? []), text.slice(span.start, span.end)].join(' '),
    );
}

const plan = analysePlan(
  `${demoPlan}        start: later of after mirror + 5 min, civil dawn - 1 h 10 min
    open: 06:00 .. sunset next day
    needs: [wind < 5 km/h, water calm]
    permission: not needed
    otherwise: "north-steps"
    setup: quick
`,
);

test.each([
  ['  - id: north-steps', ['class declaration north-steps']],
  ['      - id: mirror', ['function declaration mirror']],
  ['        effect: mirror', ['enumMember mirror']],
  ['        facing: 118°', ['number 118°']],
  ['        lens: wide', ['variable wide', 'operator @', 'number 24', 'number mm']],
  ['        filters: [nd6]', ['variable nd6']],
  ['        start: sunrise', ['event sunrise', 'operator +', 'number 10', 'number min']],
  [
    '        start: later',
    [
      'keyword later',
      'keyword of',
      'keyword after',
      'function mirror',
      'operator +',
      'number 5',
      'number min',
      'event civil',
      'event dawn',
      'operator -',
      'number 1',
      'number h',
      'number 10',
      'number min',
    ],
  ],
  ['    open:', ['number 06:00', 'operator ..', 'event sunset', 'keyword next', 'keyword day']],
  [
    '    needs:',
    [
      'property wind',
      'operator <',
      'number 5',
      'number km',
      'number /',
      'number h',
      'property water',
      'enumMember calm',
    ],
  ],
  ['    permission:', ['enumMember not needed']],
  ['    otherwise:', ['class north-steps']],
  ['    name:', []],
])('%s', (line, wanted) => {
  expect(tokens(plan, line)).toEqual(wanted);
});

test('what cannot be read has no colour', () => {
  expect(tokens(plan, '    setup: quick')).toEqual([]);
});

test('a kit', () => {
  const kit = analyseKit(demoKit);
  expect(tokens(kit, '  - { id: nd6m')).toEqual([
    'variable declaration nd6m',
    'enumMember neutral density',
    'number 6 stops',
    'number 6.4 stops',
    'number 77 mm',
  ]);
  expect(tokens(kit, '    finder')).toEqual(['enumMember optical']);
});

test('in order, apart from each other, each on one line, of known types; whatever the line ends', () => {
  const odd =
    'spots:\n  - &a { id: "b", open: 06:00\n      .. 21:00 }\n  - *a\n  - id: "😀é"\n    arrive: "sunrise\\t- 5 min"\n';
  for (const text of [plan.text, plan.text.replaceAll('\n', '\r\n'), odd]) {
    let free = 0;
    for (const { span, type } of semanticTokens(analysePlan(text))) {
      expect(span.start).toBeGreaterThanOrEqual(free);
      expect(span.end).toBeGreaterThan(span.start);
      expect(text.slice(span.start, span.end)).not.toMatch(/[\r\n]/);
      expect(tokenTypes).toContain(type);
      free = span.end;
    }
    expect(free).toBeGreaterThan(0);
  }
});
