import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import { format } from '../../server/features/format.ts';
import type { Node } from '../../server/plan/tree.ts';
import { parseText } from '../../server/plan/yaml.ts';
import { applyEdits } from '../../server/text/edit.ts';
import { awkward, plan as wholePlan } from '../plan/samples.ts';
import { demoKit, demoPlan } from './demo.ts';

function formatted(text: string): string {
  return applyEdits(text, format(analyse({ uri: 'file:///a.shootplan.yaml', text }, { rules: [] })));
}

/** What a text says, without where it stands. */
function says(text: string): unknown {
  const plain = (node: Node): unknown => {
    if (node.kind === 'scalar') return node.text;
    if (node.kind === 'sequence') return node.items.map(plain);
    if (node.kind === 'map') return node.entries.map(({ key, value }) => [key.text, plain(value)]);
    return node.kind === 'alias' ? { alias: node.name } : null;
  };
  return plain(parseText(text).root);
}

/** Every comment, in order. */
function comments(text: string): readonly string[] {
  return [...text.matchAll(/(?:^|[ \t])(#[^\r\n]*)/gm)].map((match) => (match[1] as string).trimEnd());
}

describe('what is tidied', () => {
  test.each([
    [
      'blanks at the ends of lines',
      'plan: a  \n\t \ndate: 2027-03-20 # why  \n',
      'plan: a\n\ndate: 2027-03-20 # why\n',
    ],
    ['a colon', 'plan:   a\ndate:\t2027-03-20\n', 'plan: a\ndate: 2027-03-20\n'],
    ['a dash', 'needs:\n  -   a\n  - b\n', 'needs:\n  - a\n  - b\n'],
    ['commas and colons in brackets', 'a: [x,y,  z]\nb: {p:  1,q: 2}\n', 'a: [x, y, z]\nb: {p: 1, q: 2}\n'],
    ['brackets over lines', 'a: [x,y,\n  z,w ]\n', 'a: [x, y,\n  z, w ]\n'],
    ['empty lines', 'a: 1\n\n\n\n \nb: 2\n', 'a: 1\n\n\nb: 2\n'],
    ['the last line end', 'a: 1\nb: 2', 'a: 1\nb: 2\n'],
    ['the last line end, CRLF', 'a: 1\r\nb: 2', 'a: 1\r\nb: 2\r\n'],
    ['CRLF', 'a:  1 \r\n\r\n\r\n\r\n\r\nb: [x,y]\r\n', 'a: 1\r\n\r\n\r\nb: [x, y]\r\n'],
    ['a comment keeps its column', 'a:   1   # one\nbb: [x,y] # two\n', 'a: 1     # one\nbb: [x, y] # two\n'],
    ['an aligned comment close by', 'a:  1 # one\nbb: 2 # two\n', 'a: 1  # one\nbb: 2 # two\n'],
    ['a comment close by moves along', 'a:  1 # one\n', 'a: 1 # one\n'],
  ])('%s', (_, before, after) => {
    expect(formatted(before)).toBe(after);
    expect(formatted(after)).toBe(after);
  });
});

describe('what stays', () => {
  test.each([
    ['quoted text', 'a: "x,y  :  z  "\nb: [\'p,q\',  "r:  s"]\n'.replace(',  "', ', "')],
    ['text in a block', 'note: |\n  a:   b  \n\n\n\n\n  [x,y]\nnext: 1\n'],
    ['kept empty lines', 'note: |+\n  a\n\n\n\n\nnext: 1\n'],
    ['a plain text over lines', 'note: a,b\n  c:d   \n  e,f\nnext: 1\n'],
    ['a text in quotes over lines', 'note: "a,b  \n  c"\nnext: 1\n'],
    ['commas outside brackets', 'at: 54.43,-2.61\n'],
    ['comments', '#   a,b:   c\na: 1    # x,y:  z\n'],
    ['an item whose other lines would have to move', 'spots:\n  -   id: a\n      name: b\n'],
    ['the place behind a key where a comment stands', 'spots:   # why\n  - id: a\n'],
    ['long lines', `note: ${'very long words '.repeat(20)}end\n`],
    ['times', 'a: 06:30\nb: [06:30, 07:10]\n'],
    ['indentation', 'a:\n   b:\n        c: 1\n'],
    ['a text at the very end', 'note: |\n  text'],
    ['nothing', ''],
  ])('%s', (_, text) => {
    expect(formatted(text)).toBe(text);
  });

  test.each([
    ['an open bracket', 'a: [x,y\nb:   1  \n'],
    ['a half-typed line', 'a:   1\nb\nc: 2  \n'],
    ['a key twice', 'a:   1\na: 2\n'],
    ['a second document', 'a:   1\n---\nb:   2\n'],
  ])('a document with errors: %s', (_, text) => {
    expect(formatted(text)).toBe(text);
  });
});

describe('whatever is formatted', () => {
  const samples = [demoPlan, demoKit, wholePlan, ...awkward];
  const texts = samples.flatMap((text) => [text, text.replaceAll('\n', '\r\n')]);

  function holds(text: string): void {
    const once = formatted(text);
    expect(formatted(once)).toBe(once);
    expect(says(once)).toEqual(says(text));
    expect(comments(once)).toEqual(comments(text));
    if (text.includes('\r\n')) expect(once.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  }

  test('says the same, keeps every comment, and is stable', () => {
    for (const text of texts) holds(text);
  });

  test('also with blanks strewn in, between lines and behind signs', () => {
    const strewn = fc
      .tuple(
        fc.constantFrom(...samples.filter((text) => !/[|>]/.test(text))),
        fc.array(fc.tuple(fc.nat(), fc.constantFrom(' ', '  ', '\n\n\n', '   # note', ' \n')), {
          maxLength: 8,
        }),
      )
      .map(([text, inserts]) => {
        let result = text;
        for (const [seed, blanks] of inserts) {
          const places = [...result.matchAll(/[:,] |\n/g)].map(
            (match) => match.index + (match[0] === '\n' ? 0 : 1),
          );
          const place = places.length === 0 ? 0 : (places[seed % places.length] as number);
          const isLineEnd = result[place] === '\n' || place === result.length;
          result = result.slice(0, place) + (isLineEnd ? blanks : ' ') + result.slice(place);
        }
        return result;
      });
    fc.assert(fc.property(strewn, holds), { numRuns: 60, seed: 20270320 });
  });
});
