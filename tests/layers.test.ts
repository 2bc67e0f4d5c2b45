import { readdirSync, readFileSync } from 'node:fs';
import { join, posix, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

/**
 * The house, from the ground up. A folder may import from itself and from every folder below it, that is: further up in
 * this list; folders in one row stand side by side and know nothing of each other.
 */
const layers: readonly (readonly string[])[] = [
  ['text'],
  ['quantities'],
  ['plan', 'exposure', 'optics', 'sky'],
  ['schedule'],
  ['analysis.ts'],
  ['checks'],
  ['features'],
  ['lsp', 'cli'],
];

/** What runs only on a machine, never in a worker: the two mains and the disk that they share. */
const machine = /^(?:lsp\/(?:node|disk)\.ts|cli\/)/;

/** Side by side and yet shared: the disk of a machine, and how files of plans and kits are called. */
const shared = ['lsp/disk.ts', 'lsp/names.ts'];
/** The files of the server that the client reads too: how files are called, what both say. They import nothing. */
const common = ['server/lsp/names.ts', 'server/lsp/protocol.ts'];

/** Packages that one place has to itself. Everything else that is imported must be in `free`. */
const owned: readonly { readonly name: RegExp; readonly owner: RegExp }[] = [
  { name: /^yaml$/, owner: /^plan\/yaml\.ts$/ },
  { name: /^suncalc$/, owner: /^sky\// },
  {
    name: /^(?:temporal-polyfill|@photostructure\/tz-lookup|geomagnetism|geographiclib-geodesic)(?:\/|$)/,
    owner: /^sky\//,
  },
  { name: /^vscode-languageserver/, owner: /^lsp\// },
  { name: /^node:/, owner: machine },
];

const root = fileURLToPath(new URL('..', import.meta.url));

interface Source {
  /** Below the folder that was read, with `/`. */
  readonly path: string;
  readonly text: string;
  /** What it imports, static and dynamic, types too. */
  readonly imports: readonly string[];
}

function sourcesIn(folder: string): readonly Source[] {
  const base = join(root, folder);
  return readdirSync(base, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.m?ts$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((file) => {
      const text = readFileSync(file, 'utf8');
      return { path: relative(base, file).replaceAll('\\', '/'), text, imports: importsIn(text) };
    });
}

/** The names behind `import`, `import ... from`, `export ... from`, `import(...)` and `require(...)`. */
function importsIn(text: string): readonly string[] {
  const code = withoutComments(text);
  const lines =
    /^import\s*(['"])([^'"\n]+)\1|^(?:import|export)\s[^'"=;()]*\bfrom\s*(['"])([^'"\n]+)\3|\b(?:import|require)\s*\(\s*(['"])([^'"\n]+)\5/gm;
  return [...code.matchAll(lines)].map((match) => (match[2] ?? match[4] ?? match[6]) as string);
}

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^\s*\/\/.*$/gm, '');
}

/** The row of a path below `server/`; -1 for one that has no place in the house. */
function rowOf(path: string): number {
  const first = path.split('/')[0] as string;
  return layers.findIndex((row) => row.includes(first));
}

/** Where a relative import leads, below the folder of its source. */
function target(source: string, imported: string): string {
  return posix.normalize(posix.join(posix.dirname(source), imported));
}

const server = sourcesIn('server');
const client = sourcesIn('client');

test('the sources are read', () => {
  expect(server.length).toBeGreaterThan(120);
  expect(client.length).toBeGreaterThan(3);
  expect(server.flatMap(({ imports }) => imports).length).toBeGreaterThan(500);
});

describe('The import lines', () => {
  test('are found in every form', () => {
    const text = [
      "import { a } from './a.ts';",
      "import type {\n  B,\n} from '../b.ts';",
      "export { c } from './c.ts';",
      "import 'd';",
      'const e = await import("e");',
      "// import { f } from 'f';",
      "/* import { g } from 'g'; */",
      "const h = require('h');",
    ].join('\n');
    expect(importsIn(text)).toEqual(['./a.ts', '../b.ts', './c.ts', 'd', 'e', 'h']);
  });

  test('lead only down the layers', () => {
    const wrong: string[] = [];
    for (const { path, imports } of server) {
      const from = rowOf(path);
      if (from < 0) wrong.push(`${path} stands in no layer`);
      for (const imported of imports) {
        if (!imported.startsWith('.')) continue;
        const to = target(path, imported);
        if (to === '../package.json') continue;
        if (path.startsWith('cli/') && shared.includes(to)) continue;
        const same = to.split('/')[0] === path.split('/')[0];
        if (rowOf(to) < 0 || (!same && rowOf(to) >= from)) wrong.push(`${path} imports ${to}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  test('name a package only where it belongs', () => {
    const wrong = server.flatMap(({ path, imports }) =>
      imports
        .filter((imported) => !imported.startsWith('.'))
        .filter((imported) => !owned.some(({ name, owner }) => name.test(imported) && owner.test(path)))
        .map((imported) => `${path} imports ${imported}`),
    );
    expect(wrong).toEqual([]);
  });

  test('carry the extension .ts', () => {
    const wrong = [...server, ...client].flatMap(({ path, imports }) =>
      imports
        .filter((imported) => imported.startsWith('.') && !/\.(?:ts|mjs|json)$/.test(imported))
        .map((imported) => `${path} imports ${imported}`),
    );
    expect(wrong).toEqual([]);
  });

  test('of the client name nothing of the server but how files are called and what both say', () => {
    const wrong = client.flatMap(({ path, imports }) =>
      imports
        .filter((imported) => /\bserver\//.test(imported))
        .filter((imported) => !common.includes(target(`client/${path}`, imported)))
        .map((imported) => `${path} imports ${imported}`),
    );
    expect(wrong).toEqual([]);
    for (const file of common) {
      expect(server.find(({ path }) => `server/${path}` === file)?.imports).toEqual([]);
    }
  });

  test('run in no circle', () => {
    const graph = new Map(
      server.map(({ path, text }) => [
        path,
        // What is imported as a type only is gone when the program runs.
        importsIn(text.replace(/^(?:import|export) type [\s\S]*?;$/gm, ''))
          .filter((imported) => imported.startsWith('.'))
          .map((imported) => target(path, imported)),
      ]),
    );
    expect(circleIn(graph)).toEqual([]);
  });
});

/** One circle of a graph, or nothing. */
function circleIn(graph: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const done = new Set<string>();
  const visit = (node: string, above: readonly string[]): readonly string[] => {
    if (above.includes(node)) return [...above.slice(above.indexOf(node)), node];
    if (done.has(node)) return [];
    for (const next of graph.get(node) ?? []) {
      const circle = visit(next, [...above, node]);
      if (circle.length > 0) return circle;
    }
    done.add(node);
    return [];
  };
  for (const node of graph.keys()) {
    const circle = visit(node, []);
    if (circle.length > 0) return circle;
  }
  return [];
}

describe('The core', () => {
  const core = server.filter(({ path }) => !machine.test(path));
  const pure = core.filter(({ path }) => !path.startsWith('lsp/'));

  test('has no module-level state that could change', () => {
    const wrong: string[] = [];
    for (const { path, text } of core) {
      for (const line of withoutComments(text).split('\n')) {
        // What belongs to the module stands in the first column.
        if (/^(?:export )?(?:let|var)\b/.test(line)) wrong.push(`${path}: ${line}`);
        const made = /^(?:export )?const (\w+)(.*)= (?:new (?:Map|Set|WeakMap|WeakSet|Array)\b|\[|\{)/.exec(
          line,
        );
        if (made === null) continue;
        if (!changed(made[1] as string, text)) continue;
        wrong.push(`${path}: ${line}`);
      }
      for (const made of text.matchAll(
        /^(?:export )?const (\w+)([^=\n]*)= new (?:Map|Set|WeakMap|WeakSet)\b/gm,
      )) {
        if (!/Readonly(?:Map|Set)</.test(made[2] as string))
          wrong.push(`${path}: ${made[1]} is not typed Readonly`);
      }
    }
    expect(wrong).toEqual([]);
  });

  test('asks no clock, no chance, no locale, no machine', () => {
    const asked =
      /\bDate\.now\b|\bnew Date\(\)|\bDate\(\)|\bMath\.random\b|\bperformance\.now\b|\bprocess\.|\btoLocale\w*\(|\blocaleCompare\(|\bIntl\.(?!DateTimeFormat\b|supportedValuesOf\b)|\bBuffer\b|\bnow\.(?:instant|zoned)/;
    const wrong = pure.flatMap(({ path, text }) =>
      withoutComments(text)
        .split('\n')
        .filter((line) => asked.test(line))
        .map((line) => `${path}: ${line.trim()}`),
    );
    expect(wrong).toEqual([]);
  });
});

/** Whether a module writes to one of its own constants. */
function changed(name: string, text: string): boolean {
  const writes = new RegExp(
    `\\b${name}\\.(?:push|pop|shift|unshift|splice|sort|reverse|fill|set|add|delete|clear)\\(|\\b${name}(?:\\.\\w+|\\[[^\\]\\n]*\\])\\s*(?:[-+*/|&]|\\?\\?|\\|\\|)?=(?!=)`,
  );
  return writes.test(text);
}

test('source files stay below 450 lines', () => {
  const long = [
    ...server.map((source) => ['server', source] as const),
    ...client.map((source) => ['client', source] as const),
  ]
    .map(([folder, { path, text }]) => ({ path: `${folder}/${path}`, lines: text.split('\n').length }))
    .filter(({ lines }) => lines > 450);
  expect(long).toEqual([]);
});

test('modules have named exports only', () => {
  const wrong = [...server, ...client]
    .filter(({ text }) => /^export default\b/m.test(text))
    .map(({ path }) => path);
  expect(wrong).toEqual([]);
});
