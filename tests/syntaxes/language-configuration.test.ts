import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

interface Configuration {
  readonly comments: { readonly lineComment: string };
  readonly brackets: readonly (readonly [string, string])[];
  readonly autoClosingPairs: readonly {
    readonly open: string;
    readonly close: string;
    readonly notIn: readonly string[];
  }[];
  readonly surroundingPairs: readonly (readonly [string, string])[];
  readonly folding: {
    readonly offSide: boolean;
    readonly markers: { readonly start: string; readonly end: string };
  };
  readonly wordPattern: { readonly pattern: string; readonly flags: string };
  readonly indentationRules: {
    readonly increaseIndentPattern: string;
    readonly decreaseIndentPattern: string;
  };
  readonly onEnterRules: readonly {
    readonly beforeText: string;
    readonly action: { readonly indent: 'none' | 'indent'; readonly appendText?: string };
  }[];
}

const text = readFileSync(new URL('../../syntaxes/language-configuration.json', import.meta.url), 'utf8');
const configuration = JSON.parse(text) as Configuration;

/** The indentation of the line after Enter at the end of `line`, as the editor does it: the first rule that fits. */
function indentAfter(line: string): number {
  const indent = line.length - line.trimStart().length;
  const rule = configuration.onEnterRules.find(({ beforeText }) => new RegExp(beforeText).test(line));
  const step = rule?.action.indent === 'indent' ? 2 : 0;
  return indent + step + (rule?.action.appendText ?? '').length;
}

describe('language configuration', () => {
  test('every expression compiles', () => {
    const { folding, indentationRules, onEnterRules } = configuration;
    const sources = [
      ...onEnterRules.map(({ beforeText }) => beforeText),
      ...Object.values(folding.markers),
      ...Object.values(indentationRules),
    ];
    expect(sources.length).toBe(onEnterRules.length + 4);
    for (const source of sources) expect(new RegExp(source).test('\0')).toBe(false);
  });

  test('comments, folding by indentation, brackets', () => {
    expect(configuration.comments).toEqual({ lineComment: '#' });
    expect(configuration.folding.offSide).toBe(true);
    expect(configuration.brackets).toEqual([
      ['{', '}'],
      ['[', ']'],
    ]);
  });

  test('the minute mark of a coordinate does not bring a second one', () => {
    expect(configuration.autoClosingPairs.map(({ open }) => open)).toEqual(['{', '[', '"']);
    expect(configuration.surroundingPairs.map(([open]) => open)).toContain("'");
  });

  test.each([
    ['id: north-steps', ['id', 'north-steps']],
    ['filters: [nd6, grad2]', ['filters', 'nd6', 'grad2']],
    ['back-by: 14:00', ['back-by', '14:00']],
    ['date: 2027-03-20', ['date', '2027-03-20']],
    ['focal: 16-35 mm', ['focal', '16-35 mm']],
    ['aperture: f/4 .. f/22', ['aperture', 'f/4', 'f/22']],
    ['shutter: 1/8000 s .. 30 s', ['shutter', '1/8000 s', '30 s']],
    ['at: 54.4301, -2.6102', ['at', '54.4301', '-2.6102']],
    ['strength: 6⅔ stops', ['strength', '6⅔ stops']],
    ['wind: 3 km/h, air: -4 °C, cloud: 90 %', ['wind', '3 km/h', 'air', '-4 °C', 'cloud', '90 %']],
    ['tilt: -3°', ['tilt', '-3°']],
    ['arrive: sunrise - 45 min', ['arrive', 'sunrise', '45 min']],
    ['name: Søndre øy', ['name', 'Søndre', 'øy']],
    ['3 months, 2 shots', ['3', 'months', '2', 'shots']],
  ])('words of %s', (line, words) => {
    const { pattern, flags } = configuration.wordPattern;
    const expression = new RegExp(pattern, `${flags}g`);
    expect(line.match(expression)).toEqual(words);
    expect(new RegExp(pattern, flags).test(''), 'an empty word').toBe(false);
  });

  test.each([
    ['spots:', 2],
    ['spots:   # where', 2],
    ['    shots:', 6],
    ['note: |', 2],
    ['  - id: steps', 4],
    ['  - id: steps  # first', 4],
    ['      - id: a-b', 8],
    ['  - shots:', 6],
    ['  - note: >-', 6],
    ['    name: North steps', 4],
    ['    at: 54.4301, -2.6102', 4],
    ['  - { low: 06:12, height: 0.9 m }', 2],
    ['  - nd6', 2],
    ['  - walk: {', 2],
    ['# spots:', 0],
    ['', 0],
  ])('Enter after "%s" goes to column %d', (line, column) => {
    expect(indentAfter(line)).toBe(column);
  });

  test('lines that open and close a block', () => {
    const opens = new RegExp(configuration.indentationRules.increaseIndentPattern);
    const closes = new RegExp(configuration.indentationRules.decreaseIndentPattern);
    for (const line of ['spots:', '  - shots:', 'note: |', 'tides:  # official'])
      expect(opens.test(line), line).toBe(true);
    for (const line of ['a: b', '# a:', '  - id: x', 'at: 06:30', '{ a: 1 }'])
      expect(opens.test(line), line).toBe(false);
    expect(closes.test('  }')).toBe(true);
    expect(closes.test('  - }')).toBe(false);
  });
});
