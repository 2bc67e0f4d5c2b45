import * as astronomy from 'astronomy-engine';
import { describe, expect, test } from 'vitest';
import type { Rule } from '../../server/analysis.ts';
import { type CompletionItem, type CompletionOptions, completion } from '../../server/features/completion.ts';
import type { Node } from '../../server/plan/tree.ts';
import { parseText } from '../../server/plan/yaml.ts';
import { applyEdits } from '../../server/text/edit.ts';
import { analyseKit, analysePlan, demoKit, demoPlan } from './demo.ts';

/** The cursor is marked by `|`. */
function at(marked: string): { text: string; offset: number } {
  const offset = marked.indexOf('|');
  if (offset < 0) throw new Error('Mark the cursor with |.');
  return { text: marked.slice(0, offset) + marked.slice(offset + 1), offset };
}

function offered(marked: string, options: CompletionOptions = {}, kit: string = demoKit) {
  const { text, offset } = at(marked);
  return inOrder(completion(analysePlan(text, kit), offset, options));
}

function inOrder(items: readonly CompletionItem[]): readonly CompletionItem[] {
  return [...items].sort((a, b) => (a.sort < b.sort ? -1 : a.sort > b.sort ? 1 : 0));
}

function labels(marked: string, options: CompletionOptions = {}): readonly string[] {
  return offered(marked, options).map(({ label }) => label);
}

/** The text after an item is taken; placeholders of snippets are left empty. */
function taken(marked: string, label: string, options: CompletionOptions = {}): string {
  const { text, offset } = at(marked);
  const item = offered(marked, options).find((each) => each.label === label);
  if (item === undefined)
    throw new Error(`“${label}” is not offered: ${labels(marked, options).join(' | ')}`);
  expect(item.span.start).toBeLessThanOrEqual(offset);
  expect(item.span.end).toBeGreaterThanOrEqual(offset);
  expect(text.slice(item.span.start, item.span.end)).not.toContain('\n');
  const inserted =
    item.snippet === true ? item.text.replace(/\$1/, '').replace(/\\([$}\\])/g, '$1') : item.text;
  return applyEdits(text, [{ span: item.span, text: inserted }, ...(item.additional ?? [])]);
}

/** What a text says, as plain data. */
function data(text: string): unknown {
  const { root, findings } = parseText(text);
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  const plain = (node: Node): unknown => {
    if (node.kind === 'scalar') return node.text;
    if (node.kind === 'sequence') return node.items.map(plain);
    if (node.kind === 'map') return Object.fromEntries(node.entries.map((e) => [e.key.text, plain(e.value)]));
    return null;
  };
  return plain(root);
}

