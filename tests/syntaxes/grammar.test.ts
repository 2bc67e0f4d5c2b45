import { describe, expect, test } from 'vitest';
import { angle } from '../../server/quantities/angle.ts';
import { aperture, apertureRange } from '../../server/quantities/aperture.ts';
import { bearing } from '../../server/quantities/bearing.ts';
import { clock } from '../../server/quantities/clock.ts';
import { condition } from '../../server/quantities/condition.ts';
import { coordinates } from '../../server/quantities/coordinates.ts';
import { date } from '../../server/quantities/date.ts';
import { duration } from '../../server/quantities/duration.ts';
import { events } from '../../server/quantities/events.ts';
import { focalLength, lensChoice } from '../../server/quantities/focal.ts';
import { instant } from '../../server/quantities/instant.ts';
import { height, length, pixelSize, sensorSize, threadSize } from '../../server/quantities/length.ts';
import { metered } from '../../server/quantities/metered.ts';
import { moment } from '../../server/quantities/moment.ts';
import { momentRange } from '../../server/quantities/momentRange.ts';
import { sensitivity } from '../../server/quantities/sensitivity.ts';
import { share } from '../../server/quantities/share.ts';
import { shutter } from '../../server/quantities/shutter.ts';
import { shutterRange } from '../../server/quantities/shutterRange.ts';
import { speed } from '../../server/quantities/speed.ts';
import { exposureValue, stopStep, stops } from '../../server/quantities/stops.ts';
import { filterStrength } from '../../server/quantities/strength.ts';
import { temperature } from '../../server/quantities/temperature.ts';
import { expectScopes, grammarText, scopesOf, stretches, within } from './tokens.ts';

