import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Lines, lineEnd, lineStart } from '../../server/text/lines.ts';

// Line ends as in the Language Server Protocol 3.17, "Text Documents": '\n', '\r\n' and '\r'; characters are UTF-16 units.
describe('lines', () => {
  test('LF, CRLF and CR end a line, nothing else does', () => {
    const text = 'a\nbb\r\nccc\rdddd\u2028e\u0085f\vg\f';
    const lines = new Lines(text);
    expect(lines.count).toBe(4);
    const spans = [0, 1, 2, 3].map((line) => {
      const { start, end } = lines.lineSpan(line);
      return text.slice(start, end);
    });
    expect(spans).toEqual(['a', 'bb', 'ccc', 'dddd\u2028e\u0085f\vg\f']);
  });

  test('an empty text has one empty line, and a last line end opens another', () => {
    expect(new Lines('').count).toBe(1);
    expect(new Lines('').lineSpan(0)).toEqual({ start: 0, end: 0 });
    expect(new Lines('a\r\n').count).toBe(2);
    expect(new Lines('a\r\n').lineSpan(1)).toEqual({ start: 3, end: 3 });
    expect(new Lines('\n\r').count).toBe(3);
  });

  test('characters are UTF-16 units: a sunrise sign counts two, a byte order mark one', () => {
    const text = '\uFEFFat: 🌅 Søndre\r\nb: 2';
    const lines = new Lines(text);
    expect(lines.position(text.indexOf('Søndre'))).toEqual({ line: 0, character: 8 });
    expect(lines.position(text.indexOf('b:'))).toEqual({ line: 1, character: 0 });
    expect(lines.offset(0, 1)).toBe(text.indexOf('at:'));
  });

  test('between CR and LF is the end of the line', () => {
    expect(new Lines('ab\r\nc').position(3)).toEqual({ line: 0, character: 2 });
  });

  test('what lies outside is taken to the nearest end', () => {
    const lines = new Lines('ab\ncd');
    expect(lines.position(-5)).toEqual({ line: 0, character: 0 });
    expect(lines.position(99)).toEqual({ line: 1, character: 2 });
    expect(lines.position(Number.NaN)).toEqual({ line: 0, character: 0 });
    expect(lines.offset(-1, 1)).toBe(0);
    expect(lines.offset(0, 99)).toBe(2);
    expect(lines.offset(0, -1)).toBe(0);
    expect(lines.offset(0, Number.NaN)).toBe(0);
    expect(lines.offset(7, 0)).toBe(5);
    expect(lines.lineSpan(-1)).toEqual({ start: 0, end: 2 });
    expect(lines.lineSpan(9)).toEqual({ start: 3, end: 5 });
  });

  const piece = fc.constantFrom('\n', '\r\n', '\r', 'a', ' ', '🌅', 'é', '\uFEFF');

  test('a single line starts and ends where it does among all of them', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const text = pieces.join('');
        const lines = new Lines(text);
        for (let line = 0; line < lines.count; line += 1) {
          const { start, end } = lines.lineSpan(line);
          for (let at = start; at <= end; at += 1) {
            expect({ start: lineStart(text, at), end: lineEnd(text, at) }).toEqual({ start, end });
          }
        }
      }),
    );
  });

  test('offset undoes position, except inside a CRLF', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const text = pieces.join('');
        const lines = new Lines(text);
        for (let at = 0; at <= text.length; at += 1) {
          const { line, character } = lines.position(at);
          const inside = text[at - 1] === '\r' && text[at] === '\n';
          expect(lines.offset(line, character)).toBe(inside ? at - 1 : at);
        }
      }),
    );
  });
});