describe('keys', () => {
  test('of the document, needed ones first, none twice', () => {
    const found = labels('plan: Dawn\n|\nspots:\n  - id: a\n');
    expect(found[0]).toBe('date');
    expect(found).toContain('timezone');
    expect(found).not.toContain('plan');
    expect(found).not.toContain('spots');
    expect(labels('|').slice(0, 2)).toEqual(['plan', 'date']);
  });

  test('of a half-typed line, with what stands above and below it', () => {
    const found = labels('spots:\n  - id: a\n    na|\n    shots:\n      - id: m\n');
    expect(found[0]).toBe('at');
    expect(found).toContain('name');
    expect(found).not.toContain('id');
    expect(found).not.toContain('shots');
    expect(taken('spots:\n  - id: a\n    na|\n    at: 1, 2\n', 'name')).toBe(
      'spots:\n  - id: a\n    name: \n    at: 1, 2\n',
    );
  });

  test('a key that has its colon is only renamed', () => {
    expect(taken('spots:\n  - id: a\n    nam|e: x\n', 'elevation')).toBe(
      'spots:\n  - id: a\n    elevation: x\n',
    );
  });

  test.each([
    ['two spaces', 'spots:\n  - |', { spots: [{ id: null }] }],
    ['four spaces', 'spots:\n    - |', { spots: [{ id: null }] }],
    ['no indentation', 'spots:\n- |', { spots: [{ id: null }] }],
    ['extra blanks', 'spots:\n  -    |', { spots: [{ id: null }] }],
    ['a bare dash', 'spots:\n  -|', { spots: [{ id: null }] }],
    ['no dash', 'spots:\n  |', { spots: [{ id: null }] }],
    ['half an id', 'spots:\n  - i|', { spots: [{ id: null }] }],
    ['below another item', 'spots:\n  - id: a\n  |', { spots: [{ id: 'a' }, { id: null }] }],
    ['CRLF', 'spots:\r\n  - id: a\r\n  - |\r\n', { spots: [{ id: 'a' }, { id: null }] }],
  ])('begin an item: %s', (_, marked, wanted) => {
    expect(data(taken(marked, 'id'))).toEqual(wanted);
  });

  test.each([
    ['two spaces', 'spots:\n  - id: a\n    |', '\n'],
    ['four spaces', 'spots:\n    - id: a\n      |', '\n'],
    ['no indentation', 'spots:\n- id: a\n  |', '\n'],
    ['extra blanks', 'spots:\n  -   id: a\n      |', '\n'],
    ['extra blanks, cursor too far left', 'spots:\n  -   id: a\n    |', '\n'],
    ['CRLF', 'spots:\r\n  - id: a\r\n    |\r\n', '\r\n'],
    ['CRLF, no indentation', 'spots:\r\n- id: a\r\n  |', '\r\n'],
  ])('open a list of shots: %s', (_, marked, lineEnd) => {
    const text = taken(marked, 'shots');
    expect(data(text)).toEqual({ spots: [{ id: 'a', shots: [{ id: null }] }] });
    expect(text.split(/\r\n|\n/).length).toBe(text.split(lineEnd).length);
    expect(data(taken(marked, 'walk'))).toEqual({ spots: [{ id: 'a', walk: null }] });
  });

  test('the new line of a section is where its keys belong', () => {
    const text = taken('spots:\n  - id: a\n    |', 'walk');
    expect(text).toBe('spots:\n  - id: a\n    walk:\n      ');
    expect(data(taken(`${text}|`, 'distance'))).toEqual({ spots: [{ id: 'a', walk: { distance: null } }] });
  });

  test('in an item whose first key is not written yet', () => {
    expect(labels('spots:\n  - |\n    id: a\n    name: b\n')[0]).toBe('at');
  });

  test('in braces', () => {
    const found = labels('spots:\n  - { id: a, | , name: b }\n');
    expect(found[0]).toBe('at');
    expect(found).not.toContain('name');
    expect(data(taken('spots:\n  - { id: a, at: "1, 2", na| }', 'name'))).toEqual({
      spots: [{ id: 'a', at: '1, 2', name: null }],
    });
    expect(data(taken('spots:\n  - id: a\n    walk: {|}', 'distance'))).toEqual({
      spots: [{ id: 'a', walk: { distance: null } }],
    });
    expect(data(taken('spots:\n  - { id: a, | }', 'walk'))).toEqual({ spots: [{ id: 'a', walk: {} }] });
    expect(data(taken('spots:\n  - { id: a, | }', 'hazards'))).toEqual({ spots: [{ id: 'a', hazards: [] }] });
  });

  test('in braces over several lines, and in braces that nothing closes', () => {
    expect(labels('party: {\n  people: 2,\n  |\n}\n')).toEqual(['contact', 'back-by', 'note']);
    expect(labels('party: { people: 2, |\nspots: []\n')).toEqual(['contact', 'back-by', 'note']);
  });

  test('of a kit', () => {
    const { text, offset } = at('kit: Bag\nlenses:\n  - id: wide\n    |');
    const found = inOrder(completion(analyseKit(text), offset)).map(({ label }) => label);
    expect(found[0]).toBe('focal');
    expect(found).toContain('thread');
  });

  test('of a kit inside a plan', () => {
    expect(labels('kit:\n  |')).toContain('bodies');
    expect(labels('kit: { | }')).toContain('filters');
  });

  test('none in comments, in running text, behind a value in quotes or under a key that is not known', () => {
    expect(labels('plan: x # |')).toEqual([]);
    expect(labels('# |')).toEqual([]);
    expect(labels('note: >\n  some text|\n')).toEqual([]);
    expect(labels('spots:\n  - id: a\n      |')).toEqual([]);
    expect(labels('date: "2027-03-20" |')).toEqual([]);
    expect(labels('spotz:\n  - |')).toEqual([]);
    expect(labels('constructor:\n  |')).toEqual([]);
    expect(labels('party: { people: 2 } |')).toEqual([]);
  });

  test('free keys: codes, thresholds, directions, effects', () => {
    const rules: readonly Rule[] = [
      { code: 'time/late-arrival', severity: 'warning', doc: 'Late.' },
      { code: 'filter/uneven-sky', severity: 'warning', doc: 'Uneven.' },
    ];
    expect(labels('checks:\n  |', { rules })).toEqual(['filter/uneven-sky', 'time/late-arrival']);
    expect(labels('checks:\n  time/late-arrival: off\n  |', { rules })).toEqual(['filter/uneven-sky']);
    expect(labels('checks:\n  time/late-arrival: |', { rules })).toEqual(['error', 'warning', 'hint', 'off']);
    expect(labels('checks: { | }', { rules })).toContain('time/late-arrival');
    expect(labels('thresholds:\n  up|')).toContain('uneven-sky');
    expect(labels('thresholds:\n  fastest-drive: |')).toEqual(['90 km/h']);
    expect(labels('spots:\n  - skyline: { | }')).toContain('SE');
    expect(labels('effects:\n  |')).toContain('silky cascade');
    expect(labels('effects:\n  silky cascade: |')[0]).toBe('1 s .. 15 s');
  });
});