describe('the YAML around the quantities', () => {
  test('keys, plain and quoted', () => {
    expectScopes(`
  back-by: 14:00
# ^^^^^^^ entity.name.tag
#        ^ punctuation.separator.key-value
  "north steps" : x
# ^^^^^^^^^^^^^ entity.name.tag
  - skyline: { E: 6°, 'SE': 9° }
#   ^^^^^^^ entity.name.tag
#              ^ entity.name.tag
#                     ^^^^ entity.name.tag
  not:a key
# ^^^^^^^^^ string.unquoted.plain
  { a: 1, "b":2 }
#   ^ entity.name.tag
#         ^^^ entity.name.tag
#             ^ constant.numeric`);
  });

  test('ids, names and notes are not looked at for quantities', () => {
    expectScopes(`
  - id: slide-50
#       ^^^^^^^^ entity.name.type.id
  - { id: nd6, name: 24 mm at sunrise, kind: graduated }
#         ^^^ entity.name.type.id
#              ^^^^ entity.name.tag
#                    ^^^^^^^^^^^^^^^^ string.unquoted.plain`);
    const lines = [
      'plan: Sunrise at 06:30, f/8',
      'name: "2 min after sunset"',
      "note: '1/2 s'",
      'kit: ../kit/bag-24.yaml',
    ];
    for (const scopes of scopesOf(lines)) {
      expect(scopes.some((list) => within(list, 'constant') || within(list, 'support'))).toBe(false);
    }
  });

  test('comments, and times in comments', () => {
    expectScopes(`
  at: 06:30 # or 07:10 after sunrise, f/8
#     ^^^^^ constant.numeric.time
#           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ comment.line
  # 1/250 s
# ^^^^^^^^^ comment.line
  hours: [06:30, # first
#         ^^^^^ constant.numeric.time
#                ^^^^^^^ comment.line
    07:30]
#   ^^^^^ constant.numeric.time
  mark: a#b
#       ^^^ string.unquoted.plain`);
    const line = 'at: 06:30 # or 07:10 after sunrise, f/8';
    const [scopes = []] = scopesOf([line]);
    expect(stretches(line, scopes, 'constant')).toEqual(['06:30']);
    expect(stretches(line, scopes, 'support')).toEqual([]);
  });

  test('anchors, aliases, merges, tags, documents, directives', () => {
    expectScopes(`
  lens: &wide !!str 24 mm
#       ^ keyword.operator.anchor
#        ^^^^ variable.other.anchor
#             ^^^^^ storage.type.tag
#                   ^^ constant.numeric.length
  again: *wide
#        ^ keyword.operator.alias
#         ^^^^ variable.other.alias
  <<: *wide
# ^^ keyword.operator.merge
  l: [*wide, { <<: *wide }]
#      ^^^^ variable.other.alias
#              ^^ keyword.operator.merge`);
    const [directive = [], start = [], end = []] = scopesOf(['%YAML 1.1', '---', '...']);
    expect(within(directive[0], 'keyword.other.directive')).toBe(true);
    expect(start.every((list) => within(list, 'entity.other.document'))).toBe(true);
    expect(end.every((list) => within(list, 'entity.other.document'))).toBe(true);
  });

  test('tabs in indentation are invalid, tabs elsewhere are not', () => {
    const lines = ['spots:', ' \tname: a', 'a:\t1 s\t# b', '\t', '\t# c'];
    const invalid = scopesOf(lines).map((scopes, row) => stretches(lines[row] ?? '', scopes, 'invalid'));
    expect(invalid).toEqual([[], ['\t'], [], [], []]);
  });

  test('block text is text until the indentation ends', () => {
    expectScopes(
      `
  note: |
#       ^ keyword.control.block-scalar
    06:30 # no comment
#   ^^^^^^^^^^^^^^^^^^ string.unquoted.block

     - sunrise
#    ^^^^^^^^^ string.unquoted.block
  at: 06:30
#     ^^^^^ constant.numeric.time
  - water: >-  # folded
#   ^^^^^ entity.name.tag
#          ^^ keyword.control.block-scalar
#              ^^^^^^^^ comment.line
      at: 06:30
#     ^^^^^^^^^ string.unquoted.block
    at: 06:30
#   ^^ entity.name.tag
  - |
    sunset
#   ^^^^^^ string.unquoted.block
  - sunset
#   ^^^^^^ support.constant.event`,
    );
    const [, content = [], after = []] = scopesOf(['note: |', '  at: 06:30 # x', 'at: 06:30']);
    expect(content.some((list) => within(list, 'constant') || within(list, 'comment'))).toBe(false);
    expect(after.some((list) => within(list, 'constant.numeric.time'))).toBe(true);
  });

  test('a key with block text but no text yet does not swallow its neighbour', () => {
    expectScopes(`
    - note: |
      at: 06:30
#     ^^ entity.name.tag
#         ^^^^^ constant.numeric.time`);
  });
});

