// Runs a TypeScript program of the project: bundles it into one temporary file and loads that.
//
//   node client/run.mjs FILE [ARGUMENTS]
//
// In FILE itself, `import.meta.url` is that of the source.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const [entry, ...rest] = process.argv.slice(2);
if (entry === undefined) {
  console.error('Say which file to run: node client/run.mjs FILE');
  process.exit(2);
}
const source = resolve(entry);
const temporary = mkdtempSync(join(tmpdir(), 'shoot-plan-run-'));
process.on('exit', () => rmSync(temporary, { recursive: true, force: true }));

const outfile = join(temporary, 'main.mjs');
await build({
  entryPoints: [source],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  sourcemap: 'inline',
  logLevel: 'warning',
  define: { 'import.meta.url': JSON.stringify(pathToFileURL(source).href) },
  // Packages that are CommonJS ask for Node's own modules by `require`.
  banner: {
    js: `import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(${JSON.stringify(source)});`,
  },
});
process.setSourceMapsEnabled(true);
process.argv = [process.argv[0], source, ...rest];
await import(pathToFileURL(outfile).href);
