import fc from 'fast-check';

/** Well-formed block YAML with comments, blank lines, all kinds of scalars and both kinds of lists. */
export function yamlText(): fc.Arbitrary<string> {
  return fc
    .tuple(block(), fc.nat(2))
    .map(([node, column]) => `${node.write(column).trimStart().replace(/^/, ' '.repeat(column))}`);
}

/** A block that writes itself with its lines at some column. */
interface Block {
  /** Lines, each with its indentation and line end. */
  write(column: number): string;
}

const word = fc.constantFrom(
  'id',
  'name',
  'facing',
  'at',
  'tilt',
  'iso',
  'wide angle',
  'f/14',
  '06:30',
  '118°',
  '-3°',
  'x#y',
  'a:b',
  '1/2 s',
  '🌅',
);
const trailing = fc.constantFrom('', '', '', ' ', ' # note', '  # key: value', '\t');
const between = fc.constantFrom(
  '',
  '',
  '',
  '',
  '\n',
  '# far left\n',
  '        # far right\n',
  '  \n',
  '\n# - id: none\n\n',
);

const inline = fc.oneof(
  { weight: 6, arbitrary: word },
  word.map((text) => `"${text} \\u00e9"`),
  word.map((text) => `'${text}''s: # x'`),
  fc
    .array(word, { maxLength: 3 })
    .map((items) => `[${items.map((item) => JSON.stringify(item)).join(', ')}]`),
  fc
    .array(word, { maxLength: 3 })
    .map((items) => `{ ${items.map((item, at) => `k${at}: "${item}"`).join(', ')} }`),
  fc.constant('&anchor word'),
);

/** Values that go on over several lines, each of which stands at `column` or further in. */
const manyLines = fc.tuple(word, word, fc.nat(3)).chain(([first, second, more]) =>
  fc.constantFrom<(column: number) => string>(
    (column) => `|\n${pad(column + more)}${first}: x\n\n${pad(column + more)}- ${second}`,
    (column) => `>-\n${pad(column + more)}${first}\n${pad(column + more)}  ${second}\n`,
    (column) => `|+\n${pad(column)}${first}\n\n`,
    (column) => `"${first}:\n${pad(column + more)}- ${second}\n\n${pad(column)}end"`,
    (column) => `'${first}\n${pad(column)}${second} # none'`,
    (column) => `text\n${pad(column + more)}goes on\n${pad(column)}- here`,
    (column) =>
      `[${JSON.stringify(first)},\n# far left\n${pad(column)}${JSON.stringify(second)}, # note\n\n${pad(column)}]`,
    (column) => `{ a: 1,\n${pad(column + more)}b: [x,\n${pad(column)}y] }`,
  ),
);

const value = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.tuple(inline, trailing).map(
      ([text, end]) =>
        (_: number) =>
          ` ${text}${end}\n`,
    ),
  },
  { weight: 2, arbitrary: manyLines.map((write) => (column: number) => ` ${write(column)}\n`) },
  fc.constant((_: number) => '\n'),
);

function block(): fc.Arbitrary<Block> {
  return fc.letrec<{ map: Block; list: Block }>((tie) => ({
    map: fc
      .tuple(
        fc.array(
          fc.tuple(
            between,
            fc.oneof(
              { depthSize: 'small', withCrossShrink: true },
              value.map((write) => (column: number) => write(column + 1)),
              nested(tie('map') as fc.Arbitrary<Block>, 1),
              nested(tie('list') as fc.Arbitrary<Block>, 0),
            ),
          ),
          { minLength: 1, maxLength: 5 },
        ),
      )
      .map(([entries]) => ({
        write: (column: number) =>
          entries.map(([gap, write], at) => `${gap}${pad(column)}${keys[at]}:${write(column)}`).join(''),
      })),
    list: fc
      .tuple(
        fc.array(
          fc.tuple(
            between,
            fc.oneof(
              { depthSize: 'small', withCrossShrink: true },
              value.map((write) => (column: number) => write(column + 1)),
              compact(tie('map') as fc.Arbitrary<Block>),
              nested(tie('map') as fc.Arbitrary<Block>, 1),
            ),
          ),
          { minLength: 1, maxLength: 4 },
        ),
      )
      .map(([items]) => ({
        write: (column: number) =>
          items.map(([gap, write]) => `${gap}${pad(column)}-${write(column)}`).join(''),
      })),
  })).map;
}

const keys = ['plan', 'spots', '"quoted key"', 'height-needed', 'with space'];

/** A block on the lines below its key or dash, at least `least` columns further in. */
function nested(inner: fc.Arbitrary<Block>, least: number): fc.Arbitrary<(column: number) => string> {
  return fc.tuple(inner, fc.nat(3), fc.constantFrom('\n', ' # note\n', ' &a\n', '\n# far left\n\n')).map(
    ([block, by, head]) =>
      (column: number) =>
        `${head}${block.write(column + least + by)}`,
  );
}

/** A map that begins on the line of its dash. */
function compact(inner: fc.Arbitrary<Block>): fc.Arbitrary<(column: number) => string> {
  return fc.tuple(inner, fc.integer({ min: 1, max: 3 })).map(([block, gap]) => (column: number) => {
    const written = block.write(column + 1 + gap);
    const lead = written.search(/^ *[^\s#]/m);
    return pad(gap) + written.slice(lead).trimStart();
  });
}

function pad(column: number): string {
  return ' '.repeat(column);
}