describe('quantities by kind', () => {
  test('shutter times and durations', () => {
    expectScopes(`
  a: 1/250
#    ^^^^^ constant.numeric.shutter
  a: 1/2 s
#    ^^^ constant.numeric.shutter
#        ^ keyword.other.unit.shutter
  a: 0"5
#    ^ constant.numeric.shutter
#     ^ keyword.other.unit.shutter
#      ^ constant.numeric.shutter
  a: 30"
#    ^^ constant.numeric.shutter
#      ^ keyword.other.unit.shutter
  a: 0.5 s
#    ^^^ constant.numeric.duration
#        ^ keyword.other.unit.duration
  a: 1 min 30 s
#    ^ constant.numeric.duration
#      ^^^ keyword.other.unit.duration
#          ^^ constant.numeric.duration
#             ^ keyword.other.unit.duration
  a: 1:30 min
#    ^^^^ constant.numeric.duration
#         ^^^ keyword.other.unit.duration
  a: 1h20m
#    ^ constant.numeric.duration
#     ^ keyword.other.unit.duration
#      ^^ constant.numeric.duration
  a: 1/8000 s .. 30 s
#    ^^^^^^ constant.numeric.shutter
#             ^^ keyword.operator.range
#                ^^ constant.numeric.duration`);
  });

  test('apertures and focal lengths', () => {
    expectScopes(`
  a: f/14
#    ^^ keyword.other.unit.aperture
#      ^^ constant.numeric.aperture
  a: f14
#    ^ keyword.other.unit.aperture
#     ^^ constant.numeric.aperture
  a: F 14
#      ^^ constant.numeric.aperture
  a: f/4 .. f/22
#      ^ constant.numeric.aperture
#        ^^ keyword.operator.range
#             ^^ constant.numeric.aperture
  lens: wide @ 24 mm
#       ^^^^ variable.other.reference
#            ^ keyword.operator.at
#              ^^ constant.numeric.focal-length
#                 ^^ keyword.other.unit.focal-length
  focal: 16-35 mm
#        ^^ constant.numeric.focal-length
#          ^ keyword.operator.range
#           ^^ constant.numeric.focal-length
#              ^^ keyword.other.unit.focal-length`);
  });

  test('stops, exposure values, sensitivity, filter strength', () => {
    expectScopes(`
  a: 6 stops
#    ^ constant.numeric.stops
#      ^^^^^ keyword.other.unit.stops
  a: 1 1/3 stops
#    ^^^^^ constant.numeric.stops
  a: +2/3 stop
#    ^^^^ constant.numeric.stops
#         ^^^^ keyword.other.unit.stops
  a: 1/3 stop
#    ^^^ constant.numeric.stops
  a: 6⅔ stops
#    ^^ constant.numeric.stops
  a: EV -3
#    ^^ keyword.other.unit.ev
#       ^^ constant.numeric.ev
  a: ISO 64
#    ^^^ keyword.other.unit.iso
#        ^^ constant.numeric.iso
  a: ND64
#    ^^ keyword.other.unit.filter
#      ^^ constant.numeric.filter
  a: OD 1.8
#    ^^ keyword.other.unit.filter
#       ^^^ constant.numeric.filter
  a: x64
#    ^ keyword.other.unit.filter
#     ^^ constant.numeric.filter
  a: 1.8D
#    ^^^ constant.numeric.filter
#       ^ keyword.other.unit.filter`);
  });

  test('bearings, angles, coordinates', () => {
    expectScopes(`
  a: 118°
#    ^^^ constant.numeric.angle
#       ^ keyword.other.unit.angle
  a: 118° mag
#         ^^^ keyword.other.unit.angle
  a: -3°
#    ^^ constant.numeric.angle
  a: ESE
#    ^^^ support.constant.bearing
  a: S20E
#    ^^^^ constant.numeric.bearing
  a: 54.4301, -2.6102
#    ^^^^^^^^^^^^^^^^ constant.numeric.coordinates
  a: 54°25'48.4"N 2°36'36.7"W # x
#    ^^^^^^^^^^^^ constant.numeric.coordinates
#                 ^^^^^^^^^^^ constant.numeric.coordinates
#                             ^^^ comment
  a: '54°25''48"N 2°36''36"W'
#     ^^^^^^^^^^^ constant.numeric.coordinates
  a: geo:54.4301,-2.6102
#    ^^^^^^^^^^^^^^^^^^^ constant.numeric.coordinates`);
  });

  test('lengths, speeds, temperatures, shares', () => {
    expectScopes(`
  a: 36 x 24 mm
#    ^^ constant.numeric
#       ^ keyword.operator.by
#         ^^ constant.numeric.length
#            ^^ keyword.other.unit.length
  a: 34 ft
#    ^^ constant.numeric.length
#       ^^ keyword.other.unit.length
  a: 5'11"
#    ^ constant.numeric.length
#     ^ keyword.other.unit.length
#      ^^ constant.numeric.length
  a: 3 km/h
#    ^ constant.numeric.speed
#      ^^^^ keyword.other.unit.speed
  a: Bft 2
#    ^^^ keyword.other.unit.speed
#        ^ constant.numeric.speed
  a: -4 °C
#    ^^ constant.numeric.temperature
#       ^^ keyword.other.unit.temperature
  a: 90 %
#    ^^ constant.numeric.share
#       ^ keyword.other.unit.share
  needs: [wind < 5 km/h, cloud >= 3/8]
#              ^ keyword.operator.comparison
#                ^ constant.numeric.speed
#                              ^^ keyword.operator.comparison
#                                 ^^^ constant.numeric`);
  });

  test('clock times, dates, moments', () => {
    expectScopes(`
  a: 2027-03-19 18:00
#    ^^^^^^^^^^ constant.numeric.date
#               ^^^^^ constant.numeric.time
  a: sunrise - 45 min
#    ^^^^^^^ support.constant.event
#            ^ keyword.operator.arithmetic
#              ^^ constant.numeric.duration
  a: sun clears skyline + 5 min
#    ^^^^^^^^^^^^^^^^^^ support.constant.event
#                       ^ keyword.operator.arithmetic
  a: 07:10 next day
#    ^^^^^ constant.numeric.time
#          ^^^^^^^^ keyword.control.moment
  a: 20:00 previous day
#    ^^^^^ constant.numeric.time
#          ^^^^^^^^^^^^ keyword.control.moment
  a: second high water – 2 h
#    ^^^^^^ keyword.control.moment
#           ^^^^^^^^^^ support.constant.event
#                      ^ keyword.operator.arithmetic
#                        ^ constant.numeric.duration
  a: later of ready, civil dawn
#    ^^^^^^^^ keyword.control.moment
#             ^^^^^ support.constant.moment
#                    ^^^^^^^^^^ support.constant.event
  a: after mirror-two .. sunset
#    ^^^^^ keyword.control.moment
#          ^^^^^^^^^^ variable.other.reference
#                     ^^ keyword.operator.range
#                        ^^^^^^ support.constant.event
  a: arrive + 20 min
#    ^^^^^^ support.constant.moment`);
  });

  test('yes and no only as whole values', () => {
    expectScopes(`
  a: true
#    ^^^^ constant.language.boolean
  a: off # b
#    ^^^ constant.language.boolean
  a: [on, no]
#     ^^ constant.language.boolean
#         ^^ constant.language.boolean
  on: wall
# ^^ entity.name.tag
  a: stand on the wall
#    ^^^^^^^^^^^^^^^^^ string.unquoted.plain`);
    const [scopes = []] = scopesOf(['a: stand on the wall']);
    expect(scopes.some((list) => within(list, 'constant'))).toBe(false);
  });

  test('words with digits are words', () => {
    for (const line of [
      'filters: [nd6, grad2-a]',
      'otherwise: 3-falls',
      'x: pool-24',
      'x: v1.2b',
      'kind: neutral density',
    ]) {
      const [scopes = []] = scopesOf([line]);
      expect(stretches(line, scopes, 'constant'), line).toEqual([]);
    }
  });
});