const shot = (line: string) =>
  `plan: Dawn\ndate: 2027-03-20\nkit: ../kit/field-bag.shootkit.yaml\nspots:\n  - id: steps\n    at: 54.4301, -2.6102\n    name: North steps\n    shots:\n      - id: first\n        effect: silky\n      - id: mirror\n        effect: mirror\n        aperture: f/14\n        iso: 64\n        metered: 1/2 s\n${line}\n  - id: fall\n    at: 54.43, -2.61\n`;

describe('values', () => {
  test('closed words, with what they mean', () => {
    const found = offered('spots:\n  - permission: |');
    expect(found.map(({ label }) => label)).toEqual(['granted', 'not needed', 'asked', 'unknown']);
    expect(found[0]).toMatchObject({ kind: 'word', detail: 'You have it.' });
    expect(taken('spots:\n  - permission: as| # when', 'asked')).toBe('spots:\n  - permission: asked # when');
    expect(taken('spots:\n  - permission:|', 'asked')).toBe('spots:\n  - permission: asked');
    expect(taken('spots:\n  - permission: |# when', 'asked')).toBe('spots:\n  - permission: asked # when');
    expect(taken('spots:\n  - { permission: | }', 'asked')).toBe('spots:\n  - { permission: asked }');
  });

  test('quantities complete their own spelling; the whole scalar is replaced', () => {
    expect(labels('spots:\n  - arrive: sunr|')).toContain('sunrise');
    expect(taken('spots:\n  - arrive: sunr|ise - 5 min', 'sunrise')).toBe('spots:\n  - arrive: sunrise');
    expect(taken('spots:\n  - setup: 10|', '10 min')).toBe('spots:\n  - setup: 10 min');
  });

  test('quotes stay, and stand where they are needed', () => {
    expect(data(taken('start: { from: | }', '54.4301, -2.6102'))).toEqual({
      start: { from: '54.4301, -2.6102' },
    });
    expect(taken('start: { from: "5|" }', '54.4301, -2.6102')).toBe('start: { from: "54.4301, -2.6102" }');
    expect(taken("start: { from: '5| }", '54.4301, -2.6102')).toBe("start: { from: '54.4301, -2.6102' }");
    expect(taken('spots:\n  - at: |', '54.4301, -2.6102')).toBe('spots:\n  - at: 54.4301, -2.6102');
  });

  test('ids of lenses, and the focal lengths of a zoom', () => {
    const found = offered(shot('        lens: |'));
    expect(found[0]).toMatchObject({ label: 'wide', detail: '16-35 mm, f/4 .. f/22', kind: 'id' });
    expect(labels(shot('        lens: wide @ |'))).toEqual([
      'wide @ 16 mm',
      'wide @ 18 mm',
      'wide @ 20 mm',
      'wide @ 24 mm',
      'wide @ 28 mm',
      'wide @ 35 mm',
    ]);
  });

  test('bodies and films of the kit', () => {
    expect(labels(shot('        body: |'))).toEqual(['main']);
    expect(offered(shot('        film: |'))[0]).toMatchObject({ label: 'slide-50', detail: 'ISO 50' });
  });

  test('other spots, not the own one', () => {
    expect(labels(shot('    otherwise: |'))).toEqual(['fall']);
  });

  test('shots behind after', () => {
    expect(labels(shot('        start: after |'))).toEqual(['after first']);
    expect(taken(shot('        start: after f|'), 'after first')).toContain('start: after first\n');
    expect(labels(shot('        start: later of ready, after |'))).toContain('later of ready, after first');
  });

  test('kit files by their path', () => {
    const kits = [
      'file:///outing/kit/field-bag.shootkit.yaml',
      'file:///outing/plans/own%20bag.shootkit.yaml',
      'other:///x/y.shootkit.yaml',
    ];
    expect(labels('kit: |', { kits }).slice(0, 2)).toEqual([
      '../kit/field-bag.shootkit.yaml',
      './own bag.shootkit.yaml',
    ]);
  });
});

