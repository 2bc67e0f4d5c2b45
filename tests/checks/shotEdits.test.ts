import { describe, expect, test } from 'vitest';
import { type ShotKeys, shotEdits } from '../../server/checks/shotEdits.ts';
import { applyEdits } from '../../server/text/edit.ts';
import { analysed, smallKit } from '../support/check.ts';

const kit = smallKit({
  filters: [
    '{ id: nd3, kind: neutral density, strength: 3 stops, thread: 77 mm }',
    '{ id: nd6, kind: neutral density, strength: 6 stops, thread: 77 mm }',
    '{ id: pol, kind: polarizer, loss: 1.5 stops, thread: 77 mm }',
  ],
});

const head = `plan: A day
date: 2027-03-20
kit: ../kit/field-bag.shootkit.yaml
spots:
  - id: steps
    at: 54.4301, -2.6102
    shots:
`;

/** The lines of the last shot after keys of it are written; undefined when that cannot be done in place. */
function after(shots: string, wanted: ShotKeys): string | undefined {
  const text = head + shots;
  const analysis = analysed(text, { kit });
  const shot = analysis.day?.shots.at(-1)?.shot;
  if (shot === undefined) throw new Error('There is no shot in this text.');
  const edits = shotEdits(analysis, shot, wanted);
  return edits === undefined ? undefined : applyEdits(text, edits).slice(head.length);
}

const shot = (...lines: readonly string[]) =>
  `      - id: a\n${lines.map((line) => `        ${line}\n`).join('')}`;

describe('filters', () => {
  const listed = (...items: readonly string[]) =>
    shot(
      'metered: 1/4 s',
      'filters:           # stack',
      ...items.map((item) => `  - ${item}`),
      'start: 11:30',
    );

  test('in lines of their own keep their comments', () => {
    const now = listed('nd3            # first', 'pol            # second');
    expect(after(now, { filters: '[pol, nd6]' })).toBe(
      listed('nd6            # first', 'pol            # second'),
    );
    expect(after(now, { filters: '[nd3, pol, nd6]' })).toBe(
      listed('nd3            # first', 'pol            # second', 'nd6'),
    );
  });

  test('in lines of their own go with their line, but not with a comment', () => {
    expect(after(listed('nd3', 'pol # second'), { filters: '[pol]' })).toBe(listed('pol # second'));
    expect(after(listed('nd3 # first', 'pol'), { filters: '[nd3]' })).toBe(listed('nd3 # first'));
    expect(after(listed('nd3 # first', 'pol'), { filters: '[pol]' })).toBeUndefined();
    expect(after(listed('nd3'), { filters: '[]' })).toBeUndefined();
    expect(after(shot('metered: 1/4 s', 'filters:', '  - nd3', 'start: 11:30'), { filters: '[]' })).toBe(
      shot('metered: 1/4 s', 'filters: []', 'start: 11:30'),
    );
  });

  test('as the last lines of a text, and with other line breaks', () => {
    const now = shot('filters:', '  - nd3', '  - pol').trimEnd();
    expect(after(now, { filters: '[nd3]' })).toBe(shot('filters:', '  - nd3').trimEnd());
    const crlf = shot('filters:', '  - nd3', '  - pol', 'start: 11:30').replaceAll('\n', '\r\n');
    expect(after(crlf, { filters: '[pol]' })).toBe(
      shot('filters:', '  - pol', 'start: 11:30').replaceAll('\n', '\r\n'),
    );
    expect(after(crlf, { filters: '[nd3, pol, nd6]' })).toBe(
      shot('filters:', '  - nd3', '  - pol', '  - nd6', 'start: 11:30').replaceAll('\n', '\r\n'),
    );
  });

  test('between brackets over several lines', () => {
    const now = shot('filters: [', '  nd3,', '  pol ]', 'start: 12:00');
    expect(after(now, { filters: '[pol, nd6]' })).toBe(shot('filters: [pol, nd6]', 'start: 12:00'));
    const noted = shot('filters: [', '  nd3, # first', '  pol # second', ']', 'start: 12:00');
    expect(after(noted, { filters: '[pol, nd6]' })).toBe(
      shot('filters: [', '  nd6, # first', '  pol # second', ']', 'start: 12:00'),
    );
    expect(after(noted, { filters: '[nd3, pol, nd6]' })).toBe(
      shot('filters: [', '  nd3, # first', '  pol, nd6 # second', ']', 'start: 12:00'),
    );
    expect(after(noted, { filters: '[pol]' })).toBeUndefined();
  });

  test('a single one without brackets, in quotes, and twice', () => {
    expect(after(shot('filters: nd3 # weak'), { filters: '[nd6]' })).toBe(shot('filters: [nd6] # weak'));
    expect(after(shot('filters: ["nd3", pol]'), { filters: '[]' })).toBe(shot('filters: []'));
    expect(after(shot('filters:', '  - nd3', '  - nd3'), { filters: '[nd3]' })).toBe(
      shot('filters:', '  - nd3'),
    );
  });
});