describe('wherever a quantity stands', () => {
  const samples: readonly (readonly [text: string, number: string, scope: string])[] = [
    ['1/250 s', '1/250', 'constant.numeric.shutter'],
    ['2 min', '2', 'constant.numeric.duration'],
    ['f/14', '14', 'constant.numeric.aperture'],
    ['16-35 mm', '16', 'constant.numeric.focal-length'],
    ['6⅔ stops', '6⅔', 'constant.numeric.stops'],
    ['EV 12', '12', 'constant.numeric.ev'],
    ['ISO 64', '64', 'constant.numeric.iso'],
    ['ND64', '64', 'constant.numeric.filter'],
    ['118°', '118', 'constant.numeric.angle'],
    ['600 m', '600', 'constant.numeric.length'],
    ['3 km/h', '3', 'constant.numeric.speed'],
    ['4 °C', '4', 'constant.numeric.temperature'],
    ['90 %', '90', 'constant.numeric.share'],
    ['07:10', '07:10', 'constant.numeric.time'],
    ['2027-03-20', '2027-03-20', 'constant.numeric.date'],
    ['civil dawn', 'civil dawn', 'support.constant.event'],
    ['SE', 'SE', 'support.constant.bearing'],
  ];
  const places: readonly (readonly [place: string, frame: (text: string) => string])[] = [
    ['after a key', (text) => `key: ${text}`],
    ['with a comment behind', (text) => `key: ${text} # 99 s, sunset, f/99, NW`],
    ['after a dash', (text) => `  - ${text}`],
    ['after dash and key', (text) => `  - key: ${text}`],
    ['in a flow mapping', (text) => `  - { key: ${text}, other: text }`],
    ['in a flow sequence', (text) => `key: [${text}]`],
    ['in double quotes', (text) => `key: "${text}"`],
    ['in single quotes, in flow', (text) => `key: [ '${text}' ]`],
    ['after an anchor', (text) => `key: &name ${text}`],
    ['alone on its line', (text) => `    ${text}`],
    ['with a blank behind', (text) => `key: ${text}  `],
  ];
  test.each(places)('%s', (_, frame) => {
    for (const [text, number, scope] of samples) {
      const line = frame(text);
      const [scopes = []] = scopesOf([line]);
      expect(stretches(line, scopes, scope)[0], line).toBe(number);
      expect(stretches(line, scopes, 'constant').join(' '), line).not.toContain('99');
    }
  });

  test('after a flow mapping over several lines', () => {
    expectScopes(`
  walk: {
    distance: 600 m,
#   ^^^^^^^^ entity.name.tag
#             ^^^ constant.numeric.length
    climb: 40 m
#          ^^ constant.numeric.length
  }
# ^ punctuation.definition.mapping.end
  at: 06:30
#     ^^^^^ constant.numeric.time`);
  });
});

