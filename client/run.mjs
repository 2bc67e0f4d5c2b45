// Runs a TypeScript program of the project: bundles it into one temporary file and loads that.
//
//   node client/run.mjs FILE [ARGUMENTS]
//
// In every source, `import.meta.url` is that of the source itself.
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const [entry, ...rest] = process.argv.slice(2);
if (entry === undefined) {
  console.error('Say which file to run: node client/run.mjs FILE');
  process.exit(2);
}
const source = resolve(entry);
// Inside node_modules, so that packages which cannot be bundled are found from there.
const cache = fileURLToPath(new URL('../node_modules/.cache/', import.meta.url));
mkdirSync(cache, { recursive: true });
const temporary = mkdtempSync(join(cache, 'shoot-plan-run-'));
process.on('exit', () => rmSync(temporary, { recursive: true, force: true }));

function keepSourceUrls({ onLoad }) {
  onLoad({ filter: /\.ts$/ }, ({ path }) => ({
    contents: readFileSync(path, 'utf8').replaceAll(
      'import.meta.url',
      JSON.stringify(pathToFileURL(path).href),
    ),
    loader: 'ts',
  }));
}

const outfile = join(temporary, 'main.mjs');
await build({
  entryPoints: [source],
  outfile,
  bundle: true,
  external: ['playwright-core'],
  platform: 'node',
  format: 'esm',
  target: 'node20',
  sourcemap: 'inline',
  logLevel: 'warning',
  plugins: [{ name: 'source-urls', setup: keepSourceUrls }],
  // Packages that are CommonJS ask for Node's own modules by `require`.
  banner: {
    js: `import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(${JSON.stringify(source)});`,
  },
});
process.setSourceMapsEnabled(true);
process.argv = [process.argv[0], source, ...rest];
await import(pathToFileURL(outfile).href);