describe('what others look at is left alone', () => {
  test('an anchor, an alias', () => {
    expect(after(shot('aperture: &ap f/11'), { aperture: 'f/8' })).toBeUndefined();
    expect(after(shot('filters: &f [pol]'), { filters: '[nd6]' })).toBeUndefined();
    expect(after(shot('filters: [&one nd3, pol]'), { filters: '[nd6]' })).toBeUndefined();
    const first = shot('aperture: &ap f/11', 'filters: &f [pol]');
    const second = '      - id: b\n        aperture: *ap\n        filters: *f\n';
    expect(after(first + second, { aperture: 'f/8' })).toBeUndefined();
    expect(after(first + second, { filters: '[nd6]' })).toBeUndefined();
  });

  test('the shot that is merged in: the key is written in the other one', () => {
    const first = '      - &base\n        id: a\n        aperture: f/11\n        filters: [nd3]\n';
    expect(after(`${first}      - <<: *base\n        id: b\n`, { filters: '[nd6]' })).toBe(
      `${first}      - <<: *base\n        id: b\n        filters: [nd6]\n`,
    );
    expect(after(`${first}      - { <<: *base, id: b }\n`, { filters: '[nd6]' })).toBe(
      `${first}      - { <<: *base, id: b, filters: [nd6] }\n`,
    );
  });
});

describe('a meter reading', () => {
  test('is said to hold for the aperture and ISO at which it was taken, where those change', () => {
    const now = (metered: string) =>
      shot('aperture: "f/11"   # sharp', 'iso: 64', `metered: ${metered}  # spot`);
    const then = (aperture: string, iso: string, metered: string) =>
      shot(`aperture: ${aperture}   # sharp`, `iso: ${iso}`, `metered: ${metered}  # spot`);
    expect(after(now('1/4 s'), { aperture: 'f/8' })).toBe(then('f/8', '64', '1/4 s @ f/11'));
    expect(after(now('1/4 s'), { iso: '100' })).toBe(then('"f/11"', '100', '1/4 s, ISO 64'));
    expect(after(now('1/4 s'), { aperture: 'f/8', iso: '100' })).toBe(
      then('f/8', '100', '1/4 s @ f/11, ISO 64'),
    );
    expect(after(now('1/4 s @ f/5.6'), { aperture: 'f/8', iso: '100' })).toBe(
      then('f/8', '100', '1/4 s @ f/5.6, ISO 64'),
    );
    expect(after(now('1/4 s, ISO 200'), { aperture: 'f/8', iso: '100' })).toBe(
      then('f/8', '100', '1/4 s @ f/11, ISO 200'),
    );
    expect(after(now('EV 12'), { aperture: 'f/8', iso: '100' })).toBe(then('f/8', '100', 'EV 12'));
  });

  test('keeps its comma in quotes between braces', () => {
    const flow = (rest: string) => `      - { id: a, aperture: f/11, ${rest}, start: 12:00 }\n`;
    expect(after(flow('metered: 1/4 s'), { iso: '800' })).toBe(flow('iso: 800, metered: "1/4 s, ISO 100"'));
  });

  test('does not depend on it: the time is the same whatever else is set', () => {
    const text = head + shot('lens: wide @ 24 mm', 'aperture: f/11', 'iso: 64', 'metered: 1/4 s');
    const before = analysed(text, { kit }).day?.shots[0]?.exposure?.filtered?.correctedSeconds ?? Number.NaN;
    const written = after(text.slice(head.length), { aperture: 'f/22', iso: '100' });
    const seconds = analysed(head + written, { kit }).day?.shots[0]?.exposure?.filtered?.correctedSeconds;
    // f/11 to f/22 is two stops less light, ISO 64 to 100 two thirds of a stop more.
    expect(seconds).toBeCloseTo(before * 2 ** (2 - 2 / 3), 9);
  });
});

test('a new key goes into braces over several lines', () => {
  const now = '      - {\n          id: a,\n          metered: 1/4 s\n        }\n';
  expect(after(now, { filters: '[nd6]' })).toBe(
    '      - {\n          id: a,\n          metered: 1/4 s, filters: [nd6]\n        }\n',
  );
});

test('a value below its key stays there, with the comment between', () => {
  expect(after(shot('aperture: # sharp', '  f/11'), { aperture: 'f/8' })).toBe(
    shot('aperture: # sharp', '  f/8'),
  );
});