describe('what is half typed', () => {
  test.each([
    'at: "06:30',
    "at: '06:30",
    'at: "54°25\'48\\"N',
    'at: ["a, 3 s',
    'at: { b: "',
    'at: [1, { b: 2',
    'at: "30""',
  ])('%s', (broken) => {
    const lines = [broken, 'leave: 06:30 # x', '  - id: steps', 'spots:', '  f/14'];
    const [, leave = [], item = [], spots = [], plain = []] = scopesOf(lines);
    const [, line = '', itemLine = '', spotsLine = '', plainLine = ''] = lines;
    expect(stretches(line, leave, 'entity.name.tag')).toEqual(['leave']);
    expect(stretches(line, leave, 'constant.numeric.time')).toEqual(['06:30']);
    expect(stretches(line, leave, 'comment')).toEqual(['# x']);
    expect(stretches(itemLine, item, 'entity.name.type.id')).toEqual(['steps']);
    expect(stretches(spotsLine, spots, 'entity.name.tag')).toEqual(['spots']);
    expect(stretches(plainLine, plain, 'constant.numeric.aperture')).toEqual(['14']);
  });

  test('an unclosed quote ends where the next key or item of the same list begins', () => {
    expectScopes(`
  a: { from: "54.395, -2.640, leave: sunrise }
    - id: steps
#         ^^^^^ entity.name.type.id
  b: 06:30
#    ^^^^^ constant.numeric.time`);
  });

  test('a quoted text of several lines stays a text', () => {
    expectScopes(`
  a: "first
#    ^^^^^^ string.quoted.double
    second 06:30"
#   ^^^^^^^^^^^^^ string.quoted.double
  b: 06:30
#    ^^^^^ constant.numeric.time`);
  });

  // A pattern that takes more than quadratic time on any of these runs into the limit of the test runner.
  test('long lines of anything are got through, and the next line is coloured again', () => {
    const units = [
      '1',
      '1/',
      '1.',
      '1 ',
      ' ',
      '\t',
      '"',
      "'",
      '\\"',
      "''",
      '- ',
      '[',
      '{',
      ': ',
      'a:',
      'a-',
      'name: ',
      '#',
      '&',
      '*',
      '!',
      '°',
      "1°1'",
    ];
    const openings = ['', 'a: ', 'a: "', "a: '", '- ', '[', 'a: geo:', 'a: civil', 'a: |'];
    for (const unit of units) {
      for (const opening of openings) {
        const long = opening + unit.repeat(Math.floor(2_000 / unit.length));
        const [scopes = [], next = []] = scopesOf([long, 'at: 06:30']);
        expect(scopes.length, long.slice(0, 20)).toBe(long.length);
        expect(stretches('at: 06:30', next, 'constant.numeric.time'), long.slice(0, 20)).toEqual(['06:30']);
      }
    }
  });
});