describe('filters', () => {
  // 1/2 s through 6 stops is 32 s, which the dial calls 30 s; through 6.4 stops 42 s: t = t0 · 2^n (ISO 5, densities add).
  test('say the time that they would give', () => {
    const found = offered(shot('        filters: [|]'));
    const ids = found.filter(({ kind }) => kind === 'id');
    expect(ids.map(({ label }) => label)).toEqual(['nd6', 'nd6m', 'pol']);
    expect(ids[0]?.detail).toBe('neutral density, 6 stops; then 30 s');
    expect(ids[1]?.detail).toBe('neutral density, 6.4 stops measured; then 42 s bulb');
  });

  test('add to those that are written', () => {
    const marked = shot('        filters: [nd6, |]');
    const pol = offered(marked).find(({ label, kind }) => label === 'pol' && kind === 'id');
    // 6 + 1.5 stops: 1/2 s · 2^7.5 = 90.5 s.
    expect(pol?.detail).toBe('polarizer, 1.5 stops; then 1 min 31 s bulb');
    expect(offered(marked).filter(({ label, kind }) => label === 'nd6' && kind === 'id')).toEqual([]);
    expect(taken(marked, 'pol')).toContain('filters: [nd6, pol]\n');
    expect(taken(shot('        filters: [nd6,|]'), 'pol')).toContain('filters: [nd6, pol]\n');
    expect(taken(shot('        filters: [nd6, po' + '|'), 'pol')).toContain('filters: [nd6, pol\n');
  });

  test('stand in a list below too', () => {
    const marked = shot('        filters:\n          - nd6\n          - |');
    expect(labels(marked)).toContain('pol');
    expect(taken(marked, 'pol')).toContain('          - nd6\n          - pol\n');
    expect(taken(shot('        filters:\n          |'), 'pol')).toContain('filters:\n          - pol\n');
  });

  test('whole stacks reach the effect, in brackets or behind the key alone', () => {
    const stacks = offered(shot('        filters: [|]')).filter(({ kind }) => kind === 'stack');
    expect(stacks[0]?.label).toBe('nd6m for mirror');
    expect(stacks[0]?.detail).toBe('42 s bulb');
    expect(taken(shot('        filters: |'), 'nd6m for mirror')).toContain('filters: [nd6m]\n');
    expect(taken(shot('        filters: [n|]'), 'nd6m for mirror')).toContain('filters: [nd6m]\n');
  });

  test('no two items have one label', () => {
    for (const marked of [shot('        filters: [|]'), shot('        filters: |')]) {
      expect(new Set(labels(marked)).size).toBe(labels(marked).length);
    }
  });

  const withLens = (line: string) => shot(`        lens: wide @ 24 mm\n${line}`);

  test('whole stacks keep the polarizer, and the reading at the aperture at which it was taken', () => {
    // 1/2 s through 1.5 + 6 stops is 1 min 31 s; cloud streaks on any sky take 1 to 10 min, silky water 1 to 30 s.
    const silky = withLens('        filters: [pol, |]').replace('effect: mirror', 'effect: silky');
    const stacks = offered(silky).filter(({ kind }) => kind === 'stack');
    expect(stacks.map(({ text }) => text)).toEqual(['pol', 'pol, nd6', 'pol, nd6m']);
    // f/8 is 1 2/3 stops from f/14: 28.5 s.
    expect(stacks[1]?.label).toBe('pol, nd6 at f/8 for silky');
    const after = taken(silky, 'pol, nd6 at f/8 for silky');
    expect(after).toContain('aperture: f/8\n');
    expect(after).toContain('metered: 1/2 s @ f/14\n');
    expect(after).toContain('filters: [pol, nd6]\n');
  });

  test('leave out what does not fit the lens', () => {
    const small = demoKit.replace(
      'filters:\n',
      'filters:\n  - { id: small, kind: neutral density, strength: 6 stops, thread: 49 mm }\n',
    );
    const shown = (marked: string) => offered(marked, {}, small).map(({ label }) => label);
    expect(shown(withLens('        filters: [|]'))).toContain('nd6');
    expect(shown(withLens('        filters: [|]'))).not.toContain('small');
    expect(shown(shot('        filters: [|]'))).toContain('small');
  });

  test('come without a time where nothing was metered and nothing can be expected', () => {
    const found = offered(
      'spots:\n  - shots:\n      - id: a\n        filters: [|]\nkit:\n  filters:\n    - { id: f, strength: 6 stops }\n',
    );
    expect(found.map(({ label, detail }) => [label, detail])).toEqual([['f', '6 stops']]);
  });
});

