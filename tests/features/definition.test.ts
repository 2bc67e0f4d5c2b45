import { expect, test } from 'vitest';
import { definition } from '../../server/features/definition.ts';
import { analyseKit, analysePlan, demoKit, demoPlan, kitUri, planUri } from './demo.ts';

/** The texts that the definition of the id behind `before` leads to, each with its document. */
function leads(text: string, before: string, inside = 1) {
  const offset = text.indexOf(before) + before.length + inside;
  return definition(analysePlan(text), offset).map(({ uri, span }) => [
    uri,
    (uri === kitUri ? demoKit : text).slice(span.start, span.end),
    span.start,
  ]);
}

test('equipment leads to the kit file', () => {
  expect(leads(demoPlan, 'lens: ')).toEqual([[kitUri, 'wide', demoKit.indexOf('wide')]]);
  expect(leads(demoPlan, 'filters: [')).toEqual([[kitUri, 'nd6', demoKit.indexOf('nd6')]]);
});

test('spots and shots lead to their own lines', () => {
  const text = `${demoPlan}        start: after mirror\n    otherwise: "north-steps"\n`;
  expect(leads(text, 'start: after ')).toEqual([[planUri, 'mirror', text.indexOf('id: mirror') + 4]]);
  expect(leads(text, 'otherwise: "')).toEqual([[planUri, 'north-steps', text.indexOf('id: north') + 4]]);
});

test('a declaration leads to itself; a focal length and an unknown id nowhere', () => {
  expect(leads(demoPlan, '- id: ')).toEqual([[planUri, 'north-steps', demoPlan.indexOf('north-steps')]]);
  expect(leads(demoPlan, 'lens: wide @ ')).toEqual([]);
  expect(leads(demoPlan.replace('[nd6]', '[nd7]'), 'filters: [')).toEqual([]);
});

test('the path of a kit leads to the file', () => {
  expect(leads(demoPlan, 'kit: ')).toEqual([[kitUri, '', 0]]);
  expect(leads(demoPlan.replace('field-bag', 'lost'), 'kit: ')).toEqual([]);
});

test('within a kit', () => {
  const at = demoKit.indexOf('pol,');
  expect(definition(analyseKit(demoKit), at)).toEqual([{ uri: kitUri, span: { start: at, end: at + 3 } }]);
});