describe('the vocabulary of the language', () => {
  test.each(events.map(({ name }) => name))('event: %s', (name) => {
    const lines = [
      `start: ${name}`,
      `- { start: ${name} + 10 min }`,
      `open: [${name} .. 21:00]`,
      `start: ${name} # ${name}`,
    ];
    for (const [row, scopes] of scopesOf(lines).entries()) {
      expect(stretches(lines[row] ?? '', scopes, 'support.constant.event')).toEqual([name]);
    }
  });

  test('what looks like an event is none', () => {
    for (const line of [
      'a: sunrises',
      'a: pre-sunrise',
      'a: sunset-pool',
      'a: deep water',
      'a: civil',
      'a: moon',
    ]) {
      expect(stretches(line, scopesOf([line])[0] ?? [], 'support'), line).toEqual([]);
    }
  });

  const kinds = [
    angle,
    aperture,
    apertureRange,
    bearing,
    clock,
    condition,
    coordinates,
    date,
    duration,
    exposureValue,
    filterStrength,
    focalLength,
    height,
    instant,
    length,
    lensChoice,
    metered,
    moment,
    momentRange,
    pixelSize,
    sensitivity,
    sensorSize,
    share,
    shutter,
    shutterRange,
    speed,
    stopStep,
    stops,
    temperature,
    threadSize,
  ];
  test.each(kinds.map((kind) => ({ name: kind.name, examples: kind.examples })))(
    'every digit of the examples is coloured: $name',
    ({ examples }) => {
      expect(examples).not.toEqual([]);
      for (const example of examples) {
        const line = `key: ${example} # x`;
        const scopes = scopesOf([line])[0] ?? [];
        const plain = [...line].filter(
          (char, at) => /\d/.test(char) && !within(scopes[at], 'constant.numeric'),
        );
        expect(plain, example).toEqual([]);
        expect(stretches(line, scopes, 'comment'), example).toEqual(['# x']);
      }
    },
  );
});

describe('the file itself', () => {
  const raw: unknown = JSON.parse(grammarText);
  const nodes: Record<string, unknown>[] = [];
  const walk = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    if (!Array.isArray(node)) nodes.push(node as Record<string, unknown>);
    for (const child of Object.values(node)) walk(child);
  };
  walk(raw);

  test('includes lead to rules, and every rule is included', () => {
    const { repository } = raw as { repository: Record<string, unknown> };
    const included = new Set(
      nodes.flatMap(({ include }) => (typeof include === 'string' ? [include.slice(1)] : [])),
    );
    expect([...included].sort()).toEqual(Object.keys(repository).sort());
  });

  test('scopes end with the name of the language and begin with a standard one', () => {
    const names = nodes
      .flatMap(({ name, contentName }) => [name, contentName])
      .filter((name) => typeof name === 'string');
    const standard =
      /^(comment|constant|entity|invalid|keyword|meta|punctuation|storage|string|support|variable)\b.*\.shootplan$/;
    const odd = names.filter((name) => !standard.test(name) && name !== 'Shoot Plan');
    expect(odd).toEqual([]);
  });
});