describe('moments come with their time', () => {
  const day = (date: string, at: string, line: string) =>
    `plan: A day\ndate: ${date}\nspots:\n  - id: shore\n    at: ${at}\n    arrive: 05:00\n    setup: 10 min\n${line}`;
  const details = (marked: string) => new Map(offered(marked).map(({ label, detail }) => [label, detail]));

  // Rise and set by an independent library, which agrees with the almanacs to seconds; clock times are to the minute.
  test.each([
    ['sunrise', astronomy.Body.Sun, 1],
    ['sunset', astronomy.Body.Sun, -1],
    ['moonrise', astronomy.Body.Moon, 1],
    ['moonset', astronomy.Body.Moon, -1],
  ] as const)('%s', (event, body, direction) => {
    const observer = new astronomy.Observer(54.4301, -2.6102, 0);
    const from = new Date('2027-03-20T00:00:00Z');
    const found = astronomy.SearchRiseSet(body, observer, direction, from, 1)?.date.getTime() ?? Number.NaN;
    const shown = details(day('2027-03-20', '54.4301, -2.6102', '    shots: [{ start: | }]\n')).get(event);
    expect(shown).toMatch(/^\d\d:\d\d$/);
    expect(Math.abs(Date.parse(`2027-03-20T${shown}:00Z`) - found)).toBeLessThan(90_000);
  });

  test('at the spot in which the line stands, and on the plan’s date', () => {
    const plan = (second: string, first: string) =>
      `date: 2027-07-01\nstart: { from: "54, -3", leave: ${first} }\nspots:\n  - id: a\n    at: 54.43, -2.61\n  - id: b\n    at: 36.0, 138.0\n    decide: ${second}\n`;
    const sunrise = (latitude: number, longitude: number, hours: number) => {
      const observer = new astronomy.Observer(latitude, longitude, 0);
      const from = new Date(Date.UTC(2027, 6, 1, -hours));
      const found = astronomy.SearchRiseSet(astronomy.Body.Sun, observer, 1, from, 1)?.date.getTime();
      return new Date((found ?? 0) + hours * 3_600_000 + 30_000).toISOString().slice(11, 16); // to the nearest minute
    };
    // British Summer Time is UTC+1, Asia/Tokyo is UTC+9.
    expect(details(plan('05:00', '|')).get('sunrise')).toBe(sunrise(54.43, -2.61, 1));
    expect(details(plan('|', '05:00')).get('sunrise')).toBe(sunrise(36, 138, 9));
  });

  test('with an offset, the next day, in a list and in a range', () => {
    const at = (line: string) => details(day('2027-03-20', '54.4301, -2.6102', line));
    const sunrise = at('    decide: |').get('sunrise') ?? '';
    const half = at('    decide: sunrise|');
    const minutes = (text: string | undefined) => Number(text?.slice(0, 2)) * 60 + Number(text?.slice(3, 5));
    expect(minutes(sunrise) - minutes(half.get('sunrise - 30 min'))).toBe(30);
    expect(half.get('sunrise next day')).toMatch(/^06:\d\d \+1 day$/);
    // In March the sun rises two to three minutes earlier each day.
    expect([2, 3]).toContain(minutes(sunrise) - minutes(half.get('sunrise next day')));
    expect(at('    decide: later of civil dawn, |').get('later of civil dawn, sunrise')).toBe(sunrise);
    expect(at('    open: |').get('sunrise ..')).toBe(sunrise);
    expect(at('    open: 05:00 .. sunr|').get('05:00 .. sunrise')).toBe(sunrise);
  });

  test('arriving and being ready, but not where that is what is written', () => {
    const shots = details(day('2027-03-20', '54.4301, -2.6102', '    shots: [{ id: a, start: | }]\n'));
    expect([shots.get('arrive'), shots.get('ready')]).toEqual(['05:00', '05:10']);
    const own = details('date: 2027-03-20\nspots:\n  - id: a\n    at: 54.43, -2.61\n    arrive: re|\n');
    expect(own.get('ready')).toBe('When you have set up');
  });

  test('or say that they do not happen, and why', () => {
    const dark = details(day('2027-12-21', '69.65, 18.96', '    shots: [{ start: | }]\n'));
    expect(dark.get('sunrise')).toMatch(/^none: the sun stays below/);
    expect(dark.get('solar noon')).toMatch(/^11:\d\d$/);
    expect(dark.get('high water')).toBe('none: no high water is given for this date');
    expect(dark.get('sun clears skyline')).toBe('none: no skyline is given for this spot');
  });

  test('but none over a skyline that cannot be read: nobody knows what the land hides', () => {
    const skyline = (line: string) =>
      details(day('2027-03-20', '54.4301, -2.6102', `    skyline: ${line}\n    shots: [{ start: | }]\n`));
    const clear = skyline('{ E: 3°, W: 3° }');
    expect(clear.get('sun clears skyline')).toMatch(/^\d\d:\d\d$/);
    const broken = skyline('{ E: 3°, W: high }');
    expect(broken.get('sun clears skyline')).not.toMatch(/\d|none/);
    expect(broken.get('sunrise')).toBe(clear.get('sunrise'));
  });

  test('or with their meaning, where date or place are not known', () => {
    expect(details('spots:\n  - id: a\n    arrive: |').get('sunrise')).not.toMatch(/\d/);
    expect(details(day('2027-03-20', 'nowhere', '    decide: |')).get('sunrise')).not.toMatch(/\d/);
  });
});

describe('quotes', () => {
  test.each([
    // A key that has its colon is renamed between its quotes.
    ['spots:\n  - "i|": a\n', 'name', 'spots:\n  - "name": a\n'],
    ["'da|te': 2027-03-20\n", 'timezone', "'timezone': 2027-03-20\n"],
    ['{ "da|te": 2027-03-20 }', 'timezone', '{ "timezone": 2027-03-20 }'],
    ['spots:\n  - id: a\n    "na|me: x\n', 'elevation', 'spots:\n  - id: a\n    "elevation": x\n'],
    ['party: { "peo|: 2, note: x }\n', 'contact', 'party: { "contact": 2, note: x }\n'],
    // One without gets it behind them.
    ['plan: x\n"da|"\n', 'date', 'plan: x\n"date": \n'],
    ['plan: x\n"|"\n', 'date', 'plan: x\n"date": \n'],
    ["plan: x\n'da|\n", 'date', "plan: x\n'date': \n"],
    ['spots:\n  - id: a\n    "wal|"\n', 'walk', 'spots:\n  - id: a\n    "walk":\n      \n'],
    ['spots:\n  - id: a\n    "haz|"\n', 'hazards', 'spots:\n  - id: a\n    "hazards": []\n'],
    ['spots:\n  "i|"\n', 'id', 'spots:\n  - "id": \n'],
    ['spots:\n- "i|"\n', 'id', 'spots:\n- "id": \n'],
    ['party: { "con|" }\n', 'contact', 'party: { "contact":  }\n'],
    ['party: { "con| }\n', 'contact', 'party: { "contact":  }\n'],
    ['party: { "con|, people: 2 }\n', 'contact', 'party: { "contact": , people: 2 }\n'],
    ['spots:\n  - skyline: { "S|": 2° }\n', 'SE', 'spots:\n  - skyline: { "SE": 2° }\n'],
    ['checks:\n  "time/l|"\n', 'time/late-arrival', 'checks:\n  "time/late-arrival": \n'],
  ])('around a key: %j', (marked, label, expected) => {
    const rules = [{ code: 'time/late-arrival', severity: 'warning', doc: 'Late.' }] as const;
    expect(taken(marked, label, { rules })).toBe(expected);
  });

  test('the keys that stand in quotes are not offered again', () => {
    expect(labels('"plan": x\n"date": 2027-03-20\n|')).not.toContain('date');
    expect(labels('{ "plan": x, "|" }')).not.toContain('plan');
  });

  test.each([
    ['spots:\n  - permission: "as|" # when\n', 'asked', 'spots:\n  - permission: "asked" # when\n'],
    ['spots:\n  - permission: "|asked"\n', 'granted', 'spots:\n  - permission: "granted"\n'],
    ["spots:\n  - permission: '|'\n", 'granted', "spots:\n  - permission: 'granted'\n"],
    ['spots:\n  - permission: "as| # when\n', 'asked', 'spots:\n  - permission: "asked" # when\n'],
    ['spots:\n  - { permission: "as|, id: a }\n', 'asked', 'spots:\n  - { permission: "asked", id: a }\n'],
    ['spots:\n  - { permission: "as| }\n', 'asked', 'spots:\n  - { permission: "asked" }\n'],
    [
      'spots:\n  - hazards: ["deep|", cold water]\n',
      'deep water',
      'spots:\n  - hazards: ["deep water", cold water]\n',
    ],
    [
      'spots:\n  - hazards: ["deep|, cold water]\n',
      'deep water',
      'spots:\n  - hazards: ["deep water", cold water]\n',
    ],
    ['spots:\n  - hazards:\n      - "deep|"\n', 'deep water', 'spots:\n  - hazards:\n      - "deep water"\n'],
    ['spots:\n  - hazards:\n      "deep|"\n', 'deep water', 'spots:\n  - hazards:\n      - "deep water"\n'],
    ['"spots":\n  - "arrive": "sunr|"\n', 'sunrise', '"spots":\n  - "arrive": "sunrise"\n'],
  ])('around a value: %j', (marked, label, expected) => {
    expect(taken(marked, label)).toBe(expected);
  });

  test('what is typed is compared with what stands in the span', () => {
    for (const marked of [
      'plan: x\n"da|"\n',
      'spots:\n  "i|"\n',
      '"da|": x',
      'spots:\n  - "permission": "as|"\n',
    ]) {
      const { text, offset } = at(marked);
      for (const { span, filter, label } of offered(marked).slice(0, 3)) {
        const typed = text.slice(span.start, offset).trimStart();
        const compared = (filter ?? label).trimStart();
        expect(/^["']/.test(typed)).toBe(/^["']/.test(compared));
      }
    }
  });
});

/** The same text with the dashes of every list at the column of its key. */
function outdented(text: string): string {
  const lists: number[] = [];
  return text
    .split('\n')
    .map((line) => {
      const column = line.search(/\S|$/);
      while (line.trim() !== '' && column < (lists.at(-1) ?? 0)) lists.pop();
      if (/^ *-[ |]/.test(line) && lists.at(-1) !== column) lists.push(column);
      return line.slice(Math.min(2 * lists.length, column));
    })
    .join('\n');
}

describe('a list that is not indented completes as one that is', () => {
  const whole = demoPlan.replace('filters: [nd6m]', 'filters:\n          - nd6m').split('\n');
  const drafts: Record<string, (line: string) => string> = {
    'the whole line': (line) => line,
    'the beginning of a key': (line) => line.slice(0, line.search(/\S/) + 3),
    'only a dash': (line) => line.replace(/^( *-) .*/, '$1'),
    'a dash and a blank': (line) => line.replace(/^( *- ).*/, '$1'),
    'no value': (line) => line.replace(/: .*/, ': '),
  };

  test.each(Object.entries(drafts))('%s', (_, draft) => {
    let compared = 0;
    whole.forEach((line, index) => {
      if (line.trim() === '') return;
      const written = draft(line);
      const text = [...whole.slice(0, index), `${written}|`, ...whole.slice(index + 1)].join('\n');
      const other = outdented(text);
      const [indented, not] = [offered(text), offered(other)];
      expect(not.map(({ label, detail }) => [label, detail])).toEqual(
        indented.map(({ label, detail }) => [label, detail]),
      );
      const first = indented[0]?.label;
      if (first === undefined) return;
      const says = (marked: string) => parseText(taken(marked, first)).root;
      expect(scalars(says(other))).toEqual(scalars(says(text)));
      compared += 1;
    });
    expect(compared).toBeGreaterThan(15);
  });

  test('and its next item is offered on the line of its key’s column', () => {
    const marked = 'plan: x\nspots:\n- id: a\n  shots:\n  |\n- id: b\n  shots:\n  - id: c\n';
    expect(labels(marked)).toContain('effect');
    expect(labels(marked)).toContain('arrive');
  });
});

/** The scalars of a tree, in order, with the keys that lead to them. */
function scalars(node: Node): readonly string[] {
  if (node.kind === 'scalar') return [node.text];
  if (node.kind === 'sequence')
    return node.items.flatMap((item, index) => scalars(item).map((s) => `${index}/${s}`));
  if (node.kind !== 'map') return [];
  return node.entries.flatMap(({ key, value }) => [
    key.text,
    ...scalars(value).map((s) => `${key.text}/${s}`),
  ]);
}

test('brackets and dashes nested without end are answered with nothing', () => {
  for (const unit of ['[', '{', '{a: ', '- ', '[{']) {
    const text = `spots: ${unit.repeat(100_000)}`;
    const analysis = analysePlan(text);
    for (const offset of [300, text.length >> 1, text.length])
      expect(completion(analysis, offset)).toEqual([]);
  }
});

test('every item parses: each key that is offered can be taken at its place', () => {
  const places = [
    '|',
    'spots:\n  - id: a\n    |',
    'spots:\n- id: a\n  shots:\n  - id: b\n    |',
    'party: { | }',
  ];
  for (const place of places) {
    for (const label of labels(place)) expect(() => data(taken(place, label))).not.toThrow();
  }
});

test('any text and any offset are answered', () => {
  const text = shot('        filters: [nd6, "x\n          - {a: [b, c}: d # e');
  const analysis = analysePlan(text);
  for (let offset = 0; offset <= text.length; offset += 1) {
    for (const { span } of completion(analysis, offset)) {
      expect(span.start <= offset && offset <= span.end).toBe(true);
    }
  }
});
